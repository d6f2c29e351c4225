/** Daily means by probe, of hourly means of what was measured: what simple rules go by. */
import type { BedHour, Sample } from '../../core/watch/watch.js';

/** What a rule takes for a temperature at all: codes of sensors that do not answer lie outside, °C. */
const BELIEVABLE_C = { from: -20, to: 60 } as const;
const HOURS_a_day = 24;

const meanOf = (values: readonly number[]): number | undefined =>
  values.length > 0 ? values.reduce((sum, value) => sum + value, 0) / values.length : undefined;

const isBelievable = (value: number | undefined): value is number =>
  value !== undefined && value >= BELIEVABLE_C.from && value <= BELIEVABLE_C.to;

const hourlyMean = (samples: readonly Sample[]): number | undefined =>
  meanOf(samples.map(({ temperature }) => temperature).filter(isBelievable));

/** A day's means by probe, °C; a probe without any reading on it is absent. */
export type DayMeans = ReadonlyMap<string, number>;

function dayMeans(hours: readonly BedHour[], of: 'probes' | 'shade'): DayMeans {
  const values = new Map<string, number[]>();
  for (const hour of hours)
    for (const [id, samples] of hour[of]) {
      const mean = hourlyMean(samples);
      if (mean === undefined) continue;
      const own = values.get(id) ?? [];
      values.set(id, own);
      own.push(mean);
    }
  return new Map([...values].flatMap(([id, own]) => [[id, meanOf(own) ?? Number.NaN] as const]));
}

/** Day by day from the first hour on. */
export const dailyMeans = (hours: readonly BedHour[], of: 'probes' | 'shade'): DayMeans[] =>
  Array.from({ length: Math.ceil(hours.length / HOURS_a_day) }, (_, day) =>
    dayMeans(hours.slice(day * HOURS_a_day, (day + 1) * HOURS_a_day), of),
  );
