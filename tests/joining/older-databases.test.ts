/** Databases that programs before this one wrote, one of each schema: opened, brought up to date and read. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { formatTime } from '../../services/core/model/time.js';
import { temporaryDirectory } from '../support/open.js';
import { openStation } from '../support/station.js';

const FOLDER = new URL('../fixtures/databases/', import.meta.url).pathname;
const NAMES = readdirSync(FOLDER)
  .filter((name) => name.endsWith('.db.gz'))
  .map((name) => basename(name, '.db.gz'));

interface Written {
  readonly rows: Readonly<Record<string, number>>;
  readonly alarms: readonly Readonly<Record<string, string>>[];
  readonly rootsLeft: number;
}

function openOld(name: string) {
  const directory = temporaryDirectory();
  writeFileSync(join(directory, 'sandlarder.db'), gunzipSync(readFileSync(join(FOLDER, `${name}.db.gz`))));
  const written = JSON.parse(readFileSync(join(FOLDER, `${name}.json`), 'utf8')) as Written;
  return { written, ...openStation({ directory }) };
}

test('there is a database of every schema that was in use', () => {
  expect(NAMES).toContain('archive-5-registry-9');
});

describe.each(NAMES)('%s', (name) => {
  test('keeps every row, and is copied before it is changed', () => {
    const { directory, written, database } = openOld(name);
    const rows = Object.keys(written.rows).map((table) => [
      table,
      database.prepare(`SELECT count(*) FROM ${table}`).pluck().get(),
    ]);
    expect(Object.fromEntries(rows)).toEqual(written.rows);
    const copies = readdirSync(directory).filter((file) => file.startsWith('sandlarder.db.before'));
    expect(copies.length).toBeLessThanOrEqual(1);
  });

  test('is read as it was: alarms with their answers, and the roots that are left', () => {
    const { written, views, settle } = openOld(name);
    settle();
    const alarms = views.alarms({ limit: 100 }).alarms.map(({ id, kind, action, state, raisedAt }) => ({
      id,
      kind,
      action,
      state,
      raisedAt: formatTime(raisedAt),
    }));
    expect(alarms).toEqual(written.alarms);
    expect(views.bed('pit-t').rootsLeft).toBe(written.rootsLeft);
  });
});
