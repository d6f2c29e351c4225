/** What stands at the end of an hour, with the numbers that it rests on and the place to look at. */
import type { Evidence, Place } from '../../model/alarm.js';
import type { Thresholds } from '../../model/threshold.js';
import { saturatedDensity_g_m3, vapourDensities } from './evidence-vapour.js';
import type { HumidityView } from './humidity-sign.js';
import { DAMPNESS } from './parameters.js';
import type { DampnessState, DampProbeState, DewState } from './state.js';
import type { DampFinding, DampnessProbe } from './types.js';

const to1 = (value: number): number => Number(value.toFixed(1));
const to2 = (value: number): number => Number(value.toFixed(2));

/** Leaves out what is not known: a gap is absent. */
export function known(entries: Readonly<Record<string, number | string | undefined>>): Evidence {
  return Object.fromEntries(
    Object.entries(entries).filter((entry): entry is [string, number | string] => entry[1] !== undefined),
  );
}

const rounded = (value: number | undefined, to: (value: number) => number): number | undefined =>
  value === undefined ? undefined : to(value);

export const placeOf = ({ x, y, depth }: DampnessProbe): Place => ({
  x,
  y,
  depth,
  radius: DAMPNESS.radius_cm,
});

/** Damp by humidity at a probe: unpacking before a look. */
export function humidityFinding(
  probe: DampnessProbe,
  view: HumidityView,
  together: number,
  thresholds: Thresholds,
): DampFinding | undefined {
  const { humidity } = view.state;
  const graver = earliest([humidity.unpack.since, humidity.together.since]);
  const milder = earliest([humidity.check.since, humidity.early.since]);
  const since = graver ?? milder;
  if (since === null) return undefined;
  const leading = graver === null ? humidity.check : humidity.unpack;
  const evidence = known({
    probe: probe.id,
    humidity_RH: rounded(view.level_RH, to1),
    rise_RH: rounded(view.rise_RH, to1),
    slope_RH_per_day: rounded(humidity.trend?.slope_RH_per_day, to2),
    forecast_RH: rounded(view.forecast_RH, to1),
    ...vapourDensities(probe.hour, view),
    held_h: leading.above_h > 0 ? leading.above_h : undefined,
    probes: together,
    threshold_RH: graver === null ? thresholds.damp_check_RH : thresholds.damp_unpack_RH,
  });
  const action = graver === null ? 'check' : 'unpack';
  return { kind: 'damp', action, sign: 'humidity', probe: probe.id, since, evidence, place: placeOf(probe) };
}

const earliest = (times: readonly (number | null)[]): number | null =>
  times.reduce((best, time) => (best === null || (time !== null && time < best) ? time : best), null);

/** Damp by the daily swing that arrives. */
export function swingFinding(probe: DampnessProbe, { swing }: DampProbeState): DampFinding | undefined {
  const since = swing.damp.since;
  const reading = swing.asked;
  if (since === null || !reading) return undefined;
  const evidence: Evidence = {
    probe: probe.id,
    class: reading.class,
    dampProbability: reading.dampProbability,
    swingShare: reading.swingShare,
    diffusivity_m2_s: reading.diffusivity_m2_s,
    uncertaintyFactor: reading.uncertaintyFactor,
    against: reading.via,
  };
  return {
    kind: 'damp',
    action: 'check',
    sign: 'swing',
    probe: probe.id,
    since,
    evidence,
    place: placeOf(probe),
  };
}

const WETTING_ACTION = {
  front: 'unpack',
  'front-or-broken': 'service',
  'temperature-step': 'check',
} as const;

/** Water that reached a probe, or seems to have. */
export function frontFinding(probe: DampnessProbe, { front }: DampProbeState): DampFinding | undefined {
  if (!front) return undefined;
  const evidence = known({
    probe: probe.id,
    before_RH: rounded(front.before_RH ?? undefined, to1),
    humidity_RH: rounded(front.reached_RH ?? undefined, to1),
    change_C: rounded(front.change_C ?? undefined, to2),
  });
  const { sign, since } = front;
  return {
    kind: 'wetting',
    action: WETTING_ACTION[sign],
    sign,
    probe: probe.id,
    since,
    evidence,
    place: placeOf(probe),
  };
}

/** Condensation at the coldest probe. */
export function dewFinding(
  probes: readonly DampnessProbe[],
  { hold, coldest, sand_C, dewPoint_C, source }: DewState,
): DampFinding | undefined {
  const probe = probes.find(({ id }) => id === coldest);
  if (hold.since === null || !probe) return undefined;
  const evidence = {
    probe: probe.id,
    dewPoint_C: to1(dewPoint_C),
    sand_C: to1(sand_C),
    vapourDensity_g_m3: to1(saturatedDensity_g_m3(dewPoint_C)),
    saturation_g_m3: to1(saturatedDensity_g_m3(sand_C)),
    air: source,
  };
  const { since } = hold;
  return {
    kind: 'condensation',
    action: 'check',
    sign: 'dew-point',
    probe: probe.id,
    since,
    evidence,
    place: placeOf(probe),
  };
}

const GRAVITY: Readonly<Record<DampFinding['action'], number>> = { unpack: 0, check: 1, service: 2 };

/** The gravest first, of one gravity the oldest first, then by probe. */
export function inOrder(findings: readonly DampFinding[]): DampFinding[] {
  return [...findings].sort(
    (one, other) =>
      GRAVITY[one.action] - GRAVITY[other.action] ||
      one.since - other.since ||
      (one.probe < other.probe ? -1 : one.probe > other.probe ? 1 : 0),
  );
}

/** What the bed's air says about condensation. */
export function dewFindings(state: DampnessState, probes: readonly DampnessProbe[]): DampFinding[] {
  return [state.outsideAir, state.insideAir].flatMap((dew) => dewFinding(probes, dew) ?? []);
}
