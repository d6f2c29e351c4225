/** Folders on the way to files. */
import { existsSync, mkdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { SandlarderError } from '../core/errors.js';
import { unwritten } from '../core/model/file-words.js';

const FOR_ALL = 0o777;
/** A data folder holds people's numbers, and links by which they sign in. */
const FOR_ITS_USER = 0o700;

/** As `makeFolder`, for the one user that it is made by. */
export const makePrivateFolder = (folder: string): string[] => makeFolder(folder, FOR_ITS_USER);

/** Whether other users of the machine may enter a folder that is there. */
export const isOpenToOthers = (folder: string): boolean => (statSync(folder).mode & 0o077) !== 0;

/**
 * Makes a folder and those above it, one after the other: where a file system takes none (/proc), Node.js's own recursive
 * way asks for ever.
 *
 * @param mode permissions of those that are made, before the umask
 * @returns those that were made, the outermost first
 * @throws SandlarderError STORE_UNAVAILABLE
 */
export function makeFolder(folder: string, mode = FOR_ALL): string[] {
  const missing: string[] = [];
  for (let at = resolve(folder); !existsSync(at); at = dirname(at)) missing.unshift(at);
  try {
    const made = missing.filter((one) => makeOne(one, mode));
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
function makeOne(folder: string, mode: number): boolean {
  try {
    mkdirSync(folder, { mode });
    return true;
  } catch (error) {
    if (statSync(folder, { throwIfNoEntry: false })?.isDirectory()) return false;
    throw error;
  }
}

function requireFolder(folder: string): void {
  if (!statSync(folder).isDirectory()) mkdirSync(folder);
}
