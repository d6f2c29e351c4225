/**
 * A look at every page of a database, for a service that goes on: without the tables' references and rows, which
 * `check-data` looks at too.
 *
 * Source: SQLite documentation, "PRAGMA quick_check".
 */
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { damageOf, openToLook } from './soundness.js';

/**
 * @returns what is damaged, in words; undefined where nothing is
 * @throws SandlarderError STORE_UNAVAILABLE where it cannot be read
 */
export function lookAtPages(directory: string): string | undefined {
  const database = openToLook(join(directory, 'sandlarder.db'));
  try {
    // Closing ends the transaction: that of a damaged file cannot be committed.
    database.exec('BEGIN');
    const said = database.prepare('PRAGMA quick_check(1)').pluck().get() as string;
    return said === 'ok' ? undefined : lastLine(said);
  } catch (error) {
    const damage = damageOf(error);
    if (damage === undefined) throw error;
    return damage;
  } finally {
    database.close();
  }
}

/** What SQLite finds begins with a line that names the database. */
const lastLine = (said: string): string => said.trim().split('\n').at(-1) ?? said;

/** SQLite takes the log away when the last connection closes: one that is there was left by a process that was ended. */
export function endedUncleanly(directory: string): boolean {
  const log = join(directory, 'sandlarder.db-wal');
  return existsSync(log) && statSync(log).size > 0;
}
