/** A wetting from when it is found to when it is over, and a doubt about a probe to when it is settled. */
import { HOUR_ms } from '../../model/time.js';
import type { HourSummary } from '../watch.js';
import { type FoundFront, frontByHumidity, frontByTemperature, hasMoved, type OutsideAir } from './front.js';
import { DAMPNESS } from './parameters.js';
import type { DampnessState, DampProbeState, FrontState } from './state.js';
import type { DampnessProbe } from './types.js';

const begun = (found: FoundFront, since: number): FrontState => ({
  ...found,
  since,
  gone_h: 0,
  alive_h: 0,
  silent_h: 0,
});

/**
 * Looks for fronts in the hour and carries on those that were found.
 *
 * @param end end of the hour, ms
 */
export function stepFronts(
  state: DampnessState,
  probes: readonly DampnessProbe[],
  outside: OutsideAir,
  least_RH: number,
  end: number,
): void {
  const handledAt = Math.max(state.packedAt, state.openedAt ?? state.packedAt);
  for (const { id, hour, wetOrBroken } of probes) {
    const probe = state.probes[id];
    if (!probe) continue;
    const mayLook = end - Math.max(handledAt, probe.since) >= DAMPNESS.handled_h * HOUR_ms;
    if (probe.front) probe.front = carriedOn(probe.front, hour.humidity, end);
    const isNews = probe.front === null || probe.front.sign === 'temperature-step';
    const found = mayLook && isNews ? frontByHumidity(probe, outside, least_RH, end) : undefined;
    const isDoubted = wetOrBroken === true && found?.sign === 'front';
    if (found) probe.front = begun(isDoubted ? { ...found, sign: 'front-or-broken' } : found, end);
  }
  takeSteps(state, probes, handledAt, end);
  confirm(state);
}

/** Where several probes moved within hours the bed was handled: water comes to one after the other. */
function takeSteps(
  state: DampnessState,
  probes: readonly DampnessProbe[],
  handledAt: number,
  end: number,
): void {
  const quiet = ({ since }: DampProbeState): boolean =>
    end - Math.max(handledAt, since) >= DAMPNESS.handled_h * HOUR_ms;
  for (const { id, depth } of probes) {
    const probe = state.probes[id];
    if (!probe || probe.front !== null || measuresHumidity(probe) || !quiet(probe)) continue;
    const found = depth >= DAMPNESS.stepDepth_cm ? frontByTemperature(probe) : undefined;
    const alone = !Object.values(state.probes).some((other) => other !== probe && hasMoved(other));
    if (found && alone) probe.front = begun(found, end);
  }
}

/** Humidity would have shown a front. */
const measuresHumidity = ({ humidity: { hours } }: DampProbeState): boolean =>
  hours.some((value) => value !== null);

/** Null when it is over. */
function carriedOn(front: FrontState, humidity: HourSummary | undefined, end: number): FrontState | null {
  if (front.sign === 'temperature-step')
    return end - front.since >= DAMPNESS.stepStands_h * HOUR_ms ? null : front;
  if (!humidity) {
    const silent_h = front.silent_h + 1;
    return front.sign === 'front-or-broken' && silent_h >= DAMPNESS.brokenSilent_h
      ? null
      : { ...front, silent_h };
  }
  const half_RH = ((front.before_RH ?? 0) + (front.reached_RH ?? 0)) / 2;
  const gone_h = humidity.mean < half_RH ? front.gone_h + 1 : 0;
  const clear_h = front.sign === 'front' ? DAMPNESS.frontClear_h : DAMPNESS.brokenClear_h;
  if (gone_h >= clear_h) return null;
  return lively({ ...front, gone_h, silent_h: 0 }, humidity, end);
}

/** A sensor that shows scatter near saturation is alive, and what it shows is water. */
function lively(front: FrontState, { mean, min, max }: HourSummary, end: number): FrontState {
  if (front.sign !== 'front-or-broken') return front;
  const isAlive = mean >= DAMPNESS.aliveFrom_RH && max - min > DAMPNESS.fullScatter_RH;
  const alive_h = front.alive_h + Number(isAlive);
  return alive_h >= DAMPNESS.alive_h
    ? { ...front, sign: 'front', alive_h, since: end }
    : { ...front, alive_h };
}

/** Another probe that gets wet, or sand that conducts better, settles a doubt. */
function confirm(state: DampnessState): void {
  const probes = Object.values(state.probes);
  for (const probe of probes) {
    if (probe.front?.sign !== 'front-or-broken') continue;
    const front = probe.front;
    const others = probes.filter((other) => other !== probe);
    if (others.some((other) => gotWet(other, front.since)) || probe.swing.damp.since !== null)
      probe.front = { ...front, sign: 'front' };
  }
}

/** Found wet, or rising towards it, not long before or after. */
function gotWet({ front, humidity }: DampProbeState, at: number): boolean {
  const near = (since: number | null): boolean =>
    since !== null && Math.abs(since - at) <= DAMPNESS.follows_days * 24 * HOUR_ms;
  return (
    (front?.sign === 'front' && near(front.since)) ||
    [humidity.early, humidity.together].some(({ since }) => near(since))
  );
}
