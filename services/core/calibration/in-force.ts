/** Which calibration of a probe and quantity holds when. */
import type { CalibrationPoint } from '../model/calibration.js';
import type { Calibration } from '../model/calibration-record.js';
import { driftBetween } from './drift.js';

/** A stretch of time with one calibration, or with none. */
export interface InForce {
  /** null before the first. */
  readonly calibration: Calibration | null;
  /** Event times, ms: `from <= time < to`. */
  readonly from: number;
  readonly to: number;
  /** At the calibration after it the probe was found further off than its tolerance. */
  readonly drifted: boolean;
}

/** Records that no other stands in the place of. */
export function standing(records: readonly Calibration[]): Calibration[] {
  const replaced = new Set(records.flatMap(({ supersedes }) => supersedes ?? []));
  return records.filter(({ id }) => !replaced.has(id));
}

/**
 * The stretches of all time, in order.
 *
 * @param records of one probe and quantity, in any order
 */
export function inForceOver(records: readonly Calibration[]): InForce[] {
  const inOrder = standing(records).sort((one, other) => one.from - other.from);
  const stretches = [null, ...inOrder];
  return stretches.map((calibration, index) => {
    const next = stretches[index + 1];
    return {
      calibration,
      from: calibration?.from ?? Number.NEGATIVE_INFINITY,
      to: next?.from ?? Number.POSITIVE_INFINITY,
      drifted: next ? foundOff(next, calibration) : false,
    };
  });
}

/** Points of a record that say something of the probe: one that was left out says that something else went wrong. */
export const pointsCounted = ({
  points,
  fit,
}: Pick<Calibration, 'points' | 'fit'>): readonly CalibrationPoint[] =>
  points.filter((_, index) => !fit.leftOut.some((left) => left.index === index));

/** As it was written down, or anew where by now another record is in force before it than was then. */
function foundOff(record: Calibration, before: Calibration | null): boolean {
  const { asFound, quantity } = record;
  if (record.before === (before?.id ?? null)) return asFound.exceeds;
  return driftBetween(pointsCounted(record), before?.fit, quantity, asFound.tolerance).exceeds;
}

/** The stretch that holds a time. */
export function inForceAt(stretches: readonly InForce[], time: number): InForce | undefined {
  return stretches.findLast(({ from }) => from <= time);
}
