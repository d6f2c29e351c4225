/**
 * Puts readings into their hours, some at a time: what goes into an hour and what goes out of the readings is one
 * transaction of the caller's.
 */
import { QUANTITIES, type Quantity } from '../core/model/quantity.js';
import { hourOf } from '../core/model/time.js';
import type { Database } from './database.js';
import type { FullRate } from './full-rate.js';
import type { HourStore } from './hour-store.js';
import { FoldedHour, mayFold } from './hour-values.js';
import type { StoredReading } from './reading-store.js';

/** Readings of one step: some milliseconds, so that taking in is not held up. */
export const FOLDED_AT_ONCE = 1_000;

export interface FoldingParts {
  readonly fullRate: FullRate;
  readonly hours: HourStore;
  /** Event time before which no reading of the probe waits to be forwarded, ms. */
  readonly forwardedUpTo: (probe: number) => number;
}

type Flags = ReadonlySet<string>;
const flagKey = (time: number, quantity: string): string => `${quantity} ${time}`;

export class Folding {
  readonly #parts: FoldingParts;
  readonly #rows;
  readonly #flags;
  readonly #remove;
  readonly #leave;

  constructor(database: Database, parts: FoldingParts) {
    this.#parts = parts;
    this.#rows = database.prepare(
      'SELECT * FROM reading WHERE probe = ? AND time >= ? AND time < ? ORDER BY time LIMIT ?',
    );
    this.#flags = database
      .prepare('SELECT DISTINCT time, quantity FROM flag WHERE probe = ? AND time >= ? AND time <= ?')
      .raw();
    this.#remove = database.prepare('DELETE FROM reading WHERE probe = ? AND time = ?');
    this.#leave = database.prepare(
      'UPDATE reading SET temperature = ?, humidity = ?, battery = ?, charge = ? WHERE probe = ? AND time = ?',
    );
  }

  /** Whether readings of the probe wait to go into their hours. */
  waits(probe: number): boolean {
    return this.#parts.fullRate.mark(probe).foldedTo < this.#target(probe);
  }

  /**
   * Folds the oldest readings of a probe that may go.
   *
   * @returns how many were looked at: at most `most`
   */
  step(probe: number, most: number = FOLDED_AT_ONCE): number {
    const { fullRate } = this.#parts;
    const mark = fullRate.mark(probe);
    const target = this.#target(probe);
    if (!(mark.foldedTo < target)) return 0;
    const rows = this.#rows.all(probe, mark.foldedTo, target, most) as StoredReading[];
    const last = rows.at(-1);
    const foldedTo = last && rows.length === most ? last.time + 1 : target;
    this.#fold(probe, rows);
    fullRate.set(probe, { ...mark, foldedTo, since: Math.max(mark.since, foldedTo) });
    return rows.length;
  }

  #target(probe: number): number {
    return Math.min(this.#parts.fullRate.mark(probe).goal, this.#parts.forwardedUpTo(probe));
  }

  #fold(probe: number, rows: readonly StoredReading[]): void {
    const flags = this.#flagsOf(probe, rows);
    const hours = new Map<number, FoldedHour>();
    for (const row of rows) {
      const goes = QUANTITIES.filter((quantity) => isFolded(row, quantity, flags));
      const hour = hourOf(row.time);
      if (goes.length === 0) continue;
      const folded = hours.get(hour) ?? new FoldedHour(hour, this.#parts.hours.get(probe, hour));
      hours.set(hour, folded);
      for (const quantity of goes) folded.add(row.time, quantity, row[quantity] as number);
      this.#takeOut(probe, row, goes);
    }
    for (const folded of hours.values()) this.#parts.hours.put(probe, folded.done());
  }

  #flagsOf(probe: number, rows: readonly StoredReading[]): Flags {
    const found = this.#flags.all(probe, rows[0]?.time ?? 0, rows.at(-1)?.time ?? 0) as [number, string][];
    return new Set(found.map(([time, quantity]) => flagKey(time, quantity)));
  }

  /** What is flagged stays as it came. */
  #takeOut(probe: number, row: StoredReading, goes: readonly Quantity[]): void {
    const left = QUANTITIES.map((quantity) => (goes.includes(quantity) ? null : row[quantity]));
    if (left.every((value) => value === null)) this.#remove.run(probe, row.time);
    else this.#leave.run(...left, probe, row.time);
  }
}

function isFolded(row: StoredReading, quantity: Quantity, flags: Flags): boolean {
  const value = row[quantity];
  return value !== null && mayFold(quantity, value) && !flags.has(flagKey(row.time, quantity));
}
