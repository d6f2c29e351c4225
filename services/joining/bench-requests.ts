/** From bench work to what is to be fitted: which probes, and of each its points. */
import {
  type CalibrationRequest,
  pointNumbersOf,
  pointsOf,
  probesUnfinished,
  requireUnfinished,
  stepOf,
} from '../core/calibration/index.js';
import { SandlarderError } from '../core/errors.js';
import type { Bench, FinishBody } from '../core/model/bench.js';

/**
 * Probes that a request is about: those that it names; else all that are not finished yet, a probe without any capture
 * with them so that it is refused by name. Where the bench is closed, only those that were captured.
 *
 * @throws SandlarderError BAD_REQUEST for one that is not on the bench; CONFLICT for one that is finished already
 */
export function probesAsked(
  bench: Bench,
  { probes, fit, supersedes = [], close }: FinishBody,
): readonly string[] {
  const named = [...(probes ?? []), ...[...(fit.leaveOut ?? []), ...supersedes].map(({ probe }) => probe)];
  const strangers = named.filter((probe) => !bench.probes.includes(probe));
  if (strangers.length > 0)
    throw new SandlarderError(
      'BAD_REQUEST',
      `probes: expected some of ${bench.probes.join(', ')}, got ${strangers.join(', ')}`,
    );
  requireUnfinished(bench, [...new Set(named)]);
  const asked =
    probes ?? probesUnfinished(bench).filter((probe) => !close || pointsOf(bench, probe).length > 0);
  const beside = supersedes.filter(({ probe }) => !asked.includes(probe));
  if (beside.length > 0)
    throw new SandlarderError(
      'BAD_REQUEST',
      `supersedes: expected probes that are to be finished now, ${asked.join(', ')}, got ${beside.map(({ probe }) => probe).join(', ')}`,
    );
  return asked;
}

/** What is to be fitted of a probe, with the step that its readings showed. */
export function requestOf(
  bench: Bench,
  probe: string,
  { from, fit, supersedes = [] }: FinishBody,
): CalibrationRequest {
  const points = pointsOf(bench, probe);
  const numbers = pointNumbersOf(bench, probe);
  const { leaveOut = [], ...rest } = fit;
  const doneAt = Math.max(bench.startedAt, ...points.flatMap(({ at }) => at ?? []));
  const { site, quantity, by, reference, conditions, id } = bench;
  return {
    ...{ site, probe, quantity, by, reference, conditions, points, doneAt, from: from ?? doneAt, bench: id },
    step: stepOf(bench, probe),
    supersedes: supersedes.find((one) => one.probe === probe)?.calibration,
    fit: {
      ...rest,
      leaveOut: leaveOut
        .filter((one) => one.probe === probe)
        .map(({ point, reason }) => ({ index: indexOf(numbers, probe, point), reason })),
    },
  };
}

function indexOf(numbers: readonly number[], probe: string, point: number): number {
  const index = numbers.indexOf(point);
  if (index >= 0) return index;
  throw new SandlarderError(
    'BAD_REQUEST',
    `leaveOut: expected a point at which probe ${probe} was captured, one of ${numbers.join(', ') || 'none'}, got ${point}`,
  );
}

/** What is wrong with one of thirty, with its name and how to go on without it. */
export function namedRefusal(
  bench: Bench,
  probe: string,
  { code, message }: SandlarderError,
): SandlarderError {
  const orClose =
    pointsOf(bench, probe).length === 0 ? ', or "close" the bench (--close) to end it without it' : '';
  return new SandlarderError(
    code,
    `probe ${probe}: ${message}; name the others in "probes" (--only) to go on without it${orClose}`,
  );
}
