/** What the watch learns at the end of each day (UTC). */
import { DAY_ms } from '../model/time.js';
import { baselineFor } from './baseline.js';
import { isHeating } from './heating.js';
import { meanOf, toKept } from './hourly-mean.js';
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
  const begun = end - DAY_ms;
  const shade_C = shadeNow(state.shade);
  if (shade_C) learnDay(state.shadeDays, today - 1, shade_C);
  for (const [id, probe] of state.probes) {
    const probe_C = meanOf(probe.hours, PARAMETERS.meanNeeds_h);
    if (probe_C !== undefined && isSound(state, watched, id, begun))
      learnDay(probe.days, today - 1, toKept(probe_C));
  }
  for (const [id, probe] of state.probes) {
    if (isHeating(probe)) continue;
    const others = [...state.probes].filter(([other]) => other !== id);
    probe.baseline = baselineFor(probe, state.shadeDays, others, today) ?? null;
  }
}

/** Whether what a probe measured in the day that began then is a measure of a sound bed. */
function isSound(state: WatchState, watched: WatchedBed, id: string, begun: number): boolean {
  const probe = state.probes.get(id);
  const placement = placementAt(watched, id, begun);
  if (!probe || !placement || isHeating(probe) || state.heldTo > begun) return false;
  return begun >= settledAt(state, watched, placement);
}
