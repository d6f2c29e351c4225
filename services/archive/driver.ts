/** The native SQLite driver, loaded late, so that its absence is told in a sentence. */
import { createRequire } from 'node:module';
import type Database from 'better-sqlite3';
import { SandlarderError } from '../core/errors.js';

/** What the loader says of a binary that is not there, or is for another Node.js or another processor. */
const LOADER_CODES: readonly unknown[] = ['MODULE_NOT_FOUND', 'ERR_DLOPEN_FAILED'];
const isLoaderError = (error: unknown): boolean =>
  error instanceof Error &&
  (LOADER_CODES.includes((error as { code?: unknown }).code) || error.message.includes('bindings file'));

/**
 * Opens a database file.
 *
 * @throws SandlarderError STORE_UNAVAILABLE where the driver's binary is missing or does not fit; what SQLite itself
 *   refuses is thrown as it comes
 */
export function openFile(file: string, options: Database.Options): Database.Database {
  try {
    const Driver = createRequire(import.meta.url)('better-sqlite3') as new (
      file: string,
      options: Database.Options,
    ) => Database.Database;
    return new Driver(file, options);
  } catch (error) {
    if (!isLoaderError(error)) throw error;
    throw new SandlarderError(
      'STORE_UNAVAILABLE',
      `the database binary of better-sqlite3 is missing or does not fit Node.js ${process.version} on this machine: run "npm ci" again with this Node.js, with the network or a C++ compiler`,
      { cause: error },
    );
  }
}
