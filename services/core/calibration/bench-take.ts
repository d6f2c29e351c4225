/** Captures on a bench: all of the probes that are named or none, or those of all that have come to rest. */
import { SandlarderError } from '../errors.js';
import type { Bench, BenchPoint, Capture } from '../model/bench.js';
import { currentPoint, requireOpenAt } from './bench.js';
import { captureOf } from './bench-capture.js';
import { probesUnfinished, requireUnfinished } from './bench-finish.js';
import type { Settling } from './settling.js';

/** A probe that was not captured, and why. */
export interface Waiting {
  readonly probe: string;
  readonly reason: string;
}

interface Taken {
  readonly bench: Bench;
  readonly waiting: readonly Waiting[];
}

/** Probes of the bench that are not finished and have not been captured at its current point. */
export function probesWaiting(bench: Bench): readonly string[] {
  const { captured } = currentPoint(bench);
  return probesUnfinished(bench).filter((probe) => !captured.some((capture) => capture.probe === probe));
}

/**
 * Captures probes at the current point: all of those named, or none.
 *
 * @param settlings of each probe named, as `settlingOf` gives them for this point
 * @throws SandlarderError CONFLICT where the bench has ended, no point has begun, a probe is finished or cannot be
 * captured, each named with its reason; BAD_REQUEST for no probe, one named twice, and one that is not on the bench
 */
export function capture(
  bench: Bench,
  probes: readonly string[],
  settlings: ReadonlyMap<string, Settling>,
  at: number,
): Bench {
  requireOpenAt(bench, at);
  currentPoint(bench);
  requireUnfinished(bench, probes);
  if (!(probes.length >= 1 && new Set(probes).size === probes.length))
    throw new SandlarderError(
      'BAD_REQUEST',
      `capture: expected one probe or more, each once, got ${probes.join(', ') || 'none'}`,
    );
  const { bench: after, waiting } = taken(bench, probes, settlings, at);
  if (waiting.length > 0) throw nothingCaptured(bench, waiting);
  return after;
}

/**
 * Captures those of the probes that wait at the current point which have come to rest, and names the others.
 *
 * @param settlings of each probe that waits
 * @throws SandlarderError CONFLICT where none waits or none can be captured, each named with its reason; and as `capture`
 */
export function captureSettled(bench: Bench, settlings: ReadonlyMap<string, Settling>, at: number): Taken {
  requireOpenAt(bench, at);
  const probes = probesWaiting(bench);
  if (probes.length === 0)
    throw new SandlarderError(
      'CONFLICT',
      `point ${currentPoint(bench).number}: expected a probe that waits, but all are captured: begin the next point`,
    );
  const outcome = taken(bench, probes, settlings, at);
  if (outcome.waiting.length === probes.length) throw nothingCaptured(bench, outcome.waiting);
  return outcome;
}

function nothingCaptured(bench: Bench, waiting: readonly Waiting[]): SandlarderError {
  const told = waiting.map(({ probe, reason }) => `${probe}: ${reason}`).join('; ');
  return new SandlarderError('CONFLICT', `point ${currentPoint(bench).number}: nothing captured; ${told}`);
}

function taken(
  bench: Bench,
  probes: readonly string[],
  settlings: ReadonlyMap<string, Settling>,
  at: number,
): Taken {
  const point = currentPoint(bench);
  const captures: Capture[] = [];
  const waiting: Waiting[] = [];
  for (const probe of probes) {
    const outcome = captureOf(bench.quantity, point, probe, settlings.get(probe), at);
    if (typeof outcome === 'string') waiting.push({ probe, reason: outcome });
    else captures.push(outcome);
  }
  const after: BenchPoint = { ...point, captured: [...point.captured, ...captures] };
  return { bench: { ...bench, points: [...bench.points.slice(0, -1), after] }, waiting };
}
