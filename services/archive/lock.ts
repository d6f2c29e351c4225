/**
 * One service to a data directory. The lock is SQLite's own on a file beside the database: the operating system
 * gives it up when the process ends, however it ends.
 */
import { mkdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { SandlarderError } from '../core/errors.js';

/** @throws SandlarderError CONFLICT where another service holds the directory */
export function lockDirectory(directory: string): () => void {
  mkdirSync(directory, { recursive: true });
  const Driver = createRequire(import.meta.url)('better-sqlite3') as new (
    file: string,
    options?: Database.Options,
  ) => Database.Database;
  const lock = new Driver(join(directory, 'serving.lock'), { timeout: 0 });
  try {
    lock.pragma('locking_mode = EXCLUSIVE');
    lock.exec('BEGIN EXCLUSIVE');
  } catch {
    lock.close();
    throw new SandlarderError('CONFLICT', `another service is running on the data directory ${directory}`);
  }
  return () => {
    lock.exec('ROLLBACK');
    lock.close();
  };
}
