/** How warm a bed was, day by day. */
import type { DailyMean } from '../core/keeping/index.js';
import { DAY_ms } from '../core/model/time.js';
import { type KnownBed, staysInBed } from './directory.js';
import { meanOf } from './probe-hours.js';
import type { Station } from './station.js';

/** °C between which a mean of a bed lies: sensor codes lie beyond. */
const OF_A_BED = { least: -10, greatest: 60 } as const;

/** Corrected means over the probes of the bed, of days in UTC with readings, in order; `from <= time < to`, ms. */
export function dailyMeans(station: Station, known: KnownBed, from: number, to: number): DailyMean[] {
  const days = new Map<number, number[]>();
  for (const probe of known.probes)
    for (const stay of staysInBed(probe, known.bed.id)) {
      const span = { from: Math.max(from, stay.from), to: Math.min(to, stay.to) };
      for (const { at, mean } of station.archive.means.daily(probe.key, span, OF_A_BED)) {
        const { value } = station.calibrations.correct(probe, 'temperature', at + DAY_ms / 2, mean);
        days.set(at, [...(days.get(at) ?? []), value]);
      }
    }
  return [...days]
    .map(([at, values]) => ({ at, mean_C: meanOf(values) as number }))
    .sort((one, other) => one.at - other.at);
}
