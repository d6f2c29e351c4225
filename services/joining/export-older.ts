/**
 * What there is of a time of which not all readings are here one by one, in order of time: the single readings of every
 * hour that the long archive has whole, else what is kept of the hour; and what is here one by one all the same, which
 * is what a watch has flagged and what came late.
 */
import type { Archive, ExportReading, HourRow, ReadingRow } from '../archive/index.js';
import { SandlarderError } from '../core/errors.js';
import type { Quantity } from '../core/model/quantity.js';
import { DAY_ms, formatTime, HOUR_ms, hourOf } from '../core/model/time.js';
import type { ChosenStay } from './export-selection.js';

/** What is read at a time without a long archive, ms: 720 hours. */
const STRETCH_ms = 30 * DAY_ms;

interface Span {
  readonly from: number;
  readonly to: number;
}

export interface OlderReading extends Readonly<Record<Quantity, number | null>> {
  readonly time: number;
}

/** What is asked of a long archive: readings of a probe with `from <= time < to`, in order of time, some at a time. */
export interface OlderPages {
  pages(site: string, probe: string, span: Span): AsyncIterable<readonly OlderReading[]>;
}

/** Rows of one kind, in order of time. */
export type Block =
  | { readonly of: 'reading'; readonly rows: readonly ReadingRow[] }
  | { readonly of: 'hour'; readonly rows: readonly HourRow[] };

export interface OlderParts {
  readonly archive: Pick<Archive, 'fullRate'>;
  readonly older?: OlderPages | undefined;
}

interface Asked {
  readonly read: readonly Quantity[];
  readonly reading: ExportReading;
}

/** End of the hours of which not all readings are here one by one, ms. */
export const olderEnd = ({ archive }: OlderParts, { key, to }: Pick<ChosenStay, 'key' | 'to'>): number =>
  Math.min(to, hourEnd(archive.fullRate.since(key)));

const hourEnd = (time: number): number => hourOf(time + HOUR_ms - 1);

/**
 * @param span in which `to` is at most `olderEnd`
 * @throws SandlarderError RECEIVER_UNAVAILABLE where the long archive does not answer
 */
export async function* olderBlocks(
  { older }: OlderParts,
  stay: ChosenStay,
  { read, reading }: Asked,
  span: Span,
): AsyncGenerator<Block> {
  const whole = { from: hourOf(span.from), to: hourEnd(span.to) };
  const waiting: ReadingRow[] = [];
  let from = whole.from;
  const upTo = function* (end: number): Generator<Block> {
    for (; from < end; from = Math.min(end, from + STRETCH_ms)) {
      const stretch = { from, to: Math.min(end, from + STRETCH_ms) };
      const next = waiting.findIndex(([time]) => time >= stretch.to);
      const rows = waiting.splice(0, next < 0 ? waiting.length : next);
      yield* blocksOf(hoursIn(stay.key, reading, stretch, rows), read.length, { ...stay, ...span });
    }
  };
  for await (const page of pagesOf(older, stay, whole)) {
    const last = page.at(-1);
    waiting.push(...page.map((row) => rowOf(row, read)));
    // The page may end within an hour.
    if (last) yield* upTo(hourOf(last.time));
  }
  yield* upTo(whole.to);
}

/** Asks the long archive for one instant. @throws SandlarderError RECEIVER_UNAVAILABLE where it does not answer */
export async function requireOlder(older: OlderPages | undefined, stay: ChosenStay): Promise<void> {
  for await (const _page of pagesOf(older, stay, { from: stay.from, to: stay.from + 1 })) return;
}

async function* pagesOf(
  older: OlderPages | undefined,
  { known: { site, probe } }: ChosenStay,
  span: Span,
): AsyncGenerator<readonly OlderReading[]> {
  if (!older) return;
  try {
    yield* older.pages(site, probe.id, span);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new SandlarderError(
      'RECEIVER_UNAVAILABLE',
      `expected readings of ${probe.id} from ${formatTime(span.from)} on from the long archive, which does not answer (${why}): ask again later, for a later time, or with "sandlarder export" without --influx, which gives older readings by hours`,
      { cause: error },
    );
  }
}

const rowOf = (row: OlderReading, read: readonly Quantity[]): ReadingRow => [
  row.time,
  ...read.map((quantity) => row[quantity]),
];

interface Hour {
  readonly hour: number;
  readonly there: ReadingRow[];
  readonly here: ReadingRow[];
  kept?: HourRow;
}

/** What the long archive and this one have of each hour, in order. */
function hoursIn(
  key: number,
  reading: ExportReading,
  { from, to }: Span,
  there: readonly ReadingRow[],
): Hour[] {
  const hours = new Map<number, Hour>();
  const at = (time: number): Hour => {
    const hour = hourOf(time);
    const found = hours.get(hour) ?? { hour, there: [], here: [] };
    hours.set(hour, found);
    return found;
  };
  for (const row of there) at(row[0]).there.push(row);
  for (const row of reading.readings(key, from, to, Number.MAX_SAFE_INTEGER)) at(row[0]).here.push(row);
  for (const row of reading.hours(key, from, to, STRETCH_ms / HOUR_ms)) at(row[0]).kept = row;
  return [...hours.values()].sort((one, other) => one.hour - other.hour);
}

function* blocksOf(hours: readonly Hour[], quantities: number, span: Span): Generator<Block> {
  let [singles, means]: [ReadingRow[], HourRow[]] = [[], []];
  for (const hour of hours) {
    const asHour = hour.kept && !isWhole(hour, hour.kept, quantities) && isWithin(hour, span);
    const rows = asHour ? hour.here : joined(hour);
    const within = rows.filter(([time]) => time >= span.from && time < span.to);
    if (asHour && singles.length > 0) {
      yield { of: 'reading', rows: singles };
      singles = [];
    }
    if (asHour) means.push(hour.kept as HourRow);
    if (within.length === 0) continue;
    if (means.length > 0) {
      yield { of: 'hour', rows: means };
      means = [];
    }
    singles.push(...within);
  }
  if (means.length > 0) yield { of: 'hour', rows: means };
  if (singles.length > 0) yield { of: 'reading', rows: singles };
}

const isWithin = ({ hour }: Hour, { from, to }: Span): boolean => hour >= from && hour + HOUR_ms <= to;

/** Count, least, mean and greatest. */
const HOUR_PARTS = 4;

/** Whether the long archive has as many values as went into the hour, beside those that are here one by one. */
function isWhole({ there, here }: Hour, kept: HourRow, quantities: number): boolean {
  const single = new Map(here.map((row) => [row[0], row]));
  for (let place = 1; place <= quantities; place += 1) {
    const values = there.filter((row) => row[place] != null && single.get(row[0])?.[place] == null);
    if (values.length < (kept[1 + (place - 1) * HOUR_PARTS] ?? 0)) return false;
  }
  return true;
}

/** Each time once; what is here goes before what is there. */
function joined({ there, here }: Hour): ReadingRow[] {
  if (here.length === 0) return there;
  const rows = new Map(there.map((row) => [row[0], row]));
  for (const row of here) {
    const other = rows.get(row[0]);
    rows.set(
      row[0],
      other ? [row[0], ...row.slice(1).map((value, at) => value ?? other[at + 1] ?? null)] : row,
    );
  }
  return [...rows.values()].sort(([one], [other]) => one - other);
}
