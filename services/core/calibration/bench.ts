/**
 * Bench work from its start to its end, and the calibration points that it gives. Nothing is changed in place: each
 * step returns the bench as it stands after it.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import type { Bench, BenchBody, BenchPoint, Capture } from '../model/bench.js';
import type { CalibrationPoint } from '../model/calibration.js';
import { EARLIEST_TIME_ms, formatTime, LATEST_TIME_ms } from '../model/time.js';
import type { ProbeStep } from './record.js';

/** Bench work that has begun, with no point yet. */
export function openBench(body: BenchBody, id: string, startedAt: number): Bench {
  const beginning = {
    state: 'open',
    endedAt: null,
    reason: null,
    calibrations: [],
    finishedProbes: [],
  } as const;
  return { ...body, id, startedAt, points: [], ...beginning };
}

/**
 * Ends bench work of which nothing comes.
 *
 * @throws SandlarderError CONFLICT where it has ended already or the time lies before what was done last;
 * OUT_OF_DOMAIN for a time that is none
 */
export function giveUp(bench: Bench, reason: string, at: number): Bench {
  requireOpenAt(bench, at);
  return { ...bench, state: 'given-up', endedAt: at, reason };
}

/**
 * Takes the current point back, as where its reference was entered wrongly. The point before it takes no more captures,
 * since nobody knows where the probes are by now.
 *
 * @throws SandlarderError CONFLICT where a probe was captured at it, where no point has begun, and on a bench that has
 * ended
 */
export function dropPoint(bench: Bench, at: number): Bench {
  requireOpenAt(bench, at);
  const { number, captured } = currentPoint(bench);
  if (captured.length > 0)
    throw new SandlarderError(
      'CONFLICT',
      `point ${number}: expected one at which nothing was captured, but ${captured.map(({ probe }) => probe).join(', ')} ${captured.length === 1 ? 'was' : 'were'}: leave it out when you finish, with a reason`,
    );
  const before = bench.points.slice(0, -1);
  return {
    ...bench,
    points: before.map((point, index) => (index === before.length - 1 ? { ...point, isOver: true } : point)),
  };
}

/**
 * Calibration points of a probe, in order of time: one for each point at which it was captured; frozen.
 *
 * @throws SandlarderError BAD_REQUEST for a probe that is not on the bench
 */
export function pointsOf(bench: Bench, probe: string): readonly CalibrationPoint[] {
  return Object.freeze(
    capturesOf(bench, probe).map(([point, capture]) => Object.freeze(calibrationPointOf(point, capture))),
  );
}

/**
 * Numbers of the points at which a probe was captured, in the order of `pointsOf`.
 *
 * @throws SandlarderError BAD_REQUEST for a probe that is not on the bench
 */
export function pointNumbersOf(bench: Bench, probe: string): readonly number[] {
  return capturesOf(bench, probe).map(([{ number }]) => number);
}

function capturesOf(bench: Bench, probe: string): [BenchPoint, Capture][] {
  requireOnBench(bench, [probe]);
  return bench.points.flatMap((point) =>
    point.captured
      .filter((capture) => capture.probe === probe)
      .map((capture): [BenchPoint, Capture] => [point, capture]),
  );
}

/** What a capture says of its probe, as a point of its calibration. */
export function calibrationPointOf(point: BenchPoint, capture: Capture): CalibrationPoint {
  return {
    at: capture.to,
    indicated: capture.indicated,
    indicatedScatter: capture.scatter,
    indicatedCount: capture.count,
    reference: point.reference,
    referenceUncertainty: point.referenceUncertainty,
    ...(point.temperature_C !== undefined && { temperature_C: point.temperature_C }),
    source: point.source,
    label: `point ${point.number}: ${point.label}`,
  };
}

/**
 * The point at which probes are captured now: the latest.
 *
 * @throws SandlarderError CONFLICT where none has begun, or the latest was dropped
 */
export function currentPoint(bench: Bench): BenchPoint {
  const point = pointNow(bench);
  if (point === undefined)
    throw new SandlarderError(
      'CONFLICT',
      `bench ${bench.id}: expected a point to have begun, got none ${bench.points.length === 0 ? 'yet' : 'since the last was dropped'}`,
    );
  return point;
}

/** The point at which probes are captured now, where there is one. */
export function pointNow({ points }: Bench): BenchPoint | undefined {
  const point = points.at(-1);
  return point?.isOver ? undefined : point;
}

/**
 * Step in which a probe tells its values, by all its captures: the smallest that its readings show; a usual one where
 * none of them shows any. Absent for a probe whose captures do not say it.
 *
 * @throws SandlarderError BAD_REQUEST for a probe that is not on the bench
 */
export function stepOf(bench: Bench, probe: string): ProbeStep | undefined {
  const steps = capturesOf(bench, probe).flatMap(([, { step, stepFrom }]): ProbeStep[] =>
    step === undefined || stepFrom === undefined ? [] : [{ step, stepFrom }],
  );
  const known = steps.filter(({ stepFrom }) => stepFrom !== 'usual');
  return (known.length > 0 ? known : steps).reduce<ProbeStep | undefined>(
    (least, one) => (least === undefined || one.step < least.step ? one : least),
    undefined,
  );
}

/** Refuses a step on bench work that has ended, and one that is dated before what was done last. */
export function requireOpenAt(bench: Bench, at: number): void {
  if (bench.state !== 'open')
    throw new SandlarderError(
      'CONFLICT',
      `bench ${bench.id}: expected it to be open, but it is ${bench.state === 'finished' ? 'finished' : 'given up'}`,
    );
  requireInDomain('time of bench work, ms,', at, EARLIEST_TIME_ms, LATEST_TIME_ms);
  const last = lastStepAt(bench);
  if (!(at >= last))
    throw new SandlarderError(
      'CONFLICT',
      `bench ${bench.id}: expected a time from ${formatTime(last)} on, got ${formatTime(at)}: is the clock right?`,
    );
}

function lastStepAt({ startedAt, points }: Bench): number {
  const point = points.at(-1);
  const captures = point?.captured.map(({ at }) => at) ?? [];
  return Math.max(startedAt, point?.startedAt ?? startedAt, ...captures);
}

/** Refuses probes that are not on the bench, by name. */
export function requireOnBench(bench: Bench, probes: readonly string[]): void {
  const strangers = probes.filter((probe) => !bench.probes.includes(probe));
  if (strangers.length > 0)
    throw new SandlarderError(
      'BAD_REQUEST',
      `bench ${bench.id}: expected some of its ${bench.probes.length} probes, got ${strangers.join(', ')} besides`,
    );
}
