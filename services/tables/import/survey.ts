/** Reads a table through and writes nothing: what it was understood to say. */

import type { Mapping } from './mapping.js';
import type { OpenTable } from './open-table.js';
import { readRecords, type TableRecord } from './records.js';
import type { RefusedLine } from './refusal.js';
import { refusedReading } from './refused-reading.js';
import { type RowReader, type RowSink, rowReader, type TableReading } from './row-reader.js';

/** Readings and refused lines that are shown. */
const SHOWN = 5;

/** Different steps between times of a probe that are counted. */
const MOST_STEPS = 1_000;

/** Probes that are told apart. */
const MOST_PROBES = 20_000;

export interface ProbeSurvey {
  readonly probe: string;
  readonly readings: number;
  readonly from: number;
  readonly to: number;
  /** The commonest time between readings that follow each other, ms; null for a single one. */
  readonly step_ms: number | null;
}

export interface Survey {
  readonly lines: number;
  readonly empty: number;
  readonly first: readonly TableReading[];
  readonly probes: readonly ProbeSurvey[];
  readonly refused: number;
  /** How often each reason came. */
  readonly reasons: Readonly<Record<string, number>>;
  readonly firstRefused: readonly RefusedLine[];
}

class ProbeTally {
  readonly #steps = new Map<number, number>();
  #last: number | undefined;
  readings = 0;
  from = Number.POSITIVE_INFINITY;
  to = Number.NEGATIVE_INFINITY;

  add(time: number): void {
    this.readings += 1;
    this.from = Math.min(this.from, time);
    this.to = Math.max(this.to, time);
    const step = this.#last === undefined ? 0 : time - this.#last;
    this.#last = time;
    if (!(step > 0)) return;
    const count = this.#steps.get(step);
    if (count !== undefined || this.#steps.size < MOST_STEPS) this.#steps.set(step, (count ?? 0) + 1);
  }

  get step_ms(): number | null {
    let best: number | null = null;
    for (const [step, count] of this.#steps)
      if (best === null || count > (this.#steps.get(best) as number)) best = step;
    return best;
  }
}

export interface SetAside {
  readonly reason: string;
  /** What was expected and what came, in a sentence. */
  readonly detail: string;
}

/** Told of each reading in order: why something of it would not be taken. */
export type Foresee = (reading: TableReading) => readonly SetAside[];

const NOTHING_FORESEEN: Foresee = () => [];

/**
 * @param latest later times are of a wrong clock, ms
 * @param onProgress told of the bytes and lines read so far
 * @param foresee what whoever takes readings in would say of them
 * @throws SandlarderError as reading the records
 */
export async function surveyTable(
  table: OpenTable,
  mapping: Mapping,
  latest: number,
  onProgress: (bytes: number, lines: number) => void = () => undefined,
  foresee = NOTHING_FORESEEN,
): Promise<Survey> {
  const read = rowReader(mapping, table, latest);
  const tallies = new Map<string, ProbeTally>();
  const reasons: Record<string, number> = {};
  const first: TableReading[] = [];
  const firstRefused: RefusedLine[] = [];
  let [lines, empty, refused] = [0, 0, 0];
  for await (const { records, next } of readRecords(table.file, table, table.rows)) {
    const sink: RowSink = { readings: [], refused: [], empty: 0 };
    readAll(read, records, sink);
    for (const reading of sink.readings)
      for (const refusal of foresee(reading)) sink.refused.push(refusedReading(reading, refusal));
    sink.refused.sort((one, other) => one.line - other.line);
    lines += records.length;
    empty += sink.empty;
    refused += sink.refused.length;
    for (const reading of sink.readings) tallyOf(tallies, reading.probe)?.add(reading.time);
    for (const { reason } of sink.refused) reasons[reason] = (reasons[reason] ?? 0) + 1;
    first.push(...sink.readings.slice(0, SHOWN - first.length));
    firstRefused.push(...sink.refused.slice(0, SHOWN - firstRefused.length));
    onProgress(next.offset, lines);
  }
  const probes = [...tallies].map(([probe, { readings, from, to, step_ms }]) => ({
    ...{ probe, readings, from, to, step_ms },
  }));
  return { lines, empty, first, probes, refused, reasons, firstRefused };
}

function readAll(read: RowReader, records: readonly TableRecord[], sink: RowSink): void {
  for (const record of records) read(record, sink);
}

function tallyOf(tallies: Map<string, ProbeTally>, probe: string): ProbeTally | undefined {
  const known = tallies.get(probe);
  if (known || tallies.size >= MOST_PROBES) return known;
  const made = new ProbeTally();
  tallies.set(probe, made);
  return made;
}
