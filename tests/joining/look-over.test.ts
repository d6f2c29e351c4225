/** The look at every page: when it is due, and what it says. */
import { closeSync, existsSync, openSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { endedUncleanly } from '../../services/archive/index.js';
import { DAY_ms } from '../../services/core/model/time.js';
import { LookOver } from '../../services/joining/look-over.js';
import { openStores, temporaryDirectory } from '../support/open.js';

const NOW = Date.UTC(2027, 0, 1);

/** A database with readings, at rest; over a part of them, where asked, something else is written. */
function written({ torn = false } = {}): string {
  const { directory, database, archive } = openStores();
  database.transaction(() => {
    for (let at = 0; at < 20_000; at += 1) archive.readings.put(1, at, { temperature: at % 30 });
  })();
  const pages = database
    .prepare("SELECT pageno FROM dbstat WHERE name = 'reading' AND pagetype = 'leaf'")
    .pluck()
    .all() as number[];
  database.pragma('wal_checkpoint(TRUNCATE)');
  database.close();
  if (torn) {
    const file = openSync(join(directory, 'sandlarder.db'), 'r+');
    writeSync(file, Buffer.alloc(4096, 0xa5), 0, 4096, ((pages[3] ?? 1) - 1) * 4096);
    closeSync(file);
  }
  return directory;
}

function looking(directory: string, mark?: number) {
  const kept = new Map(mark === undefined ? [] : [['pages-looked-at', String(mark)]]);
  const damages: string[] = [];
  const errors: unknown[] = [];
  let now = NOW;
  const look = new LookOver({
    ...{ directory, now: () => now },
    own: { get: (name) => kept.get(name), set: (name, value) => void kept.set(name, value) },
    onDamage: (damage) => void damages.push(damage),
    onError: (error) => void errors.push(error),
  });
  return {
    ...{ look, damages, errors },
    mark: () => Number(kept.get('pages-looked-at')),
    pass: (time_ms: number) => {
      now += time_ms;
    },
  };
}

describe('a look', () => {
  test.each([
    ['after an end that was none', true, NOW - DAY_ms, true],
    ['after a month', false, NOW - 30 * DAY_ms, true],
    ['of a mark from the future', false, NOW + DAY_ms, true],
    ['of a mark that is none', false, Number.NaN, true],
    ['within the month', false, NOW - 29 * DAY_ms, false],
    ['without a mark: the database is new', false, undefined, false],
  ])('%s', (_, unclean, mark, looked) => {
    const { look, damages, errors, mark: kept } = looking(written({ torn: true }), mark);
    look.begin(unclean);
    look.close();
    expect(errors).toEqual([]);
    expect(damages).toHaveLength(looked ? 1 : 0);
    if (!looked) expect(kept()).toBe(mark ?? NOW);
  });

  test('that finds nothing is noted, and one that finds damage is not', () => {
    const sound = looking(written(), NOW - 40 * DAY_ms);
    sound.look.begin(false);
    sound.look.close();
    expect([sound.damages, sound.mark()]).toEqual([[], NOW]);
    const torn = looking(written({ torn: true }), NOW - 40 * DAY_ms);
    torn.look.begin(false);
    torn.look.close();
    expect(torn.damages[0]).toMatch(/page \d+|malformed/);
    expect(torn.mark()).toBe(NOW - 40 * DAY_ms);
  });

  test('of what cannot be read is an error and no damage', () => {
    const { look, damages, errors } = looking(temporaryDirectory(), 0);
    look.begin(true);
    look.close();
    expect(damages).toEqual([]);
    expect(errors).toEqual([expect.stringMatching(/found none/)]);
  });

  test('comes again after a month of running', () => {
    vi.useFakeTimers();
    const { look, mark, pass } = looking(written(), NOW);
    look.begin(false);
    pass(29 * DAY_ms);
    vi.advanceTimersByTime(DAY_ms);
    expect(mark()).toBe(NOW);
    pass(DAY_ms);
    vi.advanceTimersByTime(DAY_ms);
    expect(mark()).toBe(NOW + 30 * DAY_ms);
    look.close();
    vi.useRealTimers();
  });
});

test('an end is known as none by the log that it left', () => {
  const directory = written();
  expect(existsSync(join(directory, 'sandlarder.db-wal'))).toBe(false);
  expect(endedUncleanly(directory)).toBe(false);
  writeFileSync(join(directory, 'sandlarder.db-wal'), '');
  expect(endedUncleanly(directory)).toBe(false);
  const { database } = openStores(directory);
  database.exec('CREATE TABLE other (id INTEGER)');
  expect(endedUncleanly(directory)).toBe(true);
  expect(endedUncleanly(join(directory, 'gone'))).toBe(false);
});
