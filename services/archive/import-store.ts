/** How far each file that is imported has been taken in, by its digest: written with the readings themselves. */
import type { Database } from './database.js';

/** Files that are remembered; the oldest are forgotten first, and would be gone through again without harm. */
export const MOST_IMPORTS = 10_000;

export interface ImportMark {
  /** Digest of the file and of how it is read. */
  readonly digest: string;
  readonly file: string;
  /** Bytes of the file that are taken in, and the line that comes next. */
  readonly offset: number;
  readonly line: number;
  /** Bytes of the file of refused lines by then. */
  readonly refusedBytes: number;
  readonly lines: number;
  readonly empty: number;
  /** Values, not lines. */
  readonly kept: number;
  readonly duplicates: number;
  readonly apart: number;
  /** Values and lines. */
  readonly refused: number;
  /** How often each reason came. */
  readonly reasons: Readonly<Record<string, number>>;
  readonly isDone: boolean;
  /** Wall clock, ms. */
  readonly at: number;
}

interface Row {
  readonly mark: string;
}

export class ImportStore {
  readonly #get;
  readonly #put;
  readonly #forget;

  constructor(database: Database) {
    this.#get = database.prepare('SELECT mark FROM import_mark WHERE digest = ?');
    this.#put = database.prepare('INSERT OR REPLACE INTO import_mark (digest, at, mark) VALUES (?, ?, ?)');
    this.#forget = database.prepare(
      'DELETE FROM import_mark WHERE digest IN (SELECT digest FROM import_mark ORDER BY at DESC LIMIT -1 OFFSET ?)',
    );
  }

  get(digest: string): ImportMark | undefined {
    const row = this.#get.get(digest) as Row | undefined;
    return row && (JSON.parse(row.mark) as ImportMark);
  }

  put(mark: ImportMark): void {
    this.#put.run(mark.digest, mark.at, JSON.stringify(mark));
    if (mark.isDone) this.#forget.run(MOST_IMPORTS);
  }
}
