/** What is said of a store that cannot be written, is damaged, or has little room. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { lastBackup, noteBackup } from '../../services/archive/last-backup.js';
import { LITTLE_ROOM_bytes, StoreWatch } from '../../services/joining/store-watch.js';
import { temporaryDirectory } from '../support/open.js';

const sqlite = (code: string, message = 'said'): Error => Object.assign(new Error(message), { code });

function watched(directory = temporaryDirectory()) {
  let [time, free] = [0, LITTLE_ROOM_bytes];
  const heard: string[] = [];
  const store = new StoreWatch({
    ...{ directory, clock: () => time, free: () => free, onDamage: (sentence) => heard.push(sentence) },
  });
  return {
    ...{ store, heard, directory },
    pass: (by: number) => {
      time += by;
    },
    leave: (bytes: number) => {
      free = bytes;
    },
  };
}

describe('trouble', () => {
  test.each([
    ['SQLITE_FULL', /the disk of .* is full: make room on it$/],
    ['SQLITE_BUSY', /another program is writing to the database in /],
    ['SQLITE_BUSY_SNAPSHOT', /another program is writing/],
    ['SQLITE_IOERR_WRITE', /the database in .* cannot be written: said$/],
    ['SQLITE_CONSTRAINT', /cannot be written: said$/],
  ])('%s is said in words, and is over once something is written', (code, words) => {
    const { store } = watched();
    expect(store.failed(sqlite(code))).toMatchObject({
      ...{ code: 'STORE_UNAVAILABLE', message: expect.stringMatching(words) },
    });
    expect(store.problems(true)).toEqual([expect.stringMatching(words)]);
    expect(store.problems(true)[0]).toMatch(
      /^readings cannot be stored, and are not acknowledged until they can: /,
    );
    expect(store.problems(false)[0]).toMatch(/^what comes now cannot be stored: /);
    store.works();
    expect(store.problems(false)).toEqual([]);
  });

  test('of a disk is asked of the disk: here a directory that is gone', () => {
    const { store } = watched(join(temporaryDirectory(), 'gone'));
    store.failed(sqlite('SQLITE_IOERR_WRITE'));
    expect(store.problems(true)[0]).toMatch(/the disk of .*gone is not there: mount it, or make its folder/);
  });

  test('that is none of the store is left to others', () => {
    const { store } = watched();
    for (const error of [new Error('else'), Object.assign(new Error('net'), { code: 'ECONNRESET' }), 'text'])
      expect(store.failed(error)).toBeUndefined();
    expect(store.problems(false)).toEqual([]);
    expect(store.problems(true)).toEqual([expect.stringMatching(/the store fails$/)]);
  });

  test('is tried again after a while, and not while there is none', () => {
    const { store, pass } = watched();
    expect(store.due).toBe(false);
    store.failed(sqlite('SQLITE_FULL'));
    expect(store.due).toBe(false);
    pass(5_000);
    expect(store.due).toBe(true);
    store.works();
    expect(store.due).toBe(false);
  });
});

describe('damage', () => {
  test('stays, is told once, and names the command that restores the last backup', () => {
    const { store, heard, directory } = watched(join(temporaryDirectory(), "Ann's data"));
    mkdirSync(directory);
    const file = join(directory, 'last.db');
    writeFileSync(file, '');
    noteBackup(directory, file, Date.UTC(2026, 10, 1));
    store.failed(sqlite('SQLITE_CORRUPT', 'disk image is malformed'));
    store.damaged('again');
    store.works();
    expect(store.trouble).toBeUndefined();
    const folder = directory.replace("'", "'\\''");
    expect(store.problems(false)).toEqual([
      `the database in ${directory} is damaged (a page is damaged: disk image is malformed): stop the service, then run "sandlarder restore '${folder}/last.db' --data '${folder}'"; what was measured since 2026-11-01T00:00:00Z is then only in the folder that it names`,
    ]);
    expect(heard).toEqual(store.problems(false));
  });

  test('that a transaction met is why readings wait', () => {
    const { store } = watched();
    store.failed(sqlite('SQLITE_CORRUPT_INDEX'));
    expect(store.problems(true)).toEqual([
      expect.stringMatching(/is damaged \(.*\): stop the service/),
      'readings cannot be stored, and are not acknowledged until they can: the database is damaged',
    ]);
  });

  test('without a backup that is known asks for one', () => {
    const { store } = watched();
    store.damaged('page 7');
    expect(store.problems(false)[0]).toMatch(
      /restore FILE --data \S+" with a backup that you have: none is known/,
    );
  });
});

test('little room is told before there is none', () => {
  const { store, leave } = watched();
  leave(LITTLE_ROOM_bytes - 1);
  expect(store.problems(false)).toEqual([expect.stringMatching(/^only 67 MB are left on the disk of /)]);
  store.failed(sqlite('SQLITE_FULL'));
  expect(store.problems(false)).toHaveLength(1);
});

describe('the note of the last backup', () => {
  test.each([
    '',
    '{',
    '{}',
    '{"file":7,"at":1}',
    '{"file":"/no/such/backup.db","at":1}',
    '{"at":null}',
    'null',
  ])('that is %j names none', (text) => {
    const directory = temporaryDirectory();
    writeFileSync(join(directory, 'last-backup.json'), text);
    expect(lastBackup(directory)).toBeUndefined();
  });

  test('that cannot be written is left out', () => {
    expect(() => noteBackup(join(temporaryDirectory(), 'gone'), 'b.db', 1)).not.toThrow();
  });
});
