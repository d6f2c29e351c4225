/** Looks from outside at what a running service has committed: another connection sees nothing else. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { RowName } from './load.js';

export interface Stored {
  readonly rows: () => number;
  /** Beds whose watch has judged hours and has none to judge again. */
  readonly watchedBeds: () => number;
  readonly has: (name: RowName) => boolean;
  readonly close: () => void;
}

/** Opens the database of a data directory for reading. */
export function openStored(directory: string): Stored {
  const database = new Database(join(directory, 'sandlarder.db'), { readonly: true, fileMustExist: true });
  const rows = database.prepare('SELECT count(*) FROM reading').pluck();
  const watched = database
    .prepare('SELECT count(*) FROM watch_mark WHERE judged_to > begun_at AND dirty_from IS NULL')
    .pluck();
  const one = database.prepare(
    'SELECT 1 FROM reading WHERE probe = (SELECT key FROM probe_key WHERE site = ? AND probe = ?) AND time = ?',
  );
  return {
    rows: () => Number(rows.get()),
    watchedBeds: () => Number(watched.get()),
    has: ({ site, probe, time }) => one.get(site, probe, time) !== undefined,
    close: () => database.close(),
  };
}
