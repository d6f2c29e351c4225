/**
 * The shade as sand feels it: exponentially weighted means of its daily means, hour by hour, one for each memory.
 *
 * Weighted sum and weight decay alike, so each is a true weighted mean from the first hour on, and a gap leaves
 * it as it was.
 */
import { addHour, type Hours, meanOf, toKept } from './hourly-mean.js';
import { PARAMETERS } from './parameters.js';

/** The memories of the shade, and the ground's last, days. */
export const MEMORIES_days = [...PARAMETERS.shadeMemories_days, PARAMETERS.groundMemory_days];

const KEPT_an_hour = MEMORIES_days.map((days) => Math.exp(-1 / (days * 24)));

export interface SlowMeans {
  /** The last hours of the shade. */
  readonly hours: Hours;
  /** By memory: weighted sum, °C, and weight. */
  sums: { readonly sum_C: number; readonly weight: number }[];
  /** Hours that the means rest on, all told. */
  taken_h: number;
  /** Hours since a daily mean was there last. */
  silent_h: number;
}

const nothing = (): SlowMeans['sums'] => KEPT_an_hour.map(() => ({ sum_C: 0, weight: 0 }));

export function newSlowMeans(): SlowMeans {
  return { hours: [], sums: nothing(), taken_h: 0, silent_h: 0 };
}

/** Takes the shade's mean of the next hour, °C; after a long silence the means begin anew. */
export function takeShade(means: SlowMeans, temperature_C: number | undefined): void {
  addHour(means.hours, temperature_C, PARAMETERS.mean_h);
  const daily_C = meanOf(means.hours, PARAMETERS.meanNeeds_h);
  if (daily_C === undefined) {
    means.silent_h += 1;
    if (means.silent_h > PARAMETERS.shadeSilent_h) Object.assign(means, { sums: nothing(), taken_h: 0 });
    return;
  }
  means.sums = means.sums.map(({ sum_C, weight }, memory) => {
    const kept = (KEPT_an_hour[memory] ?? 0) ** (1 + means.silent_h);
    return { sum_C: sum_C * kept + daily_C, weight: weight * kept + 1 };
  });
  means.taken_h += 1;
  means.silent_h = 0;
}

/** The slow means by memory, °C; undefined where they rest on too little or on what is too long ago. */
export function shadeNow({ taken_h, sums }: SlowMeans): number[] | undefined {
  if (!(taken_h >= PARAMETERS.shadeNeeds_h)) return undefined;
  return sums.map(({ sum_C, weight }) => toKept(sum_C / weight));
}
