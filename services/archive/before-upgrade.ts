/** A copy of the database as the older program left it, before its schema is brought up to date. */
import { rmSync } from 'node:fs';
import type Database from 'better-sqlite3';
import { SandlarderError } from '../core/errors.js';
import type { SchemaPart } from './database.js';
import { renameSynced } from './file-sync.js';

/** Steps of each part that a file has; none where it is new. */
export function stepsDone(database: Database.Database): ReadonlyMap<string, number> {
  const known = database.prepare("SELECT 1 FROM sqlite_schema WHERE name = 'schema_step'").get();
  if (!known) return new Map();
  const rows = database.prepare('SELECT part, count(*) AS done FROM schema_step GROUP BY part ORDER BY part');
  return new Map((rows.all() as { part: string; done: number }[]).map(({ part, done }) => [part, done]));
}

/**
 * Copies a file that an older program wrote to `FILE.before-PART-STEPS…`, named by the steps it has. The copy is whole
 * once it bears that name, and takes the place of one that an attempt before left: the older program may have gone on.
 *
 * @returns the copy's file, or undefined where the file is new or up to date
 * @throws SandlarderError STORE_UNAVAILABLE where it cannot be written; the database is as it was
 */
export function copyBeforeUpgrade(
  database: Database.Database,
  file: string,
  parts: readonly SchemaPart[],
): string | undefined {
  const done = stepsDone(database);
  const isOlder = parts.some(({ name, steps }) => (done.get(name) ?? 0) < steps.length);
  if (done.size === 0 || !isOlder) return undefined;
  const copy = `${file}.before-${[...done].map(([part, steps]) => `${part}-${steps}`).join('-')}`;
  const unfinished = `${copy}.${process.pid}`;
  try {
    database.prepare('VACUUM INTO ?').run(unfinished);
    renameSynced(unfinished, copy);
    return copy;
  } catch (error) {
    throw new SandlarderError(
      'STORE_UNAVAILABLE',
      `cannot copy ${file} to ${copy} before it is brought up to date (expected about ${megabytesOf(database)} MB free): ${(error as Error).message}; nothing was changed`,
      { cause: error },
    );
  } finally {
    rmSync(unfinished, { force: true });
  }
}

function megabytesOf(database: Database.Database): number {
  const pages = database.pragma('page_count', { simple: true }) as number;
  const page_bytes = database.pragma('page_size', { simple: true }) as number;
  return Math.ceil((pages * page_bytes) / 1e6);
}
