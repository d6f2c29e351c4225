/**
 * What a probe of a bench shows at its current point, once it has come to rest there.
 */
import type { Bench, BenchPoint, Capture } from '../model/bench.js';
import type { CalibratedQuantity } from '../model/calibration.js';
import { MINUTE_ms } from '../model/time.js';
import { calibrationPointOf, currentPoint, requireOnBench } from './bench.js';
import { BENCH_SOURCE } from './bench-point.js';
import { pointProblem } from './point.js';
import { SETTLING_RULES, type Settling, SOAK_LEAST_s, settling } from './settling.js';
import { type BenchReading, SPAN_MOST_min } from './settling-window.js';
import { minutesMore, notBefore, waitingWords } from './waiting-words.js';
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
  const found = settling(counting, SETTLING_RULES[bench.quantity], {
    since: startedAt,
    soakLeast_s: SOAK_LEAST_s[BENCH_SOURCE[source]],
    ...(resolution !== undefined && { resolution }),
  });
  if (found.shown === undefined) return found;
  const count = readings.filter(({ time }) => time >= startedAt).length;
  return { ...found, shown: { ...found.shown, count } };
}

/**
 * What a probe's clock may be ahead: readings of the bath before would pass for readings of this one. A twelfth of
 * what the shortest window lasts (judgement).
 */
const AHEAD_MOST_ms = 25_000;

/** A probe that has said nothing for so long may have been taken out: three times the slowest usual cadence (judgement). */
const SILENT_MOST_ms = 30 * MINUTE_ms;

/** The capture, or why there is none. */
export function captureOf(
  quantity: CalibratedQuantity,
  point: BenchPoint,
  probe: string,
  found: Settling | undefined,
  at: number,
): Capture | string {
  if (point.captured.some((earlier) => earlier.probe === probe)) return 'already captured, begin a new point';
  if (found === undefined) return 'not judged yet';
  const { settled, window } = found;
  if (!settled || window === undefined) return whatKeeps(found, quantity);
  const { from, to, count, mean, scatter, step, stepFrom, indicatedUncertainty } = window;
  if (!(from >= point.startedAt)) return 'judged by readings from before this point';
  if (!(to <= at + AHEAD_MOST_ms))
    return `its clock is ${Math.round((to - at) / 1000)} s ahead, set it right first`;
  if (!(at - to <= SILENT_MOST_ms))
    return `silent for ${Math.round((at - to) / MINUTE_ms)} min: is it still in the bath?`;
  const capture: Capture = {
    ...{ probe, at, from, to, indicated: mean, scatter, count, uncertainty: indicatedUncertainty },
    ...{ step, stepFrom },
  };
  return pointProblem(calibrationPointOf(point, capture), quantity) ?? capture;
}

/** What keeps a probe from being captured, and for how long. */
function whatKeeps(found: Settling, quantity: CalibratedQuantity): string {
  if (found.window === undefined)
    return `too few readings yet${found.earliest ? `, ${notBefore(found.earliest)}` : ''}`;
  if (found.stillness !== undefined) return waitingWords(found, UNIT[quantity]);
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
