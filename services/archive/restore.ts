/** A backup put in the place of a directory's database. What was there stays, in a folder beside it. */
import {
  copyFileSync,
  existsSync,
  linkSync,
  mkdirSync,
  renameSync,
  rmdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { SandlarderError } from '../core/errors.js';
import { formatTime } from '../core/model/time.js';
import { copyDatabase } from './backup.js';
import type { Database, SchemaPart } from './database.js';
import { openFile } from './driver.js';
import { renameSynced, syncDirectory } from './file-sync.js';
import { LOCK_FILE, lockDirectory } from './lock.js';
import { makePrivateFolder } from './make-folder.js';
import { damageOf, openToLook, type Soundness } from './soundness.js';

export interface Restored extends Soundness {
  /** Folder of what was there before; null where there was nothing. */
  readonly before: string | null;
}

/** The database and what SQLite may keep beside it. */
const NAMES = ['sandlarder.db', 'sandlarder.db-wal', 'sandlarder.db-shm'] as const;

/**
 * Restores a backup. Cut off at any point the directory holds either what was there or the backup, whole.
 *
 * @param now wall clock, ms
 * @param also writes into the copy what shall be in it once it takes its place
 * @throws SandlarderError CONFLICT where a service runs on the directory; STORE_UNAVAILABLE where the backup is not
 *   sound or the directory cannot be written: nothing is changed then
 */
export async function restore(
  file: string,
  directory: string,
  parts: readonly SchemaPart[],
  now: number,
  also: (copy: Database) => void = () => undefined,
): Promise<Restored> {
  if (!existsSync(file))
    throw new SandlarderError('STORE_UNAVAILABLE', `expected a backup ${file}, found none`);
  const made = makePrivateFolder(directory);
  try {
    return await whileLocked(directory, () => replace(file, directory, { parts, now, also }));
  } catch (error) {
    unmake(made);
    throw error;
  }
}

interface How {
  readonly parts: readonly SchemaPart[];
  readonly now: number;
  readonly also: (copy: Database) => void;
}

async function replace(file: string, directory: string, { parts, now, also }: How): Promise<Restored> {
  const target = join(directory, NAMES[0]);
  const fresh = `${target}.restoring`;
  try {
    writeFileSync(fresh, '');
    const copy = await copyDatabase(file, fresh, parts);
    write(fresh, also);
    const before = keepBeside(directory, now);
    renameSynced(fresh, target);
    return { ...copy, file: target, before };
  } finally {
    rmSync(fresh, { force: true });
  }
}

/** A lock file that was not there before goes with what failed, and does so while it is held: nobody else holds it then. */
async function whileLocked<Result>(directory: string, work: () => Promise<Result>): Promise<Result> {
  const file = join(directory, LOCK_FILE);
  const isNew = !existsSync(file);
  const unlock = lockDirectory(directory);
  try {
    return await work();
  } catch (error) {
    if (isNew) rmSync(file, { force: true });
    throw error;
  } finally {
    unlock();
  }
}

/** The innermost first; a folder that holds something else by now stays. */
function unmake(folders: readonly string[]): void {
  try {
    for (const folder of [...folders].reverse()) rmdirSync(folder);
  } catch {
    // What somebody put there meanwhile is not ours to remove.
  }
}

function write(file: string, work: (copy: Database) => void): void {
  const copy = openFile(file, {});
  try {
    work(copy);
  } finally {
    copy.close();
  }
}

function keepBeside(directory: string, now: number): string | null {
  if (!existsSync(join(directory, NAMES[0]))) return null;
  closeLog(join(directory, NAMES[0]));
  const before = join(directory, `before-restore-${formatTime(now).replaceAll(/[-:.]/g, '')}`);
  mkdirSync(before, { mode: 0o700 });
  const there = NAMES.filter((name) => existsSync(join(directory, name)));
  for (const name of there) keepFile(join(directory, name), join(before, name));
  syncDirectory(before);
  syncDirectory(directory);
  // A log that outlived its database would be read into the next one.
  for (const name of there.slice(1)) rmSync(join(directory, name));
  return before;
}

/**
 * Brings the log into the file, so that it is one. SQLite would throw the log of a file that it cannot read away: such
 * a file is left as it is, and all that belongs to it is kept.
 */
function closeLog(file: string): void {
  let database: ReturnType<typeof openFile> | undefined;
  try {
    const look = openToLook(file);
    look.prepare('SELECT count(*) FROM sqlite_schema').get();
    look.close();
    database = openFile(file, { timeout: 0 });
    database.pragma('journal_mode = DELETE');
  } catch (error) {
    if (error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_BUSY'))
      throw new SandlarderError('CONFLICT', `another program has ${file} open: ${error.message}`, {
        cause: error,
      });
    if (damageOf(error) === undefined) throw error;
  } finally {
    database?.close();
  }
}

/** A second name, so that the first is taken over at once; where the file system has none, a copy. */
function keepFile(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch {
    const unfinished = `${to}.unfinished`;
    copyFileSync(from, unfinished);
    renameSync(unfinished, to);
  }
}
