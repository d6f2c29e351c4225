import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ARCHIVE_SCHEMA, createArchive, lockDirectory, openDatabase } from '../../services/archive/index.js';
import { openStores, temporaryDirectory } from '../support/open.js';

test('a database opens with a write-ahead log that is synced at every commit', () => {
  const { database } = openStores();
  expect(database.pragma('journal_mode', { simple: true })).toBe('wal');
  expect(database.pragma('synchronous', { simple: true })).toBe(2); // 2 is FULL.
});

test('opening again keeps what is there', () => {
  const directory = temporaryDirectory();
  const first = openDatabase(directory, [ARCHIVE_SCHEMA]);
  first.prepare('INSERT INTO probe_key (site, probe) VALUES (?, ?)').run('s', 'p');
  first.close();
  const again = openDatabase(directory, [ARCHIVE_SCHEMA]);
  expect(again.prepare('SELECT count(*) FROM probe_key').pluck().get()).toBe(1);
  again.close();
});

test('an old file gets the tables that were added, and keeps its readings', () => {
  const directory = temporaryDirectory();
  const old = openDatabase(directory, [{ name: 'archive', steps: ARCHIVE_SCHEMA.steps.slice(0, 1) }]);
  old.exec('INSERT INTO reading (probe, time, temperature) VALUES (1, 5, 20)');
  old.close();
  const database = openDatabase(directory, [ARCHIVE_SCHEMA]);
  const { flags, readings } = createArchive(database);
  flags.put('pit-a', 1, 0, [{ at: 5, quantity: 'temperature', reason: 'stuck' }]);
  expect(flags.totals()).toEqual(new Map([['stuck', 1]]));
  expect(readings.samples(1, 0, 9)).toEqual([{ at: 5, temperature: 20 }]);
  database.close();
});

test('a file of a newer program is refused in a sentence', () => {
  const directory = temporaryDirectory();
  const steps = [...ARCHIVE_SCHEMA.steps, 'CREATE TABLE of_the_future (id INTEGER)'];
  openDatabase(directory, [{ name: 'archive', steps }]).close();
  expect(() => openDatabase(directory, [ARCHIVE_SCHEMA])).toThrow(
    `has ${steps.length} schema steps, this program knows ${ARCHIVE_SCHEMA.steps.length}`,
  );
});

test('a schema step that fails leaves the file as it was', () => {
  const directory = temporaryDirectory();
  openDatabase(directory, [ARCHIVE_SCHEMA]).close();
  const steps = [...ARCHIVE_SCHEMA.steps, 'CREATE TABLE half (id INTEGER); SELECT nonsense'];
  expect(() => openDatabase(directory, [{ name: 'archive', steps }])).toThrow(/cannot open .*nonsense/);
  const database = openDatabase(directory, [ARCHIVE_SCHEMA]);
  expect(database.prepare("SELECT count(*) FROM sqlite_schema WHERE name = 'half'").pluck().get()).toBe(0);
  database.close();
});

test('a file that is no database is refused', () => {
  const directory = temporaryDirectory();
  writeFileSync(join(directory, 'sandlarder.db'), 'this is a letter to the extension office, not a database');
  expect(() => openDatabase(directory, [ARCHIVE_SCHEMA])).toThrow(
    /cannot open .*sandlarder\.db: .* is damaged \(it is no database, or its first page is damaged\): stop the service/,
  );
});

test('a data directory that is a file is refused', () => {
  const file = join(temporaryDirectory(), 'data');
  writeFileSync(file, '');
  expect(() => openDatabase(file, [ARCHIVE_SCHEMA])).toThrow(
    /^expected a folder that is there or can be made at .*data, got a file of that name$/,
  );
});

test('a database whose file name is a directory is refused', () => {
  const directory = temporaryDirectory();
  mkdirSync(join(directory, 'sandlarder.db'));
  expect(() => openDatabase(directory, [ARCHIVE_SCHEMA])).toThrow(/cannot open/);
});

test('a data directory is locked once, and free again when let go', () => {
  const directory = temporaryDirectory();
  const release = lockDirectory(directory);
  expect(() => lockDirectory(directory)).toThrow(/another service is running/);
  release();
  lockDirectory(directory)();
});

test('a data directory that cannot be one is not told as taken', () => {
  const file = join(temporaryDirectory(), 'data');
  writeFileSync(file, '');
  expect(() => lockDirectory(file)).toThrow(/expected a folder .* at .*data, got a file of that name$/);
  const directory = temporaryDirectory();
  mkdirSync(join(directory, 'serving.lock'));
  expect(() => lockDirectory(directory)).toThrow(
    /cannot use the data directory .*unable to open database file/,
  );
});
