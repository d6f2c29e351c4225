/** The database of a data directory for looking only: nothing is made, changed or locked. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { SandlarderError } from '../core/errors.js';
import type { SchemaPart } from './database.js';
import { openFile } from './driver.js';

/** How long a look waits for whoever is writing, ms. */
const BUSY_TIMEOUT_ms = 10_000;

/**
 * Opens `sandlarder.db` in the directory, whether or not a service runs on it.
 *
 * @throws SandlarderError STORE_UNAVAILABLE where there is none, it is no database, or a program of another schema
 *   wrote it
 */
export function openForReading(directory: string, parts: readonly SchemaPart[]): Database.Database {
  const file = join(directory, 'sandlarder.db');
  if (!existsSync(file))
    throw new SandlarderError('STORE_UNAVAILABLE', `expected the database ${file}, found none`);
  let database: Database.Database | undefined;
  try {
    database = openFile(file, { readonly: true, fileMustExist: true, timeout: BUSY_TIMEOUT_ms });
    requireSchema(database, parts);
    return database;
  } catch (error) {
    database?.close();
    if (error instanceof SandlarderError) throw error;
    const reason = error instanceof Error ? error.message : String(error);
    throw new SandlarderError('STORE_UNAVAILABLE', `cannot read ${file}: ${reason}`, { cause: error });
  }
}

function requireSchema(database: Database.Database, parts: readonly SchemaPart[]): void {
  const count = database.prepare('SELECT count(*) FROM schema_step WHERE part = ?').pluck();
  for (const { name, steps } of parts) {
    const done = count.get(name) as number;
    if (done !== steps.length)
      throw new SandlarderError(
        'STORE_UNAVAILABLE',
        `${database.name}: expected ${steps.length} schema steps of part "${name}", got ${done}: ${done < steps.length ? 'start the service on it once, which brings it up to date' : 'a newer program wrote it'}`,
      );
  }
}
