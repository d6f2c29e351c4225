/** A made-up probe in sound sand, and what reading quality says of it. */
import { DAY_ms, HOUR_ms, hourOf, MINUTE_ms } from '../../../../services/core/model/time.js';
import {
  newQuality,
  type QualityPlace,
  type QualityResult,
  type QualityState,
  stepQuality,
} from '../../../../services/core/watch/quality/index.js';
import type { Sample } from '../../../../services/core/watch/watch.js';

/** 2026-05-04T00:00:00Z. */
export const START = 1_777_852_800_000;

/** Whole numbers below 2^32 from a seed, as a multiplicative congruence of Numerical Recipes gives them. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

/** Nearly normal: the sum of twelve even ones less six. */
export const normal = (random: () => number): number =>
  Array.from({ length: 12 }, random).reduce((sum, one) => sum + one, -6);

export interface ProbeWishes {
  readonly days: number;
  readonly every_min?: number;
  readonly noise_C?: number;
  readonly noise_RH?: number;
  readonly step_C?: number;
  readonly step_RH?: number;
  readonly seed?: number;
}

const inSteps = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(4));

/** A probe 20 cm deep: half a degree of the day, a slow season, humidity at 86 %RH. */
export function soundProbe({
  days,
  every_min = 10,
  noise_C = 0.03,
  noise_RH = 0.25,
  step_C = 0.01,
  step_RH = 0.1,
  seed = 1,
}: ProbeWishes): Sample[] {
  const random = randomFrom(seed);
  return Array.from({ length: (days * 24 * 60) / every_min }, (_, index) => {
    const day = (index * every_min) / (24 * 60);
    const temperature = 20 + 0.05 * day + 0.5 * Math.sin(2 * Math.PI * day) + noise_C * normal(random);
    const humidity = 86 + 0.5 * Math.sin((2 * Math.PI * day) / 9) + noise_RH * normal(random);
    return {
      at: START + index * every_min * MINUTE_ms,
      temperature: inSteps(temperature, step_C),
      humidity: inSteps(Math.min(100, humidity), step_RH),
    };
  });
}

export const dayOf = (at: number): number => (at - START) / DAY_ms;

/** The samples with a part of them changed: from a day on, to another. */
export const changed = (
  samples: readonly Sample[],
  from: number,
  to: number,
  change: (sample: Sample, index: number) => Sample,
): Sample[] => {
  let index = 0;
  return samples.map((sample) =>
    dayOf(sample.at) >= from && dayOf(sample.at) < to ? change(sample, index++) : sample,
  );
};

export interface RunWishes {
  readonly place?: QualityPlace;
  readonly state?: QualityState;
  /** Hours in which others of the bed are silent too. */
  readonly allSilent?: boolean;
  readonly toDay?: number;
}

/** Hour by hour, up to the last sample or the day that is asked for. */
export function runQuality(
  samples: readonly Sample[],
  { place = 'bed', state = newQuality(place, START), allSilent = false, toDay }: RunWishes = {},
): { results: QualityResult[]; state: QualityState } {
  const byHour = new Map<number, Sample[]>();
  for (const sample of samples) {
    const hour = hourOf(sample.at);
    byHour.set(hour, [...(byHour.get(hour) ?? []), sample]);
  }
  const first = state.hour === null ? START : state.hour + HOUR_ms;
  const end = toDay === undefined ? (samples.at(-1)?.at ?? first) + 1 : START + toDay * DAY_ms;
  const results: QualityResult[] = [];
  for (let hour = first; hour < end; hour += HOUR_ms)
    results.push(stepQuality(state, hour, byHour.get(hour) ?? [], !allSilent));
  return { results, state };
}

/** Flags as text, such as `temperature spike`, without the first hour's. */
export const flagsIn = (results: readonly QualityResult[]): string[] =>
  results.flatMap(({ flags }) =>
    flags
      .filter(({ reason }) => reason !== 'unsettled')
      .map(({ quantity, reason }) => `${quantity} ${reason}`),
  );

/** How often each flag was given. */
export function countFlags(results: readonly QualityResult[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const flag of flagsIn(results)) counts[flag] = (counts[flag] ?? 0) + 1;
  return counts;
}

/** When each fault was first told and when it was over, days, in order of telling. */
export function faultsIn(
  results: readonly QualityResult[],
): { fault: string; since: number; toldOn: number; overOn?: number }[] {
  const told = new Map<string, { fault: string; since: number; toldOn: number; overOn?: number }>();
  results.forEach(({ faults }, index) => {
    for (const { kind, quantity, since, until } of faults) {
      const fault = quantity ? `${kind} ${quantity}` : kind;
      const known = told.get(`${fault} ${since}`) ?? {
        fault,
        since: dayOf(since),
        toldOn: (index + 1) / 24,
      };
      told.set(`${fault} ${since}`, until === undefined ? known : { ...known, overOn: dayOf(until) });
    }
  });
  return [...told.values()];
}

/** The longest time from a flagged temperature to the next one that was used, minutes. */
export function longestFlagged_min(samples: readonly Sample[], results: readonly QualityResult[]): number {
  const flagged = new Set(
    results.flatMap(({ flags }) =>
      flags
        .filter(({ quantity, reason }) => quantity === 'temperature' && reason !== 'unsettled')
        .map(({ at }) => at),
    ),
  );
  let [longest, since] = [0, 0];
  for (const { at } of samples) {
    if (flagged.has(at)) since ||= at;
    else {
      if (since) longest = Math.max(longest, (at - since) / MINUTE_ms);
      since = 0;
    }
  }
  return longest;
}
