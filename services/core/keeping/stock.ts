/**
 * The stock of one bed as a ledger. Entries come late and in any order from devices that were out of reach; what
 * counts is when things happened, so that the same entries give the same ledger however they came.
 *
 * A counter-entry takes an entry back at the time of that entry, as it then never was so; its own time says when the
 * mistake was seen.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import type { CounterEntry, InReason, StockEntry, StockOutReason } from '../model/stock.js';
import { EARLIEST_TIME_ms, formatTime, LATEST_TIME_ms } from '../model/time.js';
import { mergedById } from './stock-merge.js';

export interface Ledger {
  readonly bed: string;
  /** By time, then id. */
  readonly entries: readonly StockEntry[];
}

export const emptyLedger = (bed: string): Ledger => Object.freeze({ bed, entries: Object.freeze([]) });

/**
 * Takes in entries: all of them, or none where one is refused.
 *
 * @returns the ledger itself where all were there already
 * @throws SandlarderError CONFLICT where an id is there with other content, where a counter-entry takes back more
 * than its entry has or comes before it, and where fewer than no roots would have been left at any time; NOT_FOUND
 * for a counter-entry of an entry that is not there; BAD_REQUEST for an entry of another bed
 */
export function withEntries(ledger: Ledger, arrived: readonly StockEntry[]): Ledger {
  const stray = arrived.find(({ bed }) => bed !== ledger.bed);
  if (stray)
    throw new SandlarderError(
      'BAD_REQUEST',
      `stock entry ${stray.id}: expected bed ${ledger.bed}, got ${stray.bed}`,
    );
  const { records, added } = mergedById(ledger.entries, arrived, 'stock entry');
  if (added.length === 0) return ledger;
  const entries = records.toSorted(inOrder);
  requireCounters(entries);
  requireNeverNegative(ledger.bed, entries);
  return Object.freeze({ bed: ledger.bed, entries: Object.freeze(entries) });
}

const inOrder = (one: StockEntry, other: StockEntry): number =>
  one.at - other.at || (one.id < other.id ? -1 : one.id > other.id ? 1 : 0);

/** Each counter-entry has its entry, comes not before it, and together they take back no more than it has. */
function requireCounters(entries: readonly StockEntry[]): void {
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const taken = new Map<string, number>();
  for (const counter of entries) {
    if (counter.kind !== 'counter') continue;
    const of = byId.get(counter.of);
    if (!of)
      throw new SandlarderError(
        'NOT_FOUND',
        `stock entry ${counter.id}: expected "of" to name an entry of the bed, got ${counter.of}`,
      );
    requireCounter(counter, of);
    const roots = (taken.get(of.id) ?? 0) + counter.roots;
    if (!(roots <= of.roots))
      throw new SandlarderError(
        'CONFLICT',
        `stock entry ${counter.id}: expected at most the ${of.roots} roots of entry ${of.id} to be taken back, got ${roots}`,
      );
    taken.set(of.id, roots);
  }
}

function requireCounter(counter: CounterEntry, of: StockEntry): void {
  if (of.kind === 'counter')
    throw new SandlarderError(
      'CONFLICT',
      `stock entry ${counter.id}: expected "of" to name an entry "in" or "out", got a counter-entry; write the entry anew`,
    );
  if (!(counter.at >= of.at))
    throw new SandlarderError(
      'CONFLICT',
      `stock entry ${counter.id}: expected a time not before that of its entry, ${formatTime(of.at)}, got ${formatTime(counter.at)}`,
    );
}

/** What an entry did to the stock, once its counter-entries are taken off. */
export interface Movement {
  readonly id: string;
  readonly at: number;
  readonly reason: InReason | StockOutReason;
  readonly direction: 'in' | 'out';
  /** Above 0. */
  readonly roots: number;
  /** Null where it, or what was taken back of it, was not weighed. */
  readonly mass_kg: number | null;
}

/** All that happened and was not taken back, in order of time. */
export function movementsOf({ entries }: Pick<Ledger, 'entries'>): Movement[] {
  const counters = entries.filter((entry) => entry.kind === 'counter');
  return entries.flatMap((entry) =>
    entry.kind === 'counter'
      ? []
      : movementOf(
          entry,
          counters.filter(({ of }) => of === entry.id),
        ),
  );
}

function movementOf(entry: Exclude<StockEntry, CounterEntry>, counters: readonly CounterEntry[]): Movement[] {
  const { id, at, reason, kind: direction } = entry;
  const roots = counters.reduce((left, counter) => left - counter.roots, entry.roots);
  const masses = [entry.mass_kg, ...counters.map(({ mass_kg }) => mass_kg)];
  const mass_kg = masses.every((mass) => mass !== undefined)
    ? masses.slice(1).reduce((left, mass) => left - mass, masses[0] ?? 0)
    : null;
  return roots === 0 ? [] : [{ id, at, reason, direction, roots, mass_kg }];
}

/** What happened at one instant counts together: a bed filled and sold from within the same second has no order. */
function requireNeverNegative(bed: string, entries: readonly StockEntry[]): void {
  const movements = movementsOf({ entries });
  let before = 0;
  let left = 0;
  movements.forEach((movement, index) => {
    left += signed(movement);
    if (movements[index + 1]?.at === movement.at) return;
    const first = movements.find(({ direction }) => direction === 'in');
    if (left < 0 && first !== undefined && first.at > movement.at)
      throw new SandlarderError(
        'CONFLICT',
        `stock of bed ${bed}: expected a time from ${formatTime(first.at)} on, when the first roots were put in, got ${formatTime(movement.at)}`,
      );
    if (left < 0)
      throw new SandlarderError(
        'CONFLICT',
        `stock of bed ${bed}: expected no more to come out than the ${before} roots that were there on ${formatTime(movement.at)}, got ${before - left}`,
      );
    before = left;
  });
}

const signed = ({ direction, roots }: Movement): number => (direction === 'in' ? roots : -roots);

/**
 * Roots in the bed at a time, what happened at that time counted.
 *
 * @param time ms
 * @throws SandlarderError OUT_OF_DOMAIN for a time that is none
 */
export function rootsAt(ledger: Ledger, time: number): number {
  requireInDomain('time, ms,', time, EARLIEST_TIME_ms, LATEST_TIME_ms);
  return movementsOf(ledger)
    .filter(({ at }) => at <= time)
    .reduce((sum, movement) => sum + signed(movement), 0);
}
