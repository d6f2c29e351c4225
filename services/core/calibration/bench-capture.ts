/**
 * Taking what the probes of a bench show at its current point, once they have come to rest there.
 */
import { SandlarderError } from '../errors.js';
import type { Bench, BenchPoint, Capture } from '../model/bench.js';
import type { CalibratedQuantity } from '../model/calibration.js';
import { MINUTE_ms } from '../model/time.js';
import { calibrationPointOf, currentPoint, requireOnBench, requireOpenAt } from './bench.js';
import { BENCH_SOURCE } from './bench-point.js';
import { pointProblem } from './point.js';
import { SETTLING_RULES, type Settling, SOAK_LEAST_s, settling } from './settling.js';
import { type BenchReading, SPAN_MOST_min } from './settling-window.js';
import { UNIT } from './words.js';

/**
 * Has a probe come to rest at the current point?
 *
 * Readings older than two hours before the last are left away, since no judgement goes back as far: a probe that was
 * left in its jar overnight is judged all the same.
 *
 * @param readings raw, in order of time, °C or %RH; those from before the point do not count
 * @param resolution step in which the probe tells its values, where known
 * @throws SandlarderError CONFLICT where no point has begun; BAD_REQUEST for a probe that is not on the bench and for
 * readings out of order; LIMIT_EXCEEDED above 10,000 readings in two hours; OUT_OF_DOMAIN
 */
export function settlingOf(
  bench: Bench,
  probe: string,
  readings: readonly BenchReading[],
  resolution?: number,
): Settling {
  requireOnBench(bench, [probe]);
  const { source, startedAt } = currentPoint(bench);
  const last = readings.at(-1)?.time ?? startedAt;
  const from = Math.max(startedAt, last - SPAN_MOST_min * MINUTE_ms);
  // Not `time >= from`: a time that is none must reach the judge, who refuses it.
  const counting = readings.filter(({ time }) => !(time < from));
  return settling(counting, SETTLING_RULES[bench.quantity], {
    since: startedAt,
    soakLeast_s: SOAK_LEAST_s[BENCH_SOURCE[source]],
    ...(resolution !== undefined && { resolution }),
  });
}

/** Probes of the bench that have not been captured at its current point. */
export function probesWaiting(bench: Bench): readonly string[] {
  const { captured } = currentPoint(bench);
  return bench.probes.filter((probe) => !captured.some((capture) => capture.probe === probe));
}

/**
 * Captures probes at the current point: all of those named, or none.
 *
 * @param settlings of each probe named, as `settlingOf` gives them for this point
 * @throws SandlarderError CONFLICT where the bench has ended, no point has begun, or a probe cannot be captured, each
 * named with its reason; BAD_REQUEST for no probe, one named twice, and one that is not on the bench
 */
export function capture(
  bench: Bench,
  probes: readonly string[],
  settlings: ReadonlyMap<string, Settling>,
  at: number,
): Bench {
  requireOpenAt(bench, at);
  const point = currentPoint(bench);
  requireOnBench(bench, probes);
  if (!(probes.length >= 1 && new Set(probes).size === probes.length))
    throw new SandlarderError(
      'BAD_REQUEST',
      `capture: expected one probe or more, each once, got ${probes.join(', ') || 'none'}`,
    );
  const outcomes = probes.map((probe) => captured(bench.quantity, point, probe, settlings.get(probe), at));
  const problems = outcomes.filter((outcome) => typeof outcome === 'string');
  if (problems.length > 0)
    throw new SandlarderError('CONFLICT', `point ${point.number}: nothing captured; ${problems.join('; ')}`);
  const captures = outcomes.filter((outcome) => typeof outcome !== 'string');
  const after: BenchPoint = { ...point, captured: [...point.captured, ...captures] };
  return { ...bench, points: [...bench.points.slice(0, -1), after] };
}

/**
 * What a probe's clock may be ahead: readings of the bath before would pass for readings of this one. A twelfth of
 * what the shortest window lasts (judgement).
 */
const AHEAD_MOST_ms = 25_000;

/** A probe that has said nothing for so long may have been taken out: three times the slowest usual cadence (judgement). */
const SILENT_MOST_ms = 30 * MINUTE_ms;

/** The capture, or why there is none. */
function captured(
  quantity: CalibratedQuantity,
  point: BenchPoint,
  probe: string,
  found: Settling | undefined,
  at: number,
): Capture | string {
  if (point.captured.some((earlier) => earlier.probe === probe))
    return `${probe}: already captured, begin a new point`;
  if (found === undefined) return `${probe}: not judged yet`;
  const { settled, window } = found;
  if (!settled || window === undefined) return `${probe}: ${whatKeeps(found, quantity)}`;
  const { from, to, count, mean, scatter, indicatedUncertainty } = window;
  if (!(from >= point.startedAt)) return `${probe}: judged by readings from before this point`;
  if (!(to <= at + AHEAD_MOST_ms))
    return `${probe}: its clock is ${Math.round((to - at) / 1000)} s ahead, set it right first`;
  if (!(at - to <= SILENT_MOST_ms))
    return `${probe}: silent for ${Math.round((at - to) / MINUTE_ms)} min: is it still in the bath?`;
  const taken = { probe, at, from, to, indicated: mean, scatter, count, uncertainty: indicatedUncertainty };
  const problem = pointProblem(calibrationPointOf(point, taken), quantity);
  return problem === undefined ? taken : `${probe}: ${problem}`;
}

/** What keeps a probe from being captured, and for how long. */
function whatKeeps(found: Settling, quantity: CalibratedQuantity): string {
  if (found.window === undefined) return 'too few readings yet';
  const { scatter, slopeBound_perMinute, slopePerMinute } = found.window;
  const { scatterMost, slopeMost_perMinute } = SETTLING_RULES[quantity];
  const amount = (value: number): string => `${Number(value.toPrecision(2))} ${UNIT[quantity]}`;
  const slope = Math.abs(slopePerMinute);
  const wait = found.remaining_s === undefined ? 'for how long is unknown' : minutesMore(found.remaining_s);
  // A steep curve is far from any straight line, and must not pass for noise.
  const isClear = slope > slopeBound_perMinute - slope;
  if (scatter > scatterMost && !isClear) return `still scattering by ${amount(scatter)}, ${wait}`;
  if (slope > slopeMost_perMinute) return `still drifting by ${amount(slope)} a minute, ${wait}`;
  if (slopeBound_perMinute > slopeMost_perMinute)
    return `may still drift by ${amount(slopeBound_perMinute)} a minute, ${wait}`;
  return `quiet, but not long enough in this bath, ${wait}`;
}

/** How a probe stands, in a few words: settled, how long still, or that nobody knows. */
export function waitingWords({ settled, remaining_s, window }: Settling): string {
  if (settled) return 'settled';
  if (remaining_s !== undefined) return minutesMore(remaining_s);
  return window === undefined
    ? 'not yet: too few readings'
    : 'not yet: still moving, for how long is unknown';
}

/** Whole minutes, rounded up: a technician who comes back too early waits twice. */
const minutesMore = (time_s: number): string => `about ${Math.max(1, Math.ceil(time_s / 60))} min more`;
