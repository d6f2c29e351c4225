/**
 * Readings that the watch of a bed does not use, and why. The readings themselves stay as they came.
 *
 * There is a flag only for a value that is stored, so at most two for a stored reading and bed that sees it.
 */
import type { FlagReason, QualityFlag } from '../core/watch/flag.js';
import type { Database } from './database.js';

export interface ShownFlag extends QualityFlag {
  /** As the probe sent it, °C or %RH. */
  readonly value: number;
}

const STORED =
  "EXISTS (SELECT 1 FROM reading WHERE probe = @probe AND time = @at AND CASE @quantity WHEN 'temperature' THEN temperature WHEN 'humidity' THEN humidity END IS NOT NULL)";

export class FlagStore {
  readonly #put;
  readonly #forget;
  readonly #newest;
  readonly #shown;
  readonly #totals;

  constructor(database: Database) {
    this.#put = database.prepare(
      `INSERT INTO flag (probe, time, quantity, bed, reason, hour)
       SELECT @probe, @at, @quantity, @bed, @reason, @hour WHERE ${STORED} ON CONFLICT DO NOTHING`,
    );
    this.#forget = database.prepare('DELETE FROM flag WHERE bed = ? AND hour >= ? AND hour < ?');
    this.#newest = database.prepare(
      `SELECT time AS at, quantity, reason FROM flag WHERE probe = ? AND bed = ? AND time >= ? AND time < ?
       ORDER BY time DESC, quantity DESC LIMIT ?`,
    );
    this.#shown = database.prepare(
      `SELECT time AS at, quantity, reason, CASE quantity WHEN 'temperature' THEN temperature ELSE humidity END AS value
       FROM flag JOIN reading USING (probe, time) WHERE probe = ? AND bed = ? AND time >= ? AND time < ?
       ORDER BY time DESC, quantity DESC LIMIT ?`,
    );
    // A shade probe is seen by every bed of its site and counts once.
    this.#totals = database
      .prepare(
        `SELECT reason, count(*) FROM (SELECT DISTINCT probe, time, quantity, reason FROM flag) GROUP BY reason`,
      )
      .raw();
  }

  /**
   * Keeps flags of one probe; one for a value that is not stored is left out, and of two for one value the first
   * stands.
   *
   * @param hour start of the hour in which the bed's watch found them, ms
   */
  put(bed: string, probe: number, hour: number, flags: readonly QualityFlag[]): void {
    for (const { at, quantity, reason } of flags) this.#put.run({ bed, probe, hour, at, quantity, reason });
  }

  /** Forgets what a bed's watch found in an hour or after it, before it looks at that time anew. */
  forget(bed: string, from: number, to = Number.MAX_SAFE_INTEGER): void {
    this.#forget.run(bed, from, to);
  }

  /** Flags of a probe in a bed with `from <= at < to` in order of time: the newest where there are more than `most`. */
  read(bed: string, probe: number, { from, to }: { from: number; to: number }, most: number): QualityFlag[] {
    return (this.#newest.all(probe, bed, from, to, most) as QualityFlag[]).reverse();
  }

  /** The same with the values as they came. */
  shown(bed: string, probe: number, { from, to }: { from: number; to: number }, most: number): ShownFlag[] {
    return (this.#shown.all(probe, bed, from, to, most) as ShownFlag[]).reverse();
  }

  /** How many values are flagged as it stands now, by reason. */
  totals(): Map<FlagReason, number> {
    return new Map(this.#totals.all() as [FlagReason, number][]);
  }
}
