/**
 * The file of refused lines, beside the table that they came from. It is cut back to what the store knows of before an
 * import goes on, so that each line stands in it once.
 */
import {
  closeSync,
  existsSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  openSync,
  readSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { stringify } from 'csv-stringify/sync';
import { SandlarderError } from '../../core/errors.js';
import { unwritten } from '../../core/model/file-words.js';
import type { RefusedLine } from './refusal.js';

/** Of a refused record, what is kept of its text, characters. */
const TEXT_characters = 1_000;

const HEADER = 'line,column,reason,detail,text\r\n';

export class RefusedFile {
  readonly #name: string;
  #file: number | undefined;
  #bytes = 0;

  constructor(name: string) {
    this.#name = name;
  }

  /** What it holds, bytes: 0 where nothing was refused. */
  get bytes(): number {
    return this.#bytes;
  }

  get name(): string {
    return this.#name;
  }

  /**
   * Begins anew, or goes on behind what was written by a mark.
   *
   * @returns false where the file has less than that: what was in it is gone
   */
  open(bytes: number): boolean {
    this.close();
    if (bytes === 0) {
      this.#remove();
      return true;
    }
    if (!existsSync(this.#name)) return false;
    const file = openSync(this.#name, 'r+');
    this.#file = file;
    if (!(fstatSync(file).size >= bytes)) return false;
    ftruncateSync(file, bytes);
    this.#bytes = bytes;
    return true;
  }

  /** Writes lines, and gives them to the disk. */
  add(lines: readonly RefusedLine[]): void {
    if (lines.length === 0) return;
    const text = rowsOf(lines);
    try {
      this.#file ??= openSync(this.#name, 'w');
      const written = Buffer.from(this.#bytes === 0 ? HEADER + text : text);
      for (let done = 0; done < written.length; )
        done += writeSync(this.#file, written, done, written.length - done, this.#bytes + done);
      this.#bytes += written.length;
      fsyncSync(this.#file);
    } catch (error) {
      throw new SandlarderError(
        'WRONG_USAGE',
        `${unwritten(this.#name, error, 'a file that can be written, for refused lines,')}; --refused names another`,
      );
    }
  }

  close(): void {
    if (this.#file !== undefined) closeSync(this.#file);
    this.#file = undefined;
    this.#bytes = 0;
  }

  /** One of an import of before would be taken for one of this. What is no file of refused lines stays. */
  #remove(): void {
    if (!existsSync(this.#name)) return;
    const file = openSync(this.#name, 'r');
    const head = Buffer.alloc(HEADER.length);
    readSync(file, head, 0, head.length, 0);
    closeSync(file);
    if (head.toString() !== HEADER)
      throw new SandlarderError(
        'WRONG_USAGE',
        `${this.#name}: expected no file there, or one of refused lines, got another: --refused names another`,
      );
    unlinkSync(this.#name);
  }
}

/** What a spreadsheet would take for a formula gets an apostrophe before it. */
const rowsOf = (lines: readonly RefusedLine[]): string =>
  stringify(
    lines.map(({ line, column, reason, detail, text }) => [
      ...[line, column, reason, detail, text.slice(0, TEXT_characters)],
    ]),
    { record_delimiter: '\r\n', escape_formulas: true },
  );
