/** Where the last backup of a data directory went: noted beside the database, so that it can be named when that is damaged. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

const NAME = 'last-backup.json';

export interface LastBackup {
  readonly file: string;
  /** Wall clock, ms. */
  readonly at: number;
}

/** Where it cannot be noted the backup is none the worse. */
export function noteBackup(directory: string, file: string, at: number): void {
  const note: LastBackup = { file: resolve(file), at };
  try {
    writeFileSync(join(directory, NAME), JSON.stringify(note));
  } catch {
    // A directory that may only be read can be backed up too.
  }
}

/** The last one, if it is where it was put. */
export function lastBackup(directory: string): LastBackup | undefined {
  try {
    const { file, at } = JSON.parse(readFileSync(join(directory, NAME), 'utf8')) as Partial<LastBackup>;
    if (typeof file === 'string' && Number.isFinite(at) && existsSync(file)) return { file, at: Number(at) };
  } catch {
    // None was made yet, or the note was cut off.
  }
  return undefined;
}
