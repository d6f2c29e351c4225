/**
 * Takes a table into the archive, some rows in a transaction, with the mark of how far it got in the same one: killed at
 * any instant it goes on from there, and no line is taken or refused twice.
 */
import type { ImportMark } from '../archive/index.js';
import {
  type Mapping,
  type OpenTable,
  type RefusedFile,
  type RefusedLine,
  type RowSink,
  readRecords,
  refusedReading,
  rowReader,
  type TableReading,
} from '../tables/import/index.js';
import type { Station } from './station.js';
import type { TakeIn } from './take-in.js';

/** Readings in one transaction: about a tenth of a second, and some megabytes. */
const READINGS_TOGETHER = 5_000;

export interface ImportParts {
  readonly station: Station;
  readonly takeIn: TakeIn;
  readonly table: OpenTable;
  readonly mapping: Mapping;
  readonly digest: string;
  /** What the quarantine and the mark call the file. */
  readonly name: string;
  readonly refused: RefusedFile;
  /** Wall clock, ms. */
  readonly now: () => number;
  /** Later times are of a wrong clock, ms. */
  readonly latest: number;
  /** Told of each mark once it is kept. */
  readonly onProgress?: (mark: ImportMark) => void;
}

export interface Imported {
  readonly mark: ImportMark;
  /** Whether a mark of before said that all of it is in. */
  readonly isKnown: boolean;
  /** Line from which it went on; null where it began at the beginning. */
  readonly resumedAt: number | null;
}

/**
 * Takes in a table, from where its mark says.
 *
 * @param again whether one that is in already is gone through once more
 * @throws SandlarderError as reading the table; what the store fails with
 */
export async function importTable(parts: ImportParts, again = false): Promise<Imported> {
  const { station, digest, refused } = parts;
  const known = station.archive.imports.get(digest);
  if (known?.isDone && !again) return { mark: known, isKnown: true, resumedAt: null };
  const resumes = known !== undefined && !known.isDone && refused.open(known.refusedBytes);
  if (!resumes) refused.open(0);
  try {
    const run = new Run(parts, resumes ? known : freshMark(parts));
    await run.through();
    return { mark: run.mark, isKnown: false, resumedAt: resumes ? known.line : null };
  } finally {
    refused.close();
  }
}

const freshMark = ({ digest, name, table, now }: ImportParts): ImportMark => ({
  ...{ digest, file: name, offset: table.rows.offset, line: table.rows.line, refusedBytes: 0 },
  ...{ lines: 0, empty: 0, kept: 0, duplicates: 0, apart: 0, refused: 0, reasons: {} },
  ...{ isDone: false, at: now() },
});

class Run {
  readonly #parts: ImportParts;
  mark: ImportMark;
  #sink: RowSink = { readings: [], refused: [], empty: 0 };
  #lines = 0;

  constructor(parts: ImportParts, mark: ImportMark) {
    this.#parts = parts;
    this.mark = mark;
  }

  async through(): Promise<void> {
    const { table, mapping, latest } = this.#parts;
    const read = rowReader(mapping, table, latest);
    let next = { offset: this.mark.offset, line: this.mark.line };
    for await (const chunk of readRecords(table.file, table, next)) {
      for (const record of chunk.records) read(record, this.#sink);
      this.#lines += chunk.records.length;
      next = chunk.next;
      const { readings, refused } = this.#sink;
      if (readings.length + refused.length >= READINGS_TOGETHER) this.#commit(next, false);
    }
    this.#commit(next, true);
  }

  /** Refused lines go to the disk first: the mark says how many of their bytes hold. */
  #commit(next: { readonly offset: number; readonly line: number }, isDone: boolean): void {
    const { station, takeIn, refused, name, now, mapping, onProgress } = this.#parts;
    const { readings, refused: unread, empty } = this.#sink;
    const setAside: RefusedLine[] = [...unread];
    const at = now();
    let mark = this.mark;
    const heard = (reading: TableReading, reason: string, detail: string): void => {
      setAside.push(refusedReading(reading, { reason, detail }));
    };
    takeIn.commitPast(
      readings,
      { site: mapping.site, topic: `import of ${name}`, at, heard },
      ({ kept, duplicates, apart }) => {
        refused.add(setAside.sort((one, other) => one.line - other.line));
        mark = {
          ...{ ...mark, ...next, isDone, at, refusedBytes: refused.bytes },
          lines: mark.lines + this.#lines,
          empty: mark.empty + empty,
          kept: mark.kept + kept,
          duplicates: mark.duplicates + duplicates,
          apart: mark.apart + apart,
          refused: mark.refused + setAside.length,
          reasons: counted(mark.reasons, setAside),
        };
        station.archive.imports.put(mark);
      },
    );
    this.mark = mark;
    this.#sink = { readings: [], refused: [], empty: 0 };
    this.#lines = 0;
    onProgress?.(mark);
  }
}

function counted(
  before: Readonly<Record<string, number>>,
  lines: readonly RefusedLine[],
): Readonly<Record<string, number>> {
  const reasons = { ...before };
  for (const { reason } of lines) reasons[reason] = (reasons[reason] ?? 0) + 1;
  return reasons;
}
