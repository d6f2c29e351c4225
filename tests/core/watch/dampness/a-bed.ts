/** A made-up bed, given by what its sand does: sampled every ten minutes and taken through the watch for damp. */

import { type Thresholds, thresholdsInForce } from '../../../../services/core/model/threshold.js';
import { HOUR_ms, MINUTE_ms } from '../../../../services/core/model/time.js';
import {
  type DampFinding,
  type Dampness,
  type DampnessHour,
  type DampnessProbe,
  type DampnessState,
  newDampness,
  stepDampness,
} from '../../../../services/core/watch/dampness/index.js';
import type { ProbeHour, Sample } from '../../../../services/core/watch/watch.js';

/** Midnight UTC. */
export const START = Date.UTC(2026, 4, 4);

export const PIT: DampnessHour['bed'] = {
  kind: 'stepped-pit',
  steps: [
    { length: 150, width: 100, height: 25 },
    { length: 150, width: 60, height: 25 },
  ],
};

/** A value at a time in hours since the start; undefined where nothing is measured. */
export type Course = (hours: number) => number | undefined;

export interface MadeProbe {
  readonly id: string;
  readonly depth: number;
  readonly temperature?: Course;
  readonly humidity?: Course;
  readonly humidityUncertainty_RH?: number;
  readonly wetOrBroken?: (hour: number) => boolean;
}

export interface MadeBed {
  readonly days: number;
  readonly probes: readonly MadeProbe[];
  readonly shade?: { readonly temperature?: Course; readonly humidity?: Course };
  readonly bed?: DampnessHour['bed'];
  readonly everyMinutes?: number;
  /** Without samples there are hourly values only. */
  readonly withSamples?: boolean;
  readonly disturbed?: (hour: number) => DampnessHour['disturbed'];
  readonly thresholds?: Partial<Thresholds>;
}

/** A wobble in place of noise: the same in every run, repeating in none. */
export const wobble = (seed: number, hours: number, size: number): number =>
  size * Math.sin(seed * 12.9 + hours * 78.233);

export const constant =
  (value: number): Course =>
  () =>
    value;

function samplesOf(
  { temperature, humidity }: { temperature?: Course; humidity?: Course },
  hour: number,
  everyMinutes: number,
): Sample[] {
  return Array.from({ length: 60 / everyMinutes }, (_, at): Sample => {
    const hours = hour + (at * everyMinutes) / 60;
    const [shown_C, shown_RH] = [temperature?.(hours), humidity?.(hours)];
    return {
      at: START + hour * HOUR_ms + at * everyMinutes * MINUTE_ms,
      ...(shown_C !== undefined && { temperature: Math.round(shown_C * 100) / 100 }),
      ...(shown_RH !== undefined && { humidity: Math.min(100, Math.round(shown_RH * 10) / 10) }),
    };
  });
}

function summaryOf(values: readonly number[]) {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return { count: values.length, mean, min: Math.min(...values), max: Math.max(...values) };
}

export function hourOfSamples(samples: readonly Sample[]): ProbeHour {
  const temperatures = samples.flatMap(({ temperature }) => temperature ?? []);
  const humidities = samples.flatMap(({ humidity }) => humidity ?? []);
  return {
    ...(temperatures.length > 0 && { temperature: summaryOf(temperatures) }),
    ...(humidities.length > 0 && { humidity: summaryOf(humidities) }),
  };
}

export function hourOf(made: MadeBed, hour: number): DampnessHour {
  const every = made.everyMinutes ?? 10;
  const probes = made.probes.map((probe, at): DampnessProbe => {
    const samples = samplesOf(probe, hour, every);
    const { id, depth, humidityUncertainty_RH, wetOrBroken } = probe;
    return {
      id,
      x: 30 + 20 * at,
      y: 45,
      depth,
      hour: hourOfSamples(samples),
      ...(made.withSamples !== false && { samples }),
      ...(humidityUncertainty_RH !== undefined && { humidityUncertainty_RH }),
      ...(wetOrBroken && { wetOrBroken: wetOrBroken(hour) }),
    };
  });
  const disturbed = made.disturbed?.(hour);
  return {
    hour: START + hour * HOUR_ms,
    bed: made.bed ?? PIT,
    probes,
    thresholds: { ...thresholdsInForce(), ...made.thresholds },
    ...(made.shade && { shade: hourOfSamples(samplesOf(made.shade, hour, every)) }),
    ...(disturbed && { disturbed }),
  };
}

export interface Told {
  /** Days since the start at which it was raised, and cleared where it was. */
  readonly day: number;
  readonly clearedDay?: number;
  readonly finding: DampFinding;
}

export interface Run {
  readonly told: readonly Told[];
  /** `damp/check/humidity p1`, in order. */
  readonly names: readonly string[];
  readonly state: DampnessState;
  readonly last: Dampness;
}

export const nameOf = ({ kind, action, sign, probe }: DampFinding): string =>
  `${kind}/${action}/${sign} ${probe}`;

/** @param betweenHours what is done with the state after each hour: put down and taken up again, say */
export function run(made: MadeBed, betweenHours = (state: DampnessState): DampnessState => state): Run {
  let state = newDampness(START);
  let last: Dampness | undefined;
  const told: Told[] = [];
  for (let hour = 0; hour < made.days * 24; hour += 1) {
    last = stepDampness(state, hourOf(made, hour));
    state = betweenHours(state);
    const day = (hour + 1) / 24;
    const now = new Map(last.findings.map((finding) => [nameOf(finding), finding]));
    told.forEach((one, at) => {
      if (one.clearedDay === undefined && !now.has(nameOf(one.finding)))
        told[at] = { ...one, clearedDay: day };
    });
    const open = new Set(
      told.filter((one) => one.clearedDay === undefined).map((one) => nameOf(one.finding)),
    );
    for (const [name, finding] of now) if (!open.has(name)) told.push({ day, finding });
  }
  if (!last) throw new Error('expected a bed of at least an hour');
  return { told, names: told.map(({ finding }) => nameOf(finding)), state, last };
}
