/**
 * Whether a database file is whole: its pages, the references between its tables, and what is in them.
 *
 * Source: SQLite documentation, "PRAGMA integrity_check" and "PRAGMA foreign_key_check".
 */
import { existsSync } from 'node:fs';
import type Database from 'better-sqlite3';
import { SandlarderError } from '../core/errors.js';
import type { SchemaPart } from './database.js';
import { openFile } from './driver.js';

/** Problems that are listed: one torn page brings many. */
export const MOST_PROBLEMS = 20;

/** How long a look waits for whoever is writing, ms. */
const BUSY_TIMEOUT_ms = 10_000;

export interface TableRows {
  readonly table: string;
  readonly rows: number;
}

export interface Soundness {
  readonly file: string;
  /** With what still waits in the write-ahead log. */
  readonly size_bytes: number;
  /** Of these pages nothing is kept: they are used again before the file grows. */
  readonly free_bytes: number;
  /** In sentences, the first of them; empty where the file is sound. */
  readonly problems: readonly string[];
  readonly tables: readonly TableRows[];
}

/** Looks at something else in a database, and says what is wrong with it in sentences. */
export type AlsoLook = (database: Database.Database) => string[];

/**
 * Looks a database file over, whether or not a service runs on it; nothing is changed.
 *
 * @param also further looks, where its pages are whole
 * @throws SandlarderError STORE_UNAVAILABLE where there is no such file or it cannot be read at all
 */
export function lookOver(
  file: string,
  parts: readonly SchemaPart[],
  also: readonly AlsoLook[] = [],
): Soundness {
  const database = openToLook(file);
  try {
    // Closing ends the transaction: that of a damaged file cannot be committed.
    database.exec('BEGIN');
    const found = soundnessOf(database, parts);
    if (found.problems.length > 0) return { file, ...found };
    return { file, ...found, problems: also.flatMap((look) => attempt(() => look(database))) };
  } finally {
    database.close();
  }
}

/** @throws SandlarderError STORE_UNAVAILABLE */
export function openToLook(file: string): Database.Database {
  if (!existsSync(file))
    throw new SandlarderError('STORE_UNAVAILABLE', `expected the database ${file}, found none`);
  try {
    return openFile(file, { readonly: true, fileMustExist: true, timeout: BUSY_TIMEOUT_ms });
  } catch (error) {
    if (error instanceof SandlarderError) throw error;
    throw new SandlarderError('STORE_UNAVAILABLE', `cannot read ${file}: ${(error as Error).message}`, {
      cause: error,
    });
  }
}

type Found = Omit<Soundness, 'file'>;

const NOTHING = { size_bytes: 0, free_bytes: 0, tables: [] };

function soundnessOf(database: Database.Database, parts: readonly SchemaPart[]): Found {
  const foreign = attempt(() => foreignProblem(database, parts));
  if (foreign.length > 0) return { ...NOTHING, problems: foreign };
  const problems = [
    ...attempt(() => pageProblems(database)),
    ...attempt(() => referenceProblems(database)),
  ].slice(0, MOST_PROBLEMS);
  let counted: Omit<Found, 'problems'> = NOTHING;
  const uncounted = attempt(() => {
    counted = { ...sizesOf(database), tables: rowsOf(database) };
    return [];
  });
  return { ...counted, problems: [...problems, ...uncounted].slice(0, MOST_PROBLEMS) };
}

/** What SQLite itself throws over is a problem of the file, too. */
function attempt(look: () => string[]): string[] {
  try {
    return look();
  } catch (error) {
    const damage = damageOf(error);
    if (damage === undefined) throw error;
    return [damage];
  }
}

/** What an error says of the file, in a sentence; undefined where it is not of a damaged file. */
export function damageOf(error: unknown): string | undefined {
  if (!(error instanceof Error && 'code' in error)) return undefined;
  const code = String(error.code);
  if (code.startsWith('SQLITE_CORRUPT')) return `a page is damaged: ${error.message}`;
  return code === 'SQLITE_NOTADB' ? 'it is no database, or its first page is damaged' : undefined;
}

function foreignProblem(database: Database.Database, parts: readonly SchemaPart[]): string[] {
  const known = database
    .prepare("SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'schema_step'")
    .pluck()
    .get() as number;
  if (known === 0) return ['it is a database of another program: expected a table "schema_step"'];
  const count = database.prepare('SELECT count(*) FROM schema_step WHERE part = ?').pluck();
  return parts.flatMap(({ name, steps }) => {
    const done = count.get(name) as number;
    return done > steps.length
      ? [
          `a newer program wrote it: its part "${name}" has ${done} schema steps, this program knows ${steps.length}`,
        ]
      : [];
  });
}

function pageProblems(database: Database.Database): string[] {
  const said = database.prepare(`PRAGMA integrity_check(${MOST_PROBLEMS})`).pluck().all() as string[];
  return said.length === 1 && said[0] === 'ok'
    ? []
    : said.flatMap((text) => text.split('\n').filter((line) => line !== '' && !line.startsWith('***')));
}

function referenceProblems(database: Database.Database): string[] {
  const broken = database.prepare('PRAGMA foreign_key_check').all() as { table: string; parent: string }[];
  const counts = new Map<string, number>();
  for (const { table, parent } of broken) {
    const pair = `of table "${table}" refer to rows of "${parent}" that are not there`;
    counts.set(pair, (counts.get(pair) ?? 0) + 1);
  }
  return [...counts].map(([pair, count]) => `${count} rows ${pair}`);
}

/** By name. */
export function rowsOf(database: Database.Database): TableRows[] {
  const names = database
    .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name")
    .pluck()
    .all() as string[];
  return names.map((table) => ({
    table,
    rows: database.prepare(`SELECT count(*) FROM "${table}"`).pluck().get() as number,
  }));
}

function sizesOf(database: Database.Database): Pick<Soundness, 'size_bytes' | 'free_bytes'> {
  const number = (pragma: string): number => database.pragma(pragma, { simple: true }) as number;
  const page_bytes = number('page_size');
  return {
    size_bytes: number('page_count') * page_bytes,
    free_bytes: number('freelist_count') * page_bytes,
  };
}
