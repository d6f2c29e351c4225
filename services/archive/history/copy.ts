/**
 * Copies history from one archive to another, day by day of each probe. A day counts as copied when the other side has
 * every value of it: what is there already is left alone, so a copy that was ended in the middle goes on when it is asked
 * again.
 */
import { DAY_ms, formatTime } from '../../core/model/time.js';
import type { StoredReading } from '../reading-store.js';
import { byDay, type DaySum, dayOf, isSame, sumOf } from './day-sums.js';
import type { History, ProbeName, Stretch } from './history.js';

/** Days of a probe that are held in memory, of both sides. */
const CHUNK_ms = 2 * DAY_ms;

/** One day of one probe that is not on the other side as it is on this. */
export interface Difference extends ProbeName {
  readonly day: number;
  readonly from: DaySum;
  readonly to: DaySum;
}

export interface Copied {
  probes: number;
  /** Days of a probe that were copied now, and that were there already. */
  days: number;
  daysBefore: number;
  /** Of the days that were copied, all of them. */
  values: number;
  /** Of these, those that were not on the other side before. */
  added: number;
  /** A sentence for each probe of which a part is kept by hours only, on either side. */
  notes: string[];
  differences: Difference[];
}

/** @param onDay told of each day of a probe that is done */
export async function copyHistory(
  from: History,
  to: History,
  onDay: (name: ProbeName, day: number) => void = () => undefined,
): Promise<Copied> {
  const copied: Copied = {
    probes: 0,
    days: 0,
    daysBefore: 0,
    values: 0,
    added: 0,
    notes: [],
    differences: [],
  };
  for (const name of await from.probes()) {
    const span = await copiedSpan(from, to, name, copied);
    if (!span) continue;
    copied.probes += 1;
    for (let start = dayOf(span.from); start < span.to; start += CHUNK_ms) {
      const chunk = { from: Math.max(start, span.from), to: Math.min(start + CHUNK_ms, span.to) };
      for (const day of await copyChunk(from, to, name, chunk, copied)) onDay(name, day);
    }
  }
  return copied;
}

/** Readings of before the time from which a side keeps them one by one can neither be given nor taken. */
async function copiedSpan(
  from: History,
  to: History,
  name: ProbeName,
  copied: Copied,
): Promise<Stretch | undefined> {
  const span = await from.span(name);
  const since = Math.max(from.since(name), to.since(name));
  if (!span && since === 0) return undefined;
  if (since > (span?.from ?? 0))
    copied.notes.push(
      `${name.site}/${name.probe}: before ${formatTime(since)} readings are kept by hours: that part is not copied`,
    );
  return span && span.to > since ? { from: Math.max(span.from, since), to: span.to } : undefined;
}

/** @returns the days of the chunk that have readings */
async function copyChunk(
  from: History,
  to: History,
  name: ProbeName,
  chunk: Stretch,
  copied: Copied,
): Promise<number[]> {
  const source = byDay(await all(from, name, chunk));
  if (source.size === 0) return [];
  const before = byDay(await all(to, name, chunk));
  const missing = [...source].filter(([day, readings]) => !isThere(readings, before.get(day)));
  copied.daysBefore += source.size - missing.length;
  if (missing.length > 0) {
    await to.put(
      name,
      missing.flatMap(([, readings]) => readings),
    );
    const after = byDay(await all(to, name, chunk));
    for (const [day, readings] of missing)
      check({ ...name, day }, readings, [before.get(day), after.get(day)], copied);
  }
  return [...source.keys()];
}

function check(
  at: ProbeName & { readonly day: number },
  readings: readonly StoredReading[],
  [there, after = []]: readonly (readonly StoredReading[] | undefined)[],
  copied: Copied,
): void {
  const [from, to] = [sumOf(readings), sumOf(after, readings)];
  if (!isSame(from, to)) {
    copied.differences.push({ ...at, from, to });
    return;
  }
  copied.days += 1;
  copied.values += from.values;
  copied.added += from.values - sumOf(there ?? [], readings).values;
}

const isThere = (readings: readonly StoredReading[], there: readonly StoredReading[] = []): boolean =>
  isSame(sumOf(readings), sumOf(there, readings));

async function all(history: History, name: ProbeName, stretch: Stretch): Promise<StoredReading[]> {
  const readings: StoredReading[] = [];
  for await (const page of history.pages(name, stretch)) for (const reading of page) readings.push(reading);
  return readings;
}
