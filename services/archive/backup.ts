/**
 * A copy of the database as it stood at one instant, made while a service goes on writing.
 *
 * The source is read in one transaction, so that the copy is of one instant and nobody's writing makes it begin anew
 * (SQLite documentation, "sqlite3_backup_step": it does where no transaction is open). Meanwhile the write-ahead log
 * cannot be used again and grows by what is written.
 */
import { existsSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { SandlarderError } from '../core/errors.js';
import { unwritten } from '../core/model/file-words.js';
import type { SchemaPart } from './database.js';
import { openFile } from './driver.js';
import { renameSynced } from './file-sync.js';
import { damageOf, lookOver, openToLook, rowsOf, type Soundness, type TableRows } from './soundness.js';

/** Pages copied before other work has a turn: 1 MiB. */
const PAGES_AT_ONCE = 256;

/** @param share copied so far, 0 to 1 */
type OnProgress = (share: number) => void;

/**
 * Copies the database of a data directory to a file that is not there yet, and looks the copy over. The file is whole
 * once it bears its name.
 *
 * @throws SandlarderError CONFLICT where the file is there; STORE_UNAVAILABLE where it cannot be written, or the copy
 *   is not sound
 */
export async function backUp(
  directory: string,
  to: string,
  parts: readonly SchemaPart[],
  onProgress: OnProgress = () => undefined,
): Promise<Soundness> {
  requireFree(to);
  const unfinished = `${to}.unfinished`;
  claim(to, unfinished);
  try {
    const copy = await copyDatabase(join(directory, 'sandlarder.db'), unfinished, parts, onProgress);
    requireFree(to);
    renameSynced(unfinished, to);
    return { ...copy, file: to };
  } finally {
    rmSync(unfinished, { force: true });
  }
}

/** A backup stands for ever: another one takes another name. */
function requireFree(to: string): void {
  if (existsSync(to))
    throw new SandlarderError('CONFLICT', `--to: expected a file that is not there yet, got ${to}, which is`);
}

function claim(to: string, unfinished: string): void {
  try {
    writeFileSync(unfinished, '', { flag: 'wx', mode: 0o600 });
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code !== 'EEXIST') throw new SandlarderError('STORE_UNAVAILABLE', `--to: ${unwritten(to, error)}`);
    throw new SandlarderError(
      'CONFLICT',
      `${unfinished} is there: a backup is being made, or one was cut off; remove it then, and begin again`,
    );
  }
}

/**
 * Copies a database over a file that holds nothing, as one file without a log, and looks it over.
 *
 * @throws SandlarderError STORE_UNAVAILABLE
 */
export async function copyDatabase(
  from: string,
  to: string,
  parts: readonly SchemaPart[],
  onProgress: OnProgress = () => undefined,
): Promise<Soundness> {
  const source = openToLook(from);
  try {
    const rows = await copied(source, to, onProgress);
    asOneFile(to);
    const copy = lookOver(to, parts);
    const problems = [...copy.problems, ...(copy.problems.length > 0 ? [] : differences(rows, copy.tables))];
    if (problems[0] !== undefined) throw notSound(from, problems[0]);
    return copy;
  } catch (error) {
    if (error instanceof SandlarderError) throw error;
    const damage = damageOf(error);
    if (damage !== undefined) throw notSound(from, damage);
    throw new SandlarderError('STORE_UNAVAILABLE', `cannot copy ${from} to ${to}: ${said(error)}`, {
      cause: error,
    });
  } finally {
    source.close();
  }
}

const notSound = (file: string, problem: string): SandlarderError =>
  new SandlarderError(
    'STORE_UNAVAILABLE',
    `${file} is not sound, and was not copied: ${problem} ("sandlarder check-data" says more)`,
  );

const said = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** @returns what was there at that instant */
async function copied(source: Database.Database, to: string, onProgress: OnProgress): Promise<TableRows[]> {
  source.exec('BEGIN');
  const rows = rowsOf(source);
  await source.backup(to, {
    progress: ({ totalPages, remainingPages }) => {
      if (totalPages > 0) onProgress(1 - remainingPages / totalPages);
      return PAGES_AT_ONCE;
    },
  });
  source.exec('COMMIT');
  return rows;
}

/** With a write-ahead log a copy would be several files again as soon as somebody looks at it. */
function asOneFile(file: string): void {
  if (!(statSync(file).size > 0)) return;
  const copy = openFile(file, {});
  try {
    copy.pragma('journal_mode = DELETE');
  } finally {
    copy.close();
  }
}

function differences(source: readonly TableRows[], copy: readonly TableRows[]): string[] {
  const rows = new Map(copy.map((one) => [one.table, one.rows]));
  return source.flatMap((one) => {
    const got = rows.get(one.table);
    return got === one.rows ? [] : [`table "${one.table}": expected ${one.rows} rows, got ${got ?? 'none'}`];
  });
}
