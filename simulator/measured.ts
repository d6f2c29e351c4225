/** What the probes of a bed, or of the shade, measure, and beside it what is true. */
import { BedRun } from './bed-run.js';
import type { Reading } from './delivery.js';
import { PoreAir } from './humidity.js';
import { Probe } from './probe.js';
import { randomFor } from './random.js';
import type { Scenario, SimulatedBed } from './scenario.js';
import { Sunlit } from './sunlit.js';
import { TICK_s, TICKS_AN_HOUR } from './ticks.js';
import { between, type Hour } from './weather.js';

/** By probe. */
export type Measured = readonly (readonly [probe: string, values: Omit<Reading, 'time_s'>])[];

/** What is true at a probe at the end of an hour. */
export interface TrueSand {
  readonly probe: string;
  readonly temperature_C: number;
  /** What is above the same bed without rot. */
  readonly excess_C: number;
  readonly humidity_RH: number;
  /** Whether water of a leak has reached it. */
  readonly wet: boolean;
}

export class MeasuredBed {
  readonly #run: BedRun;
  /** When the same bed without its rots parts from it, days; infinite where that is not asked for. */
  readonly #parts: number;
  #sound: BedRun | undefined;
  readonly #probes: readonly { probe: Probe; air: PoreAir }[];
  #truth: TrueSand[] = [];

  constructor(scenario: Scenario, bed: SimulatedBed, seed: number, first: Hour, withTruth: boolean) {
    this.#run = new BedRun(scenario, bed, first, seed);
    this.#parts = withTruth
      ? Math.min(Number.POSITIVE_INFINITY, ...bed.rots.map(({ startDay }) => startDay))
      : Number.POSITIVE_INFINITY;
    this.#probes = bed.probes.map(({ id }) => ({
      probe: new Probe(id, seed),
      air: new PoreAir(randomFor(seed, 'air', id)),
    }));
  }

  /** @returns what is measured at the end of each ten minutes */
  next(from: Hour, to: Hour, hour: number): Measured[] {
    if ((hour + 1) / 24 > this.#parts) this.#sound ??= this.#run.withoutRots();
    const sound = this.#sound?.next(from, to).at(-1);
    return this.#run.next(from, to).map((sands) => {
      this.#truth = this.#probes.map(({ probe, air }, index) => {
        const sand = sands[index] as (typeof sands)[number];
        const { temperature_C, wet } = sand;
        const excess_C = sound ? temperature_C - (sound[index]?.temperature_C as number) : 0;
        return { probe: probe.id, temperature_C, excess_C, humidity_RH: air.next(sand, TICK_s / 3600), wet };
      });
      return this.#probes.map(({ probe }, index) => {
        const { temperature_C, humidity_RH } = this.#truth[index] as TrueSand;
        return [probe.id, probe.measure(temperature_C, humidity_RH, hour / 24)] as const;
      });
    });
  }

  /** At the end of the hour last gone through. */
  truth(): TrueSand[] {
    return this.#truth;
  }
}

/** The probes outside the beds. */
export class MeasuredShade {
  readonly #probes: readonly { probe: Probe; sunlit: Sunlit }[];

  constructor({ shade, shadeSunlit_C }: Scenario, seed: number) {
    this.#probes = shade.map((id) => ({
      probe: new Probe(id, seed),
      sunlit: new Sunlit(shadeSunlit_C, id, seed),
    }));
  }

  next(from: Hour, to: Hour, hour: number): Measured[] {
    return Array.from({ length: TICKS_AN_HOUR }, (_, tick) => {
      const share = (tick + 1) / TICKS_AN_HOUR;
      const now = between(from, to, share);
      return this.#probes.map(({ probe, sunlit }) => {
        const shown_C = now.air_C + sunlit.warmer_C((hour % 24) + share, now);
        return [probe.id, probe.measure(shown_C, now.air_RH, hour / 24)] as const;
      });
    });
  }

  truth(): TrueSand[] {
    return [];
  }
}
