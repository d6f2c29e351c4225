/** What is written must outlast a power cut. */
import { closeSync, fsyncSync, openSync, renameSync } from 'node:fs';
import { dirname } from 'node:path';

export function syncFile(file: string): void {
  const opened = openSync(file, 'r+');
  try {
    fsyncSync(opened);
  } finally {
    closeSync(opened);
  }
}

/** The names in a directory. */
export function syncDirectory(directory: string): void {
  const opened = openSync(directory, 'r');
  try {
    fsyncSync(opened);
  } finally {
    closeSync(opened);
  }
}

/** Gives a file its name; after that it bears it, whatever happens. */
export function renameSynced(file: string, name: string): void {
  syncFile(file);
  renameSync(file, name);
  syncDirectory(dirname(name));
}
