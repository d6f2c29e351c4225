/**
 * How readings get out: most at once, some never, and after an outage all that was held up together.
 */

import type { Measurement } from './probe.js';
import { type Random, randomFor } from './random.js';
import type { Outage } from './scenario-faults.js';

const DAY_s = 86_400;

/** Shortest and longest outage, h. Judgement. */
const OUTAGE_h = [2, 30] as const;

/** Readings that a probe holds in memory; the oldest go when there are more. A day and a half of ten minutes. */
const HELD_readings = 216;

/** The same through an outage that is known beforehand: ten days of ten minutes, and what fits in one message. */
const LONG_HELD_readings = 1440;

export interface Reading extends Measurement {
  /** Seconds since the season began. */
  readonly time_s: number;
}

/** One message of one probe. */
export interface Delivery {
  /** When it is sent, seconds since the season began. */
  readonly at_s: number;
  readonly probe: string;
  readonly readings: readonly Reading[];
}

export interface Faults {
  readonly lost: number;
  readonly outageEvery_days: number;
  /** Known beforehand, beside those that chance brings. */
  readonly outages?: readonly Outage[];
}

/** The way out of one bed, shared by its probes. */
export class Gateway {
  readonly #random: Random;
  readonly #faults: Faults;
  readonly #known: readonly { readonly from_s: number; readonly to_s: number }[];
  readonly #held = new Map<string, Reading[]>();
  #outageFrom_s = Number.POSITIVE_INFINITY;
  #outageTo_s = Number.POSITIVE_INFINITY;

  constructor(name: string, seed: number, faults: Faults) {
    this.#random = randomFor(seed, 'gateway', name);
    this.#faults = faults;
    this.#known = (faults.outages ?? [])
      .filter(({ part }) => part === name)
      .map(({ fromDay, days }) => ({ from_s: fromDay * DAY_s, to_s: (fromDay + days) * DAY_s }));
    this.#planOutage(0);
  }

  /** Times between outages are exponential: an outage is as likely on one day as on another. */
  #planOutage(after_s: number): void {
    if (!(this.#faults.outageEvery_days > 0)) return;
    const wait_days = -Math.log(1 - this.#random()) * this.#faults.outageEvery_days;
    const length_h = OUTAGE_h[0] + (OUTAGE_h[1] - OUTAGE_h[0]) * this.#random();
    this.#outageFrom_s = after_s + wait_days * DAY_s;
    this.#outageTo_s = this.#outageFrom_s + length_h * 3600;
  }

  /** Takes the readings of one time, and gives what is sent then. */
  send(time_s: number, readings: readonly (readonly [probe: string, reading: Reading])[]): Delivery[] {
    const sent: Delivery[] = [];
    if (time_s >= this.#outageTo_s) this.#planOutage(time_s);
    const long = this.#known.some(({ from_s, to_s }) => time_s >= from_s && time_s < to_s);
    const out = long || time_s >= this.#outageFrom_s;
    if (!out) {
      for (const [probe, held] of this.#held) sent.push({ at_s: time_s, probe, readings: held });
      this.#held.clear();
    }
    for (const [probe, reading] of readings) {
      if (this.#random() < this.#faults.lost) continue;
      if (out) this.#hold(probe, reading, long ? LONG_HELD_readings : HELD_readings);
      else sent.push({ at_s: time_s, probe, readings: [reading] });
    }
    return sent;
  }

  #hold(probe: string, reading: Reading, most: number): void {
    const held = this.#held.get(probe) ?? [];
    held.push(reading);
    if (held.length > most) held.shift();
    this.#held.set(probe, held);
  }
}
