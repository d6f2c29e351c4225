/**
 * Hours of readings, summed up for the watch, and what the watch expected of them.
 *
 * Sums are taken in whole ten-thousandths, which are exact: the same readings in any order give the same mean to
 * the last bit.
 */
import type { Database } from './database.js';

/** Values outside are no measurement of sand or air: disconnect and power-on values of sensors among them. °C, %RH. */
const BELIEVABLE = { temperature: [-40, 60], humidity: [-5, 110] } as const;

/** Sums of one quantity in ten-thousandths of its unit; `count` 0 means nothing usable. */
export interface ExactSum {
  readonly count: number;
  readonly sum: number;
  readonly min: number;
  readonly max: number;
}

export interface HourSums {
  readonly hour: number;
  readonly temperature: ExactSum;
  readonly humidity: ExactSum;
}

export interface JudgedHour {
  readonly hour: number;
  readonly expected: number | null;
  readonly band: number | null;
  readonly excess: number | null;
}

interface Row {
  hour: number;
  tn: number;
  ts: number;
  tl: number;
  th: number;
  hn: number;
  hs: number;
  hl: number;
  hh: number;
}

const usable = (quantity: keyof typeof BELIEVABLE): string =>
  `CASE WHEN ${quantity} BETWEEN ${BELIEVABLE[quantity][0]} AND ${BELIEVABLE[quantity][1]} THEN ${quantity} END`;

const sums = (quantity: keyof typeof BELIEVABLE, letter: string): string => `
  count(${usable(quantity)}) AS ${letter}n,
  coalesce(sum(CAST(round(${usable(quantity)} * 10000) AS INTEGER)), 0) AS ${letter}s,
  min(${usable(quantity)}) AS ${letter}l, max(${usable(quantity)}) AS ${letter}h`;

export class HourStore {
  readonly #sums;
  readonly #judge;
  readonly #judged;
  readonly #latestJudged;
  readonly #forget;

  constructor(database: Database) {
    this.#sums = database.prepare(
      `SELECT time / 3600000 * 3600000 AS hour, ${sums('temperature', 't')}, ${sums('humidity', 'h')}
       FROM reading WHERE probe = ? AND time >= ? AND time < ? GROUP BY 1 ORDER BY 1`,
    );
    this.#judge = database.prepare(
      'INSERT OR REPLACE INTO judged_hour (probe, hour, expected, band, excess) VALUES (?, ?, ?, ?, ?)',
    );
    this.#judged = database.prepare(
      'SELECT hour, expected, band, excess FROM judged_hour WHERE probe = ? AND hour >= ? AND hour < ? ORDER BY hour',
    );
    this.#latestJudged = database.prepare(
      'SELECT hour, expected, band, excess FROM judged_hour WHERE probe = ? ORDER BY hour DESC LIMIT 1',
    );
    this.#forget = database.prepare('DELETE FROM judged_hour WHERE probe = ? AND hour >= ?');
  }

  /** The hours of [from, to) in which the probe measured anything. Bounds are whole hours, ms. */
  sums(probe: number, from: number, to: number): HourSums[] {
    return (this.#sums.all(probe, from, to) as Row[]).map((row) => ({
      hour: row.hour,
      temperature: { count: row.tn, sum: row.ts, min: row.tl, max: row.th },
      humidity: { count: row.hn, sum: row.hs, min: row.hl, max: row.hh },
    }));
  }

  /** Keeps what the watch expected; a later judgement of the same hour replaces it. */
  judge(probe: number, judged: JudgedHour): void {
    this.#judge.run(probe, judged.hour, judged.expected, judged.band, judged.excess);
  }

  judged(probe: number, from: number, to: number): JudgedHour[] {
    return this.#judged.all(probe, from, to) as JudgedHour[];
  }

  latestJudged(probe: number): JudgedHour | undefined {
    return this.#latestJudged.get(probe) as JudgedHour | undefined;
  }

  /** Forgets judgements from an hour on, before that time is looked at anew. */
  forgetJudged(probe: number, from: number): void {
    this.#forget.run(probe, from);
  }
}
