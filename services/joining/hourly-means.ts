/** Hourly means of a probe where it stood, corrected, without what its bed's watch does not use. */
import { HOUR_ms, hourOf } from '../core/model/time.js';
import type { KnownProbe, Stay } from './directory.js';
import type { Station } from './station.js';

/** °C. What no bed and no shade has; sensor codes lie beyond. */
const LEAST_C = -55;
const GREATEST_C = 80;

/** Flags that are looked through: more than a probe sends in two days, one every 20 seconds. */
const MOST_FLAGS = 10_000;

export interface HourSpan {
  /** A whole hour, ms. */
  readonly from: number;
  readonly to: number;
}

/**
 * @param bed whose watch says which values are not used
 * @returns °C by hour from the first of the span; null for an hour without
 */
export function hourlyMeans(
  station: Station,
  bed: string,
  probe: KnownProbe,
  stays: readonly Stay[],
  { from, to }: HourSpan,
): (number | null)[] {
  const { archive, calibrations } = station;
  const flagged = new Set(
    archive.flags
      .read(bed, probe.key, { from, to }, MOST_FLAGS)
      .flatMap(({ at, quantity }) => (quantity === 'temperature' ? [at] : [])),
  );
  const values = new Map<number, number[]>();
  for (const { at, temperature } of archive.readings.samples(probe.key, from, to)) {
    if (temperature === undefined || flagged.has(at)) continue;
    if (!stays.some((stay) => at >= stay.from && at < stay.to)) continue;
    const { value } = calibrations.correct(probe, 'temperature', at, temperature);
    if (!(value >= LEAST_C && value <= GREATEST_C)) continue;
    values.set(hourOf(at), [...(values.get(hourOf(at)) ?? []), value]);
  }
  return Array.from({ length: (to - from) / HOUR_ms }, (_, hour) =>
    meanOf(values.get(from + hour * HOUR_ms)),
  );
}

export const meanOf = (values: readonly number[] = []): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
