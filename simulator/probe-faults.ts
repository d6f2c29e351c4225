/** What a probe that is not in order tells instead of what it measured. */
import type { Reading } from './delivery.js';
import { normal, type Random, randomFor } from './random.js';
import type { Scenario } from './scenario.js';
import type { ProbeFault } from './scenario-faults.js';

/** A reading on its way through a fault; undefined where nothing is told. */
type Changed = Reading | undefined;

interface Course {
  /** Days since the fault began. */
  readonly since: number;
  readonly random: Random;
  /** What was told last before it began. */
  readonly last: Reading;
}

const inSteps = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(2));

const warmer = (reading: Reading, by_C: number): Reading => ({
  ...reading,
  temperature_C: inSteps(reading.temperature_C + by_C, 0.01),
});

const moreHumid = (reading: Reading, by_RH: number): Reading => ({
  ...reading,
  humidity_RH: inSteps(Math.min(100, Math.max(0, reading.humidity_RH + by_RH)), 0.1),
});

function change(fault: ProbeFault, reading: Reading, { since, random, last }: Course): Changed {
  switch (fault.kind) {
    case 'drift':
      return warmer(reading, fault.C_per_day * since);
    case 'offset-step':
      return warmer(reading, fault.C);
    case 'stuck':
      return { ...reading, temperature_C: last.temperature_C, humidity_RH: last.humidity_RH };
    case 'spikes':
      return random() < fault.share ? warmer(reading, fault.size_C * (random() < 0.5 ? -1 : 1)) : reading;
    case 'sensor-code':
      return random() < fault.share ? { ...reading, temperature_C: fault.code } : reading;
    case 'noisy':
      return warmer(reading, fault.sd_C * normal(random));
    case 'silent':
      return undefined;
    case 'humidity-stuck-100':
      return { ...reading, humidity_RH: 100 };
    case 'humidity-creep':
      return moreHumid(reading, fault.RH_per_day * since);
    case 'clock-jump':
      return { ...reading, time_s: reading.time_s + fault.seconds };
    case 'pulled':
      // The air that it lies in is what it measures, and tells.
      return reading;
  }
}

/** The faults of one probe through the season. */
export class ProbeFaults {
  readonly #faults: { readonly fault: ProbeFault; readonly random: Random; last?: Reading }[];

  constructor({ faults }: Scenario, probe: string, seed: number) {
    this.#faults = faults.probes
      .filter((fault) => fault.probe === probe)
      .map((fault, index) => ({ fault, random: randomFor(seed, 'fault', probe, fault.kind, String(index)) }));
  }

  /** What the probe tells of a reading as it was measured; undefined for nothing. */
  told(measured: Reading): Reading | undefined {
    const day = measured.time_s / 86_400;
    let reading: Changed = measured;
    for (const course of this.#faults) {
      const { fault, random } = course;
      const since = day - fault.startDay;
      if (since < 0) course.last = reading;
      else if (since < (fault.days ?? Number.POSITIVE_INFINITY)) {
        course.last ??= reading;
        reading = change(fault, reading, { since, random, last: course.last });
      }
      if (reading === undefined) return undefined;
    }
    return reading;
  }
}
