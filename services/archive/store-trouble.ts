/** What keeps the store from working, in a sentence that says what to do. */
import { closeSync, fsyncSync, openSync, rmSync, statfsSync, writeSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { formatTime } from '../core/model/time.js';
import { lastBackup } from './last-backup.js';
import { damageOf } from './soundness.js';

/** A page of the database, bytes: so much is written to hear what the disk says. */
const TRIED_bytes = 4096;

/** Errors of SQLite concern the whole transaction: disk full, file locked, file damaged. */
export const isStoreError = (error: unknown): error is Error & { readonly code: string } =>
  error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE');

/** In a sentence; undefined where the error is none of the store's. */
export function troubleOf(error: unknown, directory: string): string | undefined {
  if (!isStoreError(error)) return undefined;
  const damage = damageOf(error);
  if (damage !== undefined) return damagedWords(directory, damage);
  if (/^SQLITE_(BUSY|LOCKED)/.test(error.code))
    return `another program is writing to the database in ${directory}: wait until it has ended, or end it`;
  const words = wordsOf(error.code, directory);
  return words === undefined
    ? `the database in ${directory} cannot be written: ${error.message}`
    : `the disk of ${directory} ${words}`;
}

/** What may be put down to the disk. */
const OF_THE_DISK = /^SQLITE_(IOERR|READONLY|CANTOPEN|PERM|PROTOCOL)/;

function wordsOf(code: string, directory: string): string | undefined {
  if (code === 'SQLITE_FULL') return DISK['ENOSPC'];
  return OF_THE_DISK.test(code) ? diskWords(directory) : undefined;
}

/** By what the operating system says of a write. */
const DISK: Readonly<Record<string, string>> = {
  ENOSPC: 'is full: make room on it',
  EDQUOT: 'is full for the user that the service runs as: make room on it',
  EFBIG: 'takes no more in one file: raise that limit',
  EROFS:
    'can only be read, as it is when a card or its file system fails: stop the service, have the disk checked or exchanged, and start it again',
  EIO: 'fails: stop the service, exchange the disk, and restore a backup where the database is not sound',
  ENOENT: 'is not there: mount it, or make its folder',
  EACCES: 'may not be written by the user that the service runs as: give it to that user',
  EPERM: 'may not be written by the user that the service runs as: give it to that user',
};

/** Asks the disk itself: SQLite tells most of its failures alike. */
function diskWords(directory: string): string | undefined {
  const file = join(directory, `write-try.${process.pid}`);
  let opened: number | undefined;
  try {
    opened = openSync(file, 'w');
    writeSync(opened, Buffer.alloc(TRIED_bytes));
    fsyncSync(opened);
    return undefined;
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    return DISK[code ?? ''] ?? `cannot be written: ${message}`;
  } finally {
    if (opened !== undefined) closeSync(opened);
    removeQuietly(file);
  }
}

function removeQuietly(file: string): void {
  try {
    rmSync(file, { force: true });
  } catch {
    // A disk that cannot be written cannot be tidied either.
  }
}

/**
 * Of a damaged database: the one command that restores the last backup, as it can be typed.
 *
 * @param damage what is damaged, without an end
 */
export function damagedWords(directory: string, damage: string): string {
  const last = lastBackup(directory);
  const target = quoted(resolve(directory));
  const head = `the database in ${resolve(directory)} is damaged (${damage}): stop the service, then run`;
  return last === undefined
    ? `${head} "sandlarder restore FILE --data ${target}" with a backup that you have: none is known here`
    : `${head} "sandlarder restore ${quoted(last.file)} --data ${target}"; what was measured since ${formatTime(last.at)} is then only in the folder that it names`;
}

/** As a shell takes it. */
const quoted = (path: string): string =>
  /^[\w./-]+$/.test(path) ? path : `'${path.replaceAll("'", "'\\''")}'`;

/** What is left for this user on the disk, bytes; undefined where it cannot be told. */
export function freeBytes(directory: string): number | undefined {
  try {
    const { bavail, bsize } = statfsSync(directory);
    return bavail * bsize;
  } catch {
    return undefined;
  }
}
