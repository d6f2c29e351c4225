/**
 * Judges again what late readings have changed, apart from taking readings in: many late readings in one go, and
 * never more than a share of the time, so that readings go on being taken in meanwhile.
 */
import type { Station } from './station.js';

/** Rest after a run, in times of its length: judging again takes at most a third of the time. */
const REST = 2;

/** A run that took less goes on with the next bed, ms. */
const RUN_ms = 100;

/** Least and longest rest between runs, ms. */
const LEAST_REST_ms = 100;
const LONGEST_REST_ms = 5_000;

export interface CatchUpOptions {
  /** A clock that only goes forward, ms. */
  readonly clock: () => number;
  readonly after: (delay_ms: number, call: () => void) => () => void;
  readonly onError: (error: unknown) => void;
  /** After each bed that was judged again. */
  readonly onDone: () => void;
}

export class CatchUp {
  readonly #station: Station;
  readonly #options: CatchUpOptions;
  #cancel: (() => void) | undefined;
  #closed = false;

  constructor(station: Station, options: CatchUpOptions) {
    this.#station = station;
    this.#options = options;
  }

  /** Call after every commit: plans a run where there is anything to do. */
  kick(): void {
    this.#plan(LEAST_REST_ms);
  }

  close(): void {
    this.#closed = true;
    this.#cancel?.();
  }

  #plan(delay_ms: number): void {
    if (this.#closed || this.#cancel || this.#station.dirty().length === 0) return;
    this.#cancel = this.#options.after(delay_ms, () => {
      this.#cancel = undefined;
      const began = this.#options.clock();
      const spent_ms = (): number => this.#options.clock() - began;
      // A clock that has not gone on says nothing of how long the next takes.
      const hasRoom = (): boolean => spent_ms() > 0 && spent_ms() < RUN_ms;
      let failed = this.#run();
      while (!failed && hasRoom() && this.#station.dirty().length > 0) failed = this.#run();
      const rest = failed ? LONGEST_REST_ms : REST * spent_ms();
      this.#plan(Math.min(LONGEST_REST_ms, Math.max(LEAST_REST_ms, rest)));
    });
  }

  /**
   * Judges one bed again; one whose watch failed before comes last.
   *
   * @returns whether it failed
   */
  #run(): boolean {
    const dirty = this.#station.dirty();
    const { failures } = this.#station;
    const watcher = dirty.find(({ known }) => !failures.has(known.bed.id)) ?? dirty[0];
    if (!watcher) return false;
    const bed = watcher.known.bed.id;
    try {
      this.#station.inTransaction(() => this.#station.judgeAgain(bed));
      this.#options.onDone();
      return failures.has(bed);
    } catch (error) {
      this.#options.onError(error);
      return true;
    }
  }
}
