/** The one place where commands read and write files that somebody named: what is wrong with one is said in a sentence. */
import { appendFileSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { type ErrorCode, SandlarderError } from './core/errors.js';
import { unread, unwritten } from './core/model/file-words.js';

interface Named {
  /** The flag that named it; it goes before the sentence. */
  readonly flag?: string;
  /** Of the error; WRONG_USAGE where absent. */
  readonly code?: ErrorCode;
}

interface Read extends Named {
  /** The longest that is read. */
  readonly most_bytes?: number;
}

const refusal = ({ flag, code = 'WRONG_USAGE' }: Named, sentence: string, cause?: unknown): SandlarderError =>
  new SandlarderError(code, flag === undefined ? sentence : `${flag}: ${sentence}`, { cause });

/** @throws SandlarderError where there is no such file, it cannot be read, or is longer */
export function bytesOf(
  file: string,
  { most_bytes = Number.POSITIVE_INFINITY, ...named }: Read = {},
): Buffer {
  let size: number;
  try {
    size = statSync(file).size;
    if (size <= most_bytes) return readFileSync(file);
  } catch (error) {
    throw refusal(named, unread(file, error), error);
  }
  throw refusal(named, `${file}: expected at most ${most_bytes} bytes, got ${size}`);
}

/** @throws SandlarderError as `bytesOf` */
export const textOf = (file: string, how: Read = {}): string => bytesOf(file, how).toString('utf8');

/** @throws SandlarderError where it cannot be written */
export const writeFile = (file: string, content: string | Uint8Array, named: Named = {}): void =>
  written(file, named, () => writeFileSync(file, content));

/** Adds to the end of a file, and gives it to the disk. @throws SandlarderError where it cannot be written */
export const appendFile = (file: string, content: string, named: Named = {}): void =>
  written(file, named, () => appendFileSync(file, content, { flush: true }));

/** Words what the file system refuses. @throws SandlarderError where it cannot be written */
export function written<Result>(file: string, named: Named, work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    const { code } = error as { code?: unknown };
    if (error instanceof SandlarderError || typeof code !== 'string' || !/^E[A-Z]/.test(code)) throw error;
    throw refusal(named, unwritten(file, error), error);
  }
}
