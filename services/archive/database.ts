/**
 * The one SQLite file of a data directory: opened, set to survive a power cut, and brought up to date.
 *
 * Source of the settings: SQLite documentation, "Write-Ahead Logging" and "PRAGMA synchronous". With a
 * write-ahead log, FULL syncs the log at every commit, so that nothing committed is lost by a power cut; NORMAL
 * would keep the file sound but could lose the last commits.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { SandlarderError } from '../core/errors.js';
import { copyBeforeUpgrade } from './before-upgrade.js';
import { openFile } from './driver.js';
import { makePrivateFolder } from './make-folder.js';
import { troubleOf } from './store-trouble.js';

export type { Database } from 'better-sqlite3';

/** How long a statement waits for another process (a `load`, a backup) to finish writing, ms. */
const BUSY_TIMEOUT_ms = 10_000;

/** Pages of log after which SQLite copies it into the file: bounds the log at about 16 MB. */
const LOG_PAGES = 4_000;

/** Marks the folder of a centre, which has a data directory for each of its partitions and is none itself. */
export const GROUP_FILE = 'group.json';

/** One step of the schema, in SQL; steps are only ever added. */
export interface SchemaPart {
  readonly name: string;
  readonly steps: readonly string[];
}

/**
 * Opens `sandlarder.db` in the directory, making both where they are missing. What an older program wrote is copied and
 * then brought up to date, in one transaction; there is no way back but the copy.
 *
 * @throws SandlarderError STORE_UNAVAILABLE where the directory cannot be written, the file is no database, or a
 *   newer program wrote it
 */
export function openDatabase(directory: string, parts: readonly SchemaPart[]): Database.Database {
  const file = join(directory, 'sandlarder.db');
  requireNoCentre(directory);
  try {
    makePrivateFolder(directory);
    const database = openFile(file, { timeout: BUSY_TIMEOUT_ms });
    database.pragma('journal_mode = WAL');
    database.pragma('synchronous = FULL');
    database.pragma('foreign_keys = ON');
    database.pragma(`wal_autocheckpoint = ${LOG_PAGES}`);
    copyBeforeUpgrade(database, file, parts);
    database.transaction(() => bringUpToDate(database, parts)).immediate();
    return database;
  } catch (error) {
    if (error instanceof SandlarderError) throw error;
    const reason = troubleOf(error, directory) ?? (error instanceof Error ? error.message : String(error));
    throw new SandlarderError('STORE_UNAVAILABLE', `cannot open ${file}: ${reason}`, { cause: error });
  }
}

function requireNoCentre(directory: string): void {
  if (existsSync(join(directory, GROUP_FILE)))
    throw new SandlarderError(
      'WRONG_USAGE',
      `--data: expected a data directory, got ${directory}, which is the folder of a centre: name one of its partitions, such as ${join(directory, 'p000')}`,
    );
}

function bringUpToDate(database: Database.Database, parts: readonly SchemaPart[]): void {
  database.exec(
    'CREATE TABLE IF NOT EXISTS schema_step (part TEXT NOT NULL, step INTEGER NOT NULL, PRIMARY KEY (part, step)) STRICT',
  );
  const count = database.prepare('SELECT count(*) AS done FROM schema_step WHERE part = ?');
  const note = database.prepare('INSERT INTO schema_step (part, step) VALUES (?, ?)');
  for (const { name, steps } of parts) {
    const { done } = count.get(name) as { done: number };
    if (done > steps.length)
      throw new SandlarderError(
        'STORE_UNAVAILABLE',
        `${database.name} was written by a newer program: its part "${name}" has ${done} schema steps, this program knows ${steps.length}`,
      );
    steps.slice(done).forEach((step, index) => {
      database.exec(step);
      note.run(name, done + index + 1);
    });
  }
}
