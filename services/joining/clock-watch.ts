/**
 * The wall clock beside one that only goes forward: where they part, somebody or a time server set the clock. What was
 * written down by the clock as it stood moves with it, so that who waits for an answer waits as long as before.
 *
 * A machine that slept looks the same: its other clock stood still meanwhile.
 */
import { DAY_ms, formatTime, HOUR_ms, MINUTE_ms } from '../core/model/time.js';

/** By less the clock is trimmed as a time server does it, ms. Judgement. */
export const TRIMMED_ms = MINUTE_ms;

/** So long it is told, ms. Judgement. */
const TOLD_ms = DAY_ms;

/** Settings of the clock that are remembered: one that flaps fills no memory. */
const MOST = 100;
/** And of which are told. */
const MOST_TOLD = 3;

interface Setting {
  /** How far it was set, ms: forward where positive. */
  readonly by: number;
  /** What it showed from the setting before, or from the start, up to this one, ms. */
  readonly from: number;
  readonly before: number;
  /** When, by the clock that only goes forward, ms. */
  readonly steadyAt: number;
}

export interface ClockParts {
  /** Wall clock, ms. */
  readonly now: () => number;
  /** A clock that only goes forward, ms. */
  readonly steady: () => number;
}

export class ClockWatch {
  readonly #parts: ClockParts;
  readonly #settings: Setting[] = [];
  /** What the wall clock is ahead of the other, ms: at the last look, and at the most so far. */
  #ahead: number;
  #mostAhead: number;
  readonly #steadyAtStart: number;
  /** What the wall clock showed when it was set last, or at the start, ms. */
  #from: number;
  #untaken_ms = 0;

  constructor(parts: ClockParts) {
    this.#parts = parts;
    this.#steadyAtStart = parts.steady();
    this.#from = parts.now();
    this.#ahead = this.#from - this.#steadyAtStart;
    this.#mostAhead = this.#ahead;
  }

  /** Compares the clocks: often enough that little is written down between a setting and this. */
  look(): void {
    const steadyAt = this.#parts.steady();
    const now = this.#parts.now();
    const by = Math.round(now - steadyAt - this.#ahead);
    if (!(Math.abs(by) >= TRIMMED_ms)) return;
    this.#settings.push({ by, from: this.#from, before: now - by, steadyAt });
    if (this.#settings.length > MOST) this.#settings.shift();
    this.#from = now;
    this.#ahead += by;
    this.#mostAhead = Math.max(this.#mostAhead, this.#ahead);
    this.#untaken_ms += by;
  }

  /** How far it was set of which nobody has taken account yet, ms. */
  untaken_ms(): number {
    this.look();
    return this.#untaken_ms;
  }

  /** Account is taken of so much. */
  taken(by: number): void {
    this.#untaken_ms -= by;
  }

  /**
   * By how much it may be behind the truth, ms: what it was set back by. Readings up to there are no readings from the
   * future.
   */
  behind_ms(): number {
    this.look();
    const behind = this.#mostAhead - this.#ahead;
    return behind >= TRIMMED_ms ? behind : 0;
  }

  /**
   * What a time that was written down by the clock as it stood is by the clock of now, ms: as long ago as it was. Where
   * the clock showed it twice, the later is meant. What was written down before this process is taken as it stands, and
   * where that is still to come it counts from the start.
   */
  counted(time: number): number {
    this.look();
    let moved = time;
    const now = this.#parts.now();
    if (!(time >= this.#from && time <= now)) moved += this.#setSince(time);
    return moved > now ? this.#steadyAtStart + this.#ahead : moved;
  }

  /** How far it was set in all since it showed a time last, ms; 0 where it never did. */
  #setSince(time: number): number {
    let all = 0;
    for (const { by, from, before } of [...this.#settings].reverse()) {
      all += by;
      if (time >= from && time <= before) return all;
    }
    return 0;
  }

  /** In words. */
  problems(): string[] {
    this.look();
    const steady = this.#parts.steady();
    return this.#settings
      .filter(({ steadyAt }) => steady - steadyAt < TOLD_ms)
      .slice(-MOST_TOLD)
      .map(({ by, before }) => {
        const way = by > 0 ? 'forward' : 'back';
        return `the clock of this machine was set ${way} by ${spanWords(Math.abs(by))}, from ${formatTime(before)} to ${formatTime(before + by)}: see that it is right now; readings without a time of their own have that of this clock`;
      });
  }
}

const UNITS = [
  [DAY_ms, 'days'],
  [HOUR_ms, 'hours'],
  [MINUTE_ms, 'minutes'],
] as const;

function spanWords(span_ms: number): string {
  const [unit_ms, name] = UNITS.find(([unit]) => span_ms >= 2 * unit) ?? [MINUTE_ms, 'minutes'];
  return `${Math.round(span_ms / unit_ms)} ${name}`;
}
