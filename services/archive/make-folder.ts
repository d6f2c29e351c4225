/** Folders on the way to files. */
import { existsSync, mkdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { SandlarderError } from '../core/errors.js';
import { unwritten } from '../core/model/file-words.js';

/**
 * Makes a folder and those above it, one after the other: where a file system takes none (/proc), Node.js's own recursive
 * way asks for ever.
 *
 * @returns those that were made, the outermost first
 * @throws SandlarderError STORE_UNAVAILABLE
 */
export function makeFolder(folder: string): string[] {
  const missing: string[] = [];
  for (let at = resolve(folder); !existsSync(at); at = dirname(at)) missing.unshift(at);
  try {
    const made = missing.filter(makeOne);
    if (missing.length === 0) requireFolder(folder);
    return made;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const reason = code === 'ENOENT' ? new Error('a file system that takes no new folder') : error;
    throw new SandlarderError(
      'STORE_UNAVAILABLE',
      unwritten(folder, reason, 'a folder that is there or can be made'),
      { cause: error },
    );
  }
}

/** @returns false where somebody else made it meanwhile */
function makeOne(folder: string): boolean {
  try {
    mkdirSync(folder);
    return true;
  } catch (error) {
    if (statSync(folder, { throwIfNoEntry: false })?.isDirectory()) return false;
    throw error;
  }
}

function requireFolder(folder: string): void {
  if (!statSync(folder).isDirectory()) mkdirSync(folder);
}
