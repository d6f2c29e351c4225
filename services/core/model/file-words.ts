/** What keeps a file from being read or written, in words. The names of errors are POSIX's (IEEE Std 1003.1, errno.h). */

const FOUND_READING: Readonly<Record<string, string>> = {
  ENOENT: 'none',
  ENOTDIR: 'none: a part of the way there is no folder',
  EACCES: 'one that may not be read by this user',
  EPERM: 'one that may not be read by this user',
  EISDIR: 'a folder',
  ELOOP: 'links that lead in a circle',
  ENAMETOOLONG: 'a longer name than any file has',
};

const FOUND_WRITING: Readonly<Record<string, string>> = {
  ENOENT: 'a folder that is not there',
  ENOTDIR: 'a part of the way there that is no folder',
  EACCES: 'a place that may not be written by this user',
  EPERM: 'a place that may not be written by this user',
  EISDIR: 'a folder',
  EEXIST: 'a file of that name',
  EROFS: 'a disk that can only be read',
  ENOSPC: 'a disk that is full',
  EDQUOT: 'a disk that is full for this user',
  EFBIG: 'a longer file than may be written there',
  ELOOP: 'links that lead in a circle',
  ENAMETOOLONG: 'a longer name than any file has',
};

/** `expected a file that can be read at none.csv, got none`. */
export const unread = (file: string, error: unknown): string =>
  `expected a file that can be read at ${named(file)}, got ${found(FOUND_READING, error)}`;

/**
 * `expected a file that can be written at none/a.html, got a folder that is not there`.
 *
 * @param what is to be written there
 */
export const unwritten = (file: string, error: unknown, what = 'a file that can be written'): string =>
  `expected ${what} at ${named(file)}, got ${found(FOUND_WRITING, error)}`;

/** Of an error that may be one of a file that was read: what was found there, and where. */
export function notReadBecause(error: unknown): string {
  const { path } = error as { path?: string };
  return `${found(FOUND_READING, error)}${path === undefined ? '' : ` at ${path}`}`;
}

const named = (file: string): string => (file === '' ? '""' : file);

function found(words: Readonly<Record<string, string>>, error: unknown): string {
  const { code = '', message } = error as Error & { code?: string };
  // "EIO: i/o error, read": of others only what the system says in words.
  return words[code] ?? /^E[A-Z0-9]+: ([^,]+)/.exec(message)?.[1] ?? message;
}
