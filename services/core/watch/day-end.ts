/** What the watch learns at the end of each day (UTC). */
import { DAY_ms } from '../model/time.js';
import { baselineFor } from './baseline.js';
import { isHeating } from './heating.js';
import { meanOf } from './hourly-mean.js';
import { learnDay } from './learned-days.js';
import { PARAMETERS } from './parameters.js';
import { placementAt, settledAt } from './presence.js';
import { shadeNow } from './slow-mean.js';
import type { WatchState } from './state.js';
import type { WatchedBed } from './watch.js';

/**
 * Learns the day that has ended and sets the baselines for the next. A probe that is heating, or on its way to,
 * learns nothing and keeps its baseline.
 *
 * @param end of the day, ms
 */
export function endDay(state: WatchState, watched: WatchedBed, end: number): void {
  const today = end / DAY_ms;
  const shade_C = shadeNow(state.shade) ?? null;
  const begun = end - DAY_ms;
  for (const [id, probe] of state.probes) {
    const placement = placementAt(watched, id, begun);
    const probe_C = meanOf(probe.hours, PARAMETERS.meanNeeds_h);
    if (!placement || probe_C === undefined || isHeating(probe) || state.heldTo > begun) continue;
    if (begun >= settledAt(state, watched, placement))
      learnDay(probe.days, { day: today - 1, probe_C, shade_C });
  }
  for (const [id, probe] of state.probes) {
    if (isHeating(probe)) continue;
    const others = [...state.probes].filter(([other]) => other !== id);
    probe.baseline = baselineFor(probe, others, today) ?? null;
  }
}
