import { existsSync, openSync, readdirSync, readFileSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  ARCHIVE_SCHEMA,
  backUp,
  createArchive,
  lockDirectory,
  lookOver,
  openDatabase,
  restore,
} from '../../services/archive/index.js';
import { checkData } from '../../services/commands/safekeeping/safekeeping.js';
import { REGISTRY_SCHEMA } from '../../services/registry/index.js';
import { openStores, temporaryDirectory } from '../support/open.js';

const PARTS = [ARCHIVE_SCHEMA, REGISTRY_SCHEMA];
const NOW = Date.UTC(2027, 0, 1);
const PAGE_bytes = 4096;

const fileOf = (directory: string): string => join(directory, 'sandlarder.db');

function temperatures(directory: string): (number | undefined)[] {
  const database = openDatabase(directory, PARTS);
  const samples = createArchive(database).readings.samples(1, 0, NOW);
  database.close();
  return samples.map(({ temperature }) => temperature);
}

/** A closed database with readings of one probe. */
function written(values: readonly number[], directory = temporaryDirectory()): string {
  const database = openDatabase(directory, PARTS);
  const { readings } = createArchive(database);
  database.transaction(() => {
    for (const [at, temperature] of values.entries()) readings.put(1, at, { temperature });
  })();
  database.close();
  return directory;
}

/** Writes over a page in the middle, as a failing card does. */
function tear(file: string): void {
  const middle = Math.floor(readFileSync(file).length / 2 / PAGE_bytes) * PAGE_bytes;
  const opened = openSync(file, 'r+');
  writeSync(opened, Buffer.alloc(PAGE_bytes, 0xa5), 0, PAGE_bytes, middle);
}

function tornDirectory(): string {
  const directory = written(Array.from({ length: 20_000 }, (_, at) => at % 30));
  tear(fileOf(directory));
  return directory;
}

describe('a backup', () => {
  test('is of one instant, while readings go on being taken in', async () => {
    const { directory, database, archive } = openStores();
    database.transaction(() => {
      for (let at = 0; at < 100_000; at += 1) archive.readings.put(1, at, { temperature: 20, humidity: at });
    })();
    const to = join(temporaryDirectory(), 'copy.db');
    let shares = 0;
    await backUp(directory, to, PARTS, () => {
      shares += 1;
      archive.readings.put(2, shares, { temperature: 1 });
    });
    expect(shares).toBeGreaterThan(1);
    const copy = lookOver(to, PARTS);
    expect(copy.problems).toEqual([]);
    expect(copy.tables).toContainEqual({ table: 'reading', rows: 100_000 });
    expect(database.prepare('SELECT count(*) FROM reading').pluck().get()).toBe(100_000 + shares);
  });

  test('is one file by itself, and holds what was only in the log', async () => {
    const { directory, archive } = openStores();
    archive.readings.put(1, 5, { temperature: 20 });
    const into = temporaryDirectory();
    await backUp(directory, join(into, 'sandlarder.db'), PARTS);
    expect(readdirSync(into)).toEqual(['sandlarder.db']);
    expect(temperatures(into)).toEqual([20]);
  });

  test('holds pictures too', async () => {
    const { directory, database, registry } = openStores();
    database.exec(
      "INSERT INTO inspection (id, site, bed, at, document, written_at) VALUES ('i', 's', 'b', 1, '{}', 1)",
    );
    const bytes = Buffer.from('a picture of a root');
    registry.photos.add('i', { name: 'root.jpg', mediaType: 'image/jpeg', bytes }, 1);
    const into = temporaryDirectory();
    await backUp(directory, fileOf(into), PARTS);
    expect(openStores(into).registry.photos.get('i', 'root.jpg')?.bytes).toEqual(bytes);
  });

  test('never takes the place of a file', async () => {
    const to = join(temporaryDirectory(), 'copy.db');
    writeFileSync(to, 'last year');
    await expect(backUp(written([1]), to, PARTS)).rejects.toThrow(
      /--to: expected a file that is not there yet/,
    );
    expect(readFileSync(to, 'utf8')).toBe('last year');
  });

  test('that was cut off is told from one that is whole', async () => {
    const to = join(temporaryDirectory(), 'copy.db');
    writeFileSync(`${to}.unfinished`, 'half');
    await expect(backUp(written([1]), to, PARTS)).rejects.toThrow(/one was cut off; remove it then/);
    expect(existsSync(to)).toBe(false);
  });

  test.each([
    [
      'a folder that is not there',
      (to: string) => join(to, 'nowhere', 'copy.db'),
      /can be written at .*, got a folder that is not there/,
    ],
    ['a folder', (to: string) => to, /not there yet/],
  ])('into %s is refused', async (_name, place, message) => {
    await expect(backUp(written([1]), place(temporaryDirectory()), PARTS)).rejects.toThrow(message);
  });

  test('of nothing is refused, and leaves nothing', async () => {
    const into = temporaryDirectory();
    await expect(backUp(temporaryDirectory(), join(into, 'copy.db'), PARTS)).rejects.toThrow(
      /expected the database .*, found none/,
    );
    expect(readdirSync(into)).toEqual([]);
  });

  test('of a damaged database is refused, and leaves nothing', async () => {
    const into = temporaryDirectory();
    await expect(backUp(tornDirectory(), join(into, 'copy.db'), PARTS)).rejects.toThrow(
      /is not sound, and was not copied/,
    );
    expect(readdirSync(into)).toEqual([]);
  });
});

describe('restoring', () => {
  async function backupOf(values: readonly number[]): Promise<string> {
    const to = join(temporaryDirectory(), 'copy.db');
    await backUp(written(values), to, PARTS);
    return to;
  }

  test('brings back what was kept, and keeps what was there beside it', async () => {
    const directory = written([7, 8]);
    const restored = await restore(await backupOf([1, 2, 3]), directory, PARTS, NOW);
    expect(temperatures(directory)).toEqual([1, 2, 3]);
    expect(temperatures(restored.before ?? '')).toEqual([7, 8]);
    expect(restored.before).toBe(join(directory, 'before-restore-20270101T000000Z'));
  });

  test('into a new folder makes it', async () => {
    const directory = join(temporaryDirectory(), 'new');
    expect((await restore(await backupOf([4]), directory, PARTS, NOW)).before).toBeNull();
    expect(temperatures(directory)).toEqual([4]);
  });

  test('is refused while a service runs on the folder, and changes nothing', async () => {
    const directory = written([7]);
    const unlock = lockDirectory(directory);
    const file = await backupOf([1]);
    await expect(restore(file, directory, PARTS, NOW)).rejects.toThrow(/another service is running/);
    unlock();
    expect(temperatures(directory)).toEqual([7]);
  });

  test('is refused while another program has the database open', async () => {
    const { directory, archive } = openStores();
    archive.readings.put(1, 5, { temperature: 20 });
    const file = await backupOf([1]);
    await expect(restore(file, directory, PARTS, NOW)).rejects.toThrow(/another program has .* open/);
    expect(readdirSync(directory).filter((name) => name.includes('restor'))).toEqual([]);
    expect(archive.readings.samples(1, 0, 9)).toHaveLength(1);
  });

  test('a damaged backup is refused, and changes nothing', async () => {
    const directory = written([7]);
    const file = fileOf(tornDirectory());
    await expect(restore(file, directory, PARTS, NOW)).rejects.toThrow(/is not sound/);
    expect(temperatures(directory)).toEqual([7]);
    expect(readdirSync(directory).filter((name) => name.includes('restor'))).toEqual([]);
  });

  test.each([
    ['nothing', undefined, /expected a backup .*, found none/],
    ['a letter', 'a letter to the extension office, and no database at all', /no database|not a database/],
    ['an empty file', '', /not sound|another program/],
  ])('%s is refused', async (_name, content, message) => {
    const directory = written([7]);
    const file = join(temporaryDirectory(), 'copy.db');
    if (content !== undefined) writeFileSync(file, content);
    await expect(restore(file, directory, PARTS, NOW)).rejects.toThrow(message);
    expect(temperatures(directory)).toEqual([7]);
  });

  test('that is refused leaves nothing behind, and nothing but its own is removed', async () => {
    const [outer, letter] = [temporaryDirectory(), join(temporaryDirectory(), 'copy.db')];
    writeFileSync(letter, 'a letter to the extension office, and no database at all');
    await expect(restore(letter, join(outer, 'new', 'data'), PARTS, NOW)).rejects.toThrow();
    expect(readdirSync(outer)).toEqual([]);
    writeFileSync(join(outer, 'notes.txt'), '');
    await expect(restore(letter, outer, PARTS, NOW)).rejects.toThrow();
    expect(readdirSync(outer)).toEqual(['notes.txt']);
  });

  test('over a damaged database keeps all that belonged to it, and takes none of its log over', async () => {
    const directory = tornDirectory();
    writeFileSync(fileOf(directory), 'torn to pieces by a dying card, and no database any more');
    writeFileSync(`${fileOf(directory)}-wal`, 'its log');
    const { before } = await restore(await backupOf([1]), directory, PARTS, NOW);
    expect(temperatures(directory)).toEqual([1]);
    expect(readFileSync(join(before ?? '', 'sandlarder.db-wal'), 'utf8')).toBe('its log');
  });
});

describe('looking a database over', () => {
  test('finds a sound one sound, with what is in it', () => {
    const directory = written([1, 2, 3]);
    const { problems, tables, size_bytes } = lookOver(fileOf(directory), PARTS);
    expect(problems).toEqual([]);
    expect(tables).toContainEqual({ table: 'reading', rows: 3 });
    expect(size_bytes).toBeGreaterThan(PAGE_bytes);
  });

  test('says that a page is damaged, and fails', () => {
    const directory = tornDirectory();
    const lines: string[] = [];
    expect(() => checkData(undefined, { data: directory }, (line) => lines.push(line))).toThrow(
      /is not sound: .*; where it is damaged, stop the service and restore a backup/,
    );
    expect(lines.join('\n')).not.toContain('problem');
  });

  test('of what is no database says why, once, and no size', () => {
    const file = join(temporaryDirectory(), 'beds.csv');
    writeFileSync(file, 'bed,treatment,value\n');
    const lines: string[] = [];
    expect(() => checkData(file, { data: '.' }, (line) => lines.push(line))).toThrow(
      /is not sound: it is no database/,
    );
    expect(lines).toEqual([]);
  });

  test('says which rows refer to what is not there', () => {
    const { directory, database } = openStores();
    database.pragma('foreign_keys = OFF');
    database.exec(
      "INSERT INTO photo (inspection, name, media_type, size, bytes, written_at) VALUES ('gone', 'n', 'image/png', 1, x'00', 1)",
    );
    expect(lookOver(fileOf(directory), PARTS).problems).toEqual([
      '1 rows of table "photo" refer to rows of "inspection" that are not there',
    ]);
  });

  test('tells a newer program and another program from damage', () => {
    const newer = temporaryDirectory();
    const steps = [...ARCHIVE_SCHEMA.steps, 'CREATE TABLE of_the_future (id INTEGER)'];
    openDatabase(newer, [{ name: 'archive', steps }]).close();
    expect(lookOver(fileOf(newer), PARTS).problems[0]).toMatch(/a newer program wrote it/);
    const other = temporaryDirectory();
    const database = openDatabase(other, []);
    database.exec('DROP TABLE schema_step');
    database.close();
    expect(lookOver(fileOf(other), PARTS).problems[0]).toMatch(/database of another program/);
  });

  test('of nothing is refused by its name', () => {
    expect(() => checkData('/nowhere/copy.db', { data: '.' }, () => undefined)).toThrow(
      'expected the database /nowhere/copy.db, found none',
    );
  });
});
