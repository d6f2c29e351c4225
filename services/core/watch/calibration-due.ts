/** Probes whose next calibration has fallen due. */
import { CALIBRATED_QUANTITIES } from '../model/calibration.js';
import type { Thresholds } from '../model/threshold.js';
import { DAY_ms, HOUR_ms } from '../model/time.js';
import type { PlacedProbe } from './placements.js';
import type { BedHour } from './watch.js';

/** When the calibration after one that was made then falls due, ms. */
export const dueAfter = (madeAt: number, days: number): number => madeAt + days * DAY_ms;

/**
 * @returns by probe of the bed with a calibration in force that is older than it may be: since when, ms. A probe that
 *   was never calibrated has none due
 */
export function calibrationsDue(
  { hour, corrections }: BedHour,
  placed: readonly PlacedProbe[],
  thresholds: Thresholds,
): ReadonlyMap<string, number> {
  const days = {
    temperature: thresholds.calibrate_temperature_days,
    humidity: thresholds.calibrate_humidity_days,
  };
  return new Map(
    placed.flatMap(({ id }) => {
      const dues = CALIBRATED_QUANTITIES.flatMap((quantity) => {
        const madeAt = corrections?.get(id)?.[quantity]?.madeAt ?? null;
        return madeAt === null ? [] : [dueAfter(madeAt, days[quantity])];
      });
      const due = Math.min(...dues);
      return due <= hour + HOUR_ms ? [[id, due] as const] : [];
    }),
  );
}
