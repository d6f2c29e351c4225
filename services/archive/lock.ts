/**
 * One service to a data directory. The lock is SQLite's own on a file beside the database: the operating system
 * gives it up when the process ends, however it ends.
 */
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { SandlarderError } from '../core/errors.js';
import { openFile } from './driver.js';
import { makePrivateFolder } from './make-folder.js';
import { troubleOf } from './store-trouble.js';

/** Stays where it is: only who holds it matters. */
export const LOCK_FILE = 'serving.lock';

/** @throws SandlarderError CONFLICT where another service holds the directory, STORE_UNAVAILABLE where it cannot be written */
export function lockDirectory(directory: string): () => void {
  let lock: Database.Database | undefined;
  try {
    makePrivateFolder(directory);
    lock = openFile(join(directory, LOCK_FILE), { timeout: 0 });
    lock.pragma('locking_mode = EXCLUSIVE');
    lock.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    lock?.close();
    throw refusal(directory, error);
  }
  const held = lock;
  return () => {
    held.exec('ROLLBACK');
    held.close();
  };
}

function refusal(directory: string, error: unknown): SandlarderError {
  if (error instanceof SandlarderError) return error;
  const { code, message } = error as Error & { code?: string };
  if (code?.startsWith('SQLITE_BUSY'))
    return new SandlarderError('CONFLICT', `another service is running on the data directory ${directory}`);
  const reason = troubleOf(error, directory) ?? message;
  return new SandlarderError('STORE_UNAVAILABLE', `cannot use the data directory ${directory}: ${reason}`, {
    cause: error,
  });
}
