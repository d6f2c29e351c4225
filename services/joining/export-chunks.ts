/** Readings at rest with all that is known of them, some at a time: what an export writes. */
import type { Archive, ExportReading, JudgedHour } from '../archive/index.js';
import { type Quantity, STORED_UNIT } from '../core/model/quantity.js';
import { HOUR_ms, hourOf } from '../core/model/time.js';
import type { FlaggedQuantity } from '../core/watch/flag.js';
import type { ExportChunk, ExportPlace, ExportQuantity } from '../tables/export/index.js';
import type { Calibrations } from './calibrations.js';
import { correctedColumns } from './export-corrected.js';
import { type Block, type OlderParts, olderBlocks, olderEnd } from './export-older.js';
import type { ChosenStay, Selection } from './export-selection.js';

/** Times of one chunk: some ms of work, and some hundred KiB of text. */
export const TIMES_TOGETHER = 2_048;

/** What an export is told of trials. */
export interface TreatmentPort {
  /** Whether a bed ever has a treatment. */
  isTreated(bed: string): boolean;
  /** The treatment of a bed at an event time, ms; null where it is in no trial then. */
  treatmentOf(bed: string, at: number): string | null;
}

export interface ChunkParts extends TreatmentPort, OlderParts {
  readonly archive: Archive;
  readonly calibrations: Calibrations;
}

/**
 * Of each stay in order of time. It reads as it is asked, and what comes in meanwhile may be in it or not.
 *
 * @throws SandlarderError RECEIVER_UNAVAILABLE where the long archive does not answer
 */
export async function* exportChunks(
  parts: ChunkParts,
  { stays, quantities }: Selection,
): AsyncGenerator<ExportChunk> {
  // A humidity is corrected by the temperature beside it, whether or not that is asked for.
  const read = [...new Set([...quantities, ...(quantities.includes('humidity') ? WITH_HUMIDITY : [])])];
  const asked = { quantities, read, reading: parts.archive.exporting.of(read) };
  for (const stay of stays)
    for await (const { of, rows } of blocks(parts, stay, asked))
      for (let from = 0; from < rows.length; from += TIMES_TOGETHER) {
        const some = rows.slice(from, from + TIMES_TOGETHER);
        for (const piece of byTreatment(parts, stay.place.bed, some))
          yield chunkOf(parts, stay, asked, of, piece);
      }
}

const WITH_HUMIDITY: readonly Quantity[] = ['temperature'];

interface Asked {
  readonly quantities: readonly Quantity[];
  /** As they stand in each row. */
  readonly read: readonly Quantity[];
  readonly reading: ExportReading;
}

type Kind = ExportChunk['of'];
type Row = readonly [time: number, ...values: (number | null)[]];

/** Readings may go into their hours between two pages. */
async function* blocks(parts: ChunkParts, stay: ChosenStay, asked: Asked): AsyncGenerator<Block> {
  for (let from = stay.from; from < stay.to; ) {
    const older = olderEnd(parts, stay);
    if (from < older) {
      yield* olderBlocks(parts, stay, asked, { from, to: older });
      from = older;
      continue;
    }
    const rows = asked.reading.readings(stay.key, from, stay.to, TIMES_TOGETHER);
    const last = rows.at(-1);
    if (last) yield { of: 'reading', rows };
    from = last && rows.length === TIMES_TOGETHER ? last[0] + 1 : stay.to;
  }
}

interface Piece {
  readonly treatment: string | null;
  readonly rows: readonly Row[];
}

/** Rows of one treatment together. */
function byTreatment(parts: TreatmentPort, bed: string | null, rows: readonly Row[]): Piece[] {
  if (bed === null || !parts.isTreated(bed)) return [{ treatment: null, rows }];
  const pieces: { treatment: string | null; rows: Row[] }[] = [];
  for (const row of rows) {
    const treatment = parts.treatmentOf(bed, row[0]);
    const piece = pieces.at(-1);
    if (piece && piece.treatment === treatment) piece.rows.push(row);
    else pieces.push({ treatment, rows: [row] });
  }
  return pieces;
}

function chunkOf(
  parts: ChunkParts,
  stay: ChosenStay,
  { quantities, read }: Asked,
  kind: Kind,
  { treatment, rows }: Piece,
): ExportChunk {
  const time = rows.map(([at]) => at);
  const [first, last] = [time[0] as number, time.at(-1) as number];
  const flags = kind === 'reading' ? flagsOf(parts, stay, first, last + 1, rows.length) : NO_FLAGS;
  const judged = judgedOf(parts, stay, time);
  const corrected = correctedColumns(parts.calibrations, stay, time, {
    temperature: columnOf(rows, read.indexOf('temperature'), kind),
    humidity: columnOf(rows, read.indexOf('humidity'), kind),
  });
  return {
    ...{ place: stay.place as ExportPlace, treatment, of: kind, time },
    quantities: quantities.map((quantity): ExportQuantity => {
      const own = quantity === 'temperature' || quantity === 'humidity' ? corrected[quantity] : undefined;
      const seen = flags[quantity as FlaggedQuantity] ?? EMPTY;
      return {
        ...{
          quantity,
          unit: STORED_UNIT[quantity],
          raw: own?.raw ?? columnOf(rows, read.indexOf(quantity), kind),
        },
        ...{ corrected: own?.corrected ?? null, uncertainty: own?.uncertainty ?? null },
        flags: flagColumn(time, seen, own?.doubts ?? null),
        judged: quantity === 'temperature' ? judged : null,
        spread: kind === 'hour' ? spreadOf(rows, read.indexOf(quantity)) : null,
      };
    }),
  };
}

/** Of an hour its mean. @param place of the quantity in each row, from 0; below that it was not read */
function columnOf(rows: readonly Row[], place: number, kind: Kind): (number | null)[] {
  if (place < 0) return NOTHING;
  const at = kind === 'hour' ? 1 + place * HOUR_PARTS + MEAN : 1 + place;
  return rows.map((row) => row[at] as number | null);
}

const NOTHING: (number | null)[] = [];

/** Count, least, mean and greatest. */
const HOUR_PARTS = 4;
const [COUNT, LEAST, MEAN, GREATEST] = [0, 1, 2, 3];

function spreadOf(rows: readonly Row[], place: number): NonNullable<ExportQuantity['spread']> {
  const part = (offset: number) => rows.map((row) => row[1 + place * HOUR_PARTS + offset] as number | null);
  return { count: part(COUNT), least: part(LEAST), greatest: part(GREATEST) };
}

type Flags = ReadonlyMap<number, string>;
const EMPTY: Flags = new Map();
const NO_FLAGS: Partial<Record<FlaggedQuantity, Flags>> = {};

/** Why the watch does not use values, by quantity and time: in the shade by any of the beds that see it. */
function flagsOf(
  { archive }: ChunkParts,
  { key, seenBy }: ChosenStay,
  from: number,
  to: number,
  rows: number,
): Partial<Record<FlaggedQuantity, Flags>> {
  const flags = { temperature: new Map<number, string>(), humidity: new Map<number, string>() };
  for (const bed of seenBy)
    for (const { at, quantity, reason } of archive.flags.read(bed, key, { from, to }, 2 * rows))
      if (!flags[quantity].has(at)) flags[quantity].set(at, reason);
  return flags;
}

function flagColumn(
  time: readonly number[],
  flags: Flags,
  doubts: readonly (string | null)[] | null,
): (string | null)[] | null {
  if (flags.size === 0 && doubts === null) return null;
  return time.map((at, index) => {
    const reasons = [flags.get(at), doubts?.[index]].filter((reason) => reason != null);
    return reasons.length === 0 ? null : reasons.join(';');
  });
}

/** What the watch made of the hour of each time; an hour that the probe did not stand there throughout is left out. */
function judgedOf(
  { archive }: ChunkParts,
  { place, key, stoodFrom, stoodTo }: ChosenStay,
  time: readonly number[],
): ExportQuantity['judged'] {
  if (place.bed === null) return null;
  const [first, last] = [hourOf(time[0] as number), hourOf(time.at(-1) as number)];
  const hours = archive.judged.read(key, Math.max(first, stoodFrom), Math.min(last, stoodTo - HOUR_ms) + 1);
  if (hours.length === 0) return null;
  let next = 0;
  return time.map((at) => {
    while (next < hours.length && (hours[next] as JudgedHour).hour + HOUR_ms <= at) next += 1;
    const hour = hours[next];
    return hour && hour.hour <= at ? hour : null;
  });
}
