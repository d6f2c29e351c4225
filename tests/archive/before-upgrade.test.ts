import { chmodSync, mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openFile } from '../../services/archive/driver.js';
import { ARCHIVE_SCHEMA, openDatabase } from '../../services/archive/index.js';
import { REGISTRY_SCHEMA } from '../../services/registry/index.js';
import { temporaryDirectory } from '../support/open.js';

const PARTS = [ARCHIVE_SCHEMA, REGISTRY_SCHEMA];
const STEPS = ARCHIVE_SCHEMA.steps.length;
const OLDER = [{ name: 'archive', steps: ARCHIVE_SCHEMA.steps.slice(0, STEPS - 1) }];
const COPY = `sandlarder.db.before-archive-${STEPS - 1}`;

/** A data directory that a program of one step less wrote, with one probe in it. */
function olderDirectory(): string {
  const directory = temporaryDirectory();
  const old = openDatabase(directory, OLDER);
  old.prepare('INSERT INTO probe_key (site, probe) VALUES (?, ?)').run('s', 'p');
  old.close();
  return directory;
}

const copiesIn = (directory: string): string[] =>
  readdirSync(directory).filter((name) => name.startsWith('sandlarder.db.before'));

function probesOf(file: string): unknown {
  const database = openFile(file, { readonly: true });
  try {
    return database.prepare('SELECT count(*) FROM probe_key').pluck().get();
  } finally {
    database.close();
  }
}

describe('a file that an older program wrote', () => {
  test('is copied as it was before it is brought up to date', () => {
    const directory = olderDirectory();
    openDatabase(directory, PARTS).close();
    expect(copiesIn(directory)).toEqual([COPY]);
    expect(probesOf(join(directory, COPY))).toBe(1);
    const copy = openFile(join(directory, COPY), { readonly: true });
    expect(copy.prepare('SELECT part, count(*) AS steps FROM schema_step GROUP BY part').all()).toEqual([
      { part: 'archive', steps: STEPS - 1 },
    ]);
    copy.close();
  });

  test('is copied anew where an attempt before left a copy, and the older program went on', () => {
    const directory = olderDirectory();
    const failing = [{ name: 'archive', steps: [...ARCHIVE_SCHEMA.steps, 'SELECT nonsense'] }];
    expect(() => openDatabase(directory, failing)).toThrow(/nonsense/);
    expect(copiesIn(directory)).toEqual([COPY]);
    const old = openDatabase(directory, OLDER);
    old.prepare('INSERT INTO probe_key (site, probe) VALUES (?, ?)').run('s', 'q');
    old.close();
    openDatabase(directory, PARTS).close();
    expect(probesOf(join(directory, COPY))).toBe(2);
  });

  test('stays as it was where there is no room for the copy', () => {
    const directory = olderDirectory();
    mkdirSync(join(directory, COPY));
    chmodSync(join(directory, COPY), 0o500);
    expect(() => openDatabase(directory, PARTS)).toThrow(
      /cannot copy .*sandlarder\.db to .*before it is brought up to date \(expected about \d+ MB free\): .*; nothing was changed$/,
    );
    expect(readdirSync(directory).filter((name) => name.includes(String(process.pid)))).toEqual([]);
    openDatabase(directory, OLDER).close();
    expect(probesOf(join(directory, 'sandlarder.db'))).toBe(1);
  });
});

test('a new file and one that is up to date are not copied', () => {
  const directory = temporaryDirectory();
  openDatabase(directory, PARTS).close();
  openDatabase(directory, PARTS).close();
  expect(copiesIn(directory)).toEqual([]);
});

test('a file of a newer program is not copied', () => {
  const directory = temporaryDirectory();
  const newer = [
    { name: 'archive', steps: [...ARCHIVE_SCHEMA.steps, 'CREATE TABLE of_the_future (id INTEGER)'] },
  ];
  openDatabase(directory, newer).close();
  expect(() => openDatabase(directory, [ARCHIVE_SCHEMA])).toThrow(/newer program/);
  expect(copiesIn(directory)).toEqual([]);
});
