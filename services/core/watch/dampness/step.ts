/** One hour of one bed through the watch for damp. */
import { SandlarderError } from '../../errors.js';
import { DAY_ms, HOUR_ms } from '../../model/time.js';
import { stepDewPoints } from './dew-point.js';
import { dewFindings, frontFinding, humidityFinding, inOrder, swingFinding } from './findings.js';
import type { OutsideAir } from './front.js';
import { stepFronts } from './front-life.js';
import { withSamples } from './front-samples.js';
import { addHour, meanOfHour, toHundredths } from './hours.js';
import { levelOf, mayLearn, referenceOf, trendOf } from './humidity-level.js';
import { type HumidityView, isDampening, stepHumidity, viewOf } from './humidity-sign.js';
import { DAMPNESS } from './parameters.js';
import { type DampnessState, type DampProbeState, newDew, newProbe } from './state.js';
import { stepSwing } from './swing-sign.js';
import type { Dampness, DampnessHour, DampnessProbe, ProbeDampness } from './types.js';

/**
 * Takes the next hour of a bed: hours come in order, each once, empty ones too. `state` goes on to its end.
 *
 * @returns what stands at the end of the hour. A finding is raised in the hour in which it is there first, `since`
 *   its end, and cleared in the hour in which it is gone.
 * @throws SandlarderError OUT_OF_DOMAIN for an hour that is not the next
 */
export function stepDampness(state: DampnessState, hour: DampnessHour): Dampness {
  requireNext(state, hour.hour);
  const end = hour.hour + HOUR_ms;
  state.hour = hour.hour;
  takeHandling(state, hour);
  takeProbes(state, hour, end);
  const outside = {
    temperature_C: meanOfHour(hour.shade?.temperature),
    humidity_RH: meanOfHour(hour.shade?.humidity),
  };
  return judge(state, hour, outside, end);
}

function requireNext(state: DampnessState, hour: number): void {
  const expected = state.hour === null ? Math.floor(hour / HOUR_ms) * HOUR_ms : state.hour + HOUR_ms;
  if (!(hour === expected))
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `hour of a bed: expected a whole hour, each once and in order, here ${expected} ms, got ${hour} ms`,
    );
}

/**
 * A bed packed anew begins anew. One that was opened keeps what was learned of its humidity; its probes may lie a
 * little deeper or less deep than before, and its sand is warmer or cooler, so that the swing is learned anew.
 */
function takeHandling(state: DampnessState, { hour, disturbed }: DampnessHour): void {
  if (disturbed === 'opened') {
    state.openedAt = hour;
    for (const probe of Object.values(state.probes)) probe.swing = newProbe(probe.place, hour).swing;
  }
  if (disturbed !== 'repacked') return;
  state.packedAt = hour;
  state.openedAt = null;
  state.probes = {};
  state.outsideAir = newDew();
  state.insideAir = newDew();
}

function takeProbes(state: DampnessState, hour: DampnessHour, end: number): void {
  addHour(state.shade, meanOfHour(hour.shade?.temperature), DAMPNESS.wave_h);
  const before = state.probes;
  state.probes = {};
  for (const probe of [...hour.probes].sort((one, other) => (one.id < other.id ? -1 : 1))) {
    const place = [probe.x, probe.y, probe.depth].join(' ');
    const known = before[probe.id];
    const probeState = known?.place === place ? known : newProbe(place, hour.hour);
    state.probes[probe.id] = probeState;
    takeHour(probeState, probe, end);
  }
}

function takeHour(probe: DampProbeState, { hour, samples }: DampnessProbe, end: number): void {
  addHour(probe.humidity.hours, meanOfHour(hour.humidity), DAMPNESS.trend_h);
  probe.humidity.level_RH = levelOf(probe.humidity);
  addHour(probe.swing.hours, meanOfHour(hour.temperature), DAMPNESS.wave_h);
  probe.tail = withSamples(probe.tail, samples ?? [], end);
  if (end % (DAMPNESS.fitEvery_h * HOUR_ms) === 0) probe.humidity.trend = trendOf(probe.humidity);
}

interface Judged {
  readonly probe: DampnessProbe;
  readonly state: DampProbeState;
  readonly view: HumidityView;
}

function judge(state: DampnessState, hour: DampnessHour, outside: OutsideAir, end: number): Dampness {
  const { probes, thresholds } = hour;
  stepFronts(state, probes, outside, thresholds.wetting_rise_RH, end);
  stepSwing(state, hour, end);
  const doubted = new Set(probes.filter(({ wetOrBroken }) => wetOrBroken === true).map(({ id }) => id));
  const isTrusted = (id: string): boolean =>
    !doubted.has(id) && state.probes[id]?.front?.sign !== 'front-or-broken';
  const judged = probes.flatMap((probe): Judged[] => {
    const own = state.probes[probe.id];
    return own
      ? [{ probe, state: own, view: viewOf(state, own, probe.humidityUncertainty_RH, thresholds, end) }]
      : [];
  });
  const trusted = judged.filter(({ probe }) => isTrusted(probe.id));
  stepHumidity(
    trusted.map(({ view }) => view),
    thresholds,
    end,
  );
  stepDewPoints(state, hour, isTrusted, end);
  if (end % DAY_ms === 0) for (const one of trusted) learnDay(state, one, end);
  return { findings: inOrder(findingsOf(state, hour, judged)), probes: standingOf(judged) };
}

/** A day on which nothing is on its way to damp is a day of a sound bed. */
function learnDay(state: DampnessState, { probe, state: own }: Judged, end: number): void {
  const { humidity } = own;
  if (humidity.level_RH === null || !mayLearn(state, own, end) || isDampening(own)) return;
  humidity.days.push([toHundredths(humidity.level_RH), probe.humidityUncertainty_RH ?? null]);
  if (humidity.days.length > DAMPNESS.learned_days) humidity.days.shift();
  humidity.reference = referenceOf(humidity);
}

function findingsOf(state: DampnessState, { probes, thresholds }: DampnessHour, judged: readonly Judged[]) {
  const together = judged.filter(
    ({ view }) => view.risenTogether || view.state.humidity.check.since !== null,
  ).length;
  const ofProbes = judged.flatMap(({ probe, state: own, view }) => [
    frontFinding(probe, own) ?? [],
    humidityFinding(probe, view, Math.max(1, together), thresholds) ?? [],
    swingFinding(probe, own) ?? [],
  ]);
  return [...ofProbes.flat(), ...dewFindings(state, probes)];
}

function standingOf(judged: readonly Judged[]): ReadonlyMap<string, ProbeDampness> {
  return new Map(
    judged.map(({ probe: { id }, state: { humidity, swing }, view }) => [
      id,
      {
        ...(view.level_RH !== undefined && { level_RH: view.level_RH }),
        ...(view.rise_RH !== undefined && { rise_RH: view.rise_RH }),
        ...(humidity.trend && { slope_RH_per_day: humidity.trend.slope_RH_per_day }),
        ...(swing.reading && { swing: swing.reading }),
      },
    ]),
  );
}
