import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ARCHIVE_SCHEMA, lockDirectory, openDatabase } from '../../services/archive/index.js';
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

test('a file of a newer program is refused in a sentence', () => {
  const directory = temporaryDirectory();
  const steps = [...ARCHIVE_SCHEMA.steps, 'CREATE TABLE of_the_future (id INTEGER)'];
  openDatabase(directory, [{ name: 'archive', steps }]).close();
  expect(() => openDatabase(directory, [ARCHIVE_SCHEMA])).toThrow(/written by a newer program.*knows 1/);
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
    /cannot open .*sandlarder\.db: file is not a database/,
  );
});

test('a data directory that is a file is refused', () => {
  const file = join(temporaryDirectory(), 'data');
  writeFileSync(file, '');
  expect(() => openDatabase(file, [ARCHIVE_SCHEMA])).toThrow(/cannot open/);
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
  expect(() => lockDirectory(file)).toThrow(/cannot use the data directory .*data: EEXIST/);
  const directory = temporaryDirectory();
  mkdirSync(join(directory, 'serving.lock'));
  expect(() => lockDirectory(directory)).toThrow(
    /cannot use the data directory .*unable to open database file/,
  );
});
