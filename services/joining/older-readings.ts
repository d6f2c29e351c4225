/**
 * Puts older readings into their hours, apart from taking readings in: some at a time, each step one transaction, with
 * a rest after it. Killed at any point it goes on from where it was.
 */
import { DAY_ms, HOUR_ms } from '../core/model/time.js';
import type { OlderHealth } from '../http/index.js';
import type { KnownProbe } from './directory.js';
import { goalOf, heldBeds } from './older-goal.js';
import type { Station } from './station.js';

/** Rest after a step, in times of its length, and at the least, ms: a step takes at most a quarter of the time. */
const REST = 3;
const LEAST_REST_ms = 50;

/** Between two looks at what may go: it moves by days. */
const LOOK_ms = HOUR_ms;

export interface OlderOptions {
  /** For so long readings are kept one by one, ms. */
  readonly keep_ms: number;
  /** Wall clock, ms. */
  readonly now: () => number;
  /** A clock that only goes forward, ms. */
  readonly clock: () => number;
  readonly after: (delay_ms: number, call: () => void) => () => void;
  readonly onError: (error: unknown) => void;
}

export class OlderReadings {
  readonly #station: Station;
  readonly #options: OlderOptions;
  #waiting: KnownProbe[] = [];
  /** When readings last went into their hours, wall clock, ms. */
  #lastAt: number | null = null;
  #cancel: (() => void) | undefined;
  #closed = false;

  constructor(station: Station, options: OlderOptions) {
    this.#station = station;
    this.#options = options;
  }

  /** Looks at once, and from then on by itself. */
  open(): void {
    this.#plan(LEAST_REST_ms);
  }

  close(): void {
    this.#closed = true;
    this.#cancel?.();
  }

  /** How it goes. */
  health(): OlderHealth {
    const { archive, directory } = this.#station;
    const keys = [...directory.probes].map(({ key }) => key);
    const since = keys.map((key) => archive.fullRate.since(key)).filter((time) => time > 0);
    const waiting = keys.filter((key) => archive.folding.waits(key));
    const days = waiting.map((key) => {
      const { goal, foldedTo } = archive.fullRate.mark(key);
      const first = archive.readings.firstTime(key, 0) ?? goal;
      return Math.max(0, goal - Math.max(foldedTo, first)) / DAY_ms;
    });
    return {
      keep_days: this.#options.keep_ms / DAY_ms,
      byHoursTo: since.length === 0 ? null : Math.min(...since),
      waiting: { probes: waiting.length, days: Math.max(0, ...days) },
      lastAt: this.#lastAt,
      heldBy: heldBeds(this.#station, { keep_ms: this.#options.keep_ms, now: this.#options.now() }),
    };
  }

  /** One step. @returns whether another may follow at once */
  step(): boolean {
    if (this.#waiting.length === 0) this.#look();
    const [probe] = this.#waiting;
    if (!probe) return false;
    const { folding } = this.#station.archive;
    if (this.#station.inTransaction(() => folding.step(probe.key)) > 0) this.#lastAt = this.#options.now();
    if (!folding.waits(probe.key)) this.#waiting.shift();
    return this.#waiting.length > 0;
  }

  /** Moves the goals of all probes, and finds those of which readings wait. */
  #look(): void {
    const station = this.#station;
    const { folding, fullRate } = station.archive;
    station.inTransaction(() => {
      for (const probe of station.directory.probes) {
        const goal = goalOf(station, probe, { keep_ms: this.#options.keep_ms, now: this.#options.now() });
        const mark = fullRate.mark(probe.key);
        if (goal > mark.goal) fullRate.set(probe.key, { ...mark, goal });
      }
      for (const watcher of station.watchers.values()) watcher.noteFolding();
    });
    this.#waiting = [...station.directory.probes].filter(({ key }) => folding.waits(key));
  }

  #plan(delay_ms: number): void {
    if (this.#closed) return;
    this.#cancel = this.#options.after(delay_ms, () => {
      const began = this.#options.clock();
      const more = this.#run();
      const spent_ms = this.#options.clock() - began;
      this.#plan(more ? Math.max(LEAST_REST_ms, REST * spent_ms) : LOOK_ms);
    });
  }

  #run(): boolean {
    try {
      return this.step();
    } catch (error) {
      this.#options.onError(error);
      this.#waiting = [];
      return false;
    }
  }
}
