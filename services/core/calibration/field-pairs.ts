/** Two series of readings brought to the same times. */
import { requireInDomain, SandlarderError } from '../errors.js';

/** A reading with what it is uncertain by as a whole, calibration included; in the unit of the quantity. */
export interface FieldSample {
  /** ms since the epoch; strictly ascending. */
  readonly time: number;
  readonly value: number;
  /** k = 1, above 0. */
  readonly standardUncertainty: number;
}

export interface FieldPair {
  readonly time: number;
  /** Probe less reference. */
  readonly difference: number;
  readonly probeUncertainty: number;
  readonly referenceUncertainty: number;
}

const SAMPLES_MOST = 50_000;

/** Refuses a series that is out of order, too long, or has a value that cannot be. */
export function requireSeries(name: string, series: readonly FieldSample[]): void {
  if (!(series.length <= SAMPLES_MOST))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `${name}: expected at most ${SAMPLES_MOST} readings, got ${series.length}`,
    );
  let before = Number.NEGATIVE_INFINITY;
  for (const { time, value, standardUncertainty } of series) {
    requireInDomain(`${name}: time, ms,`, time, 0, Number.MAX_SAFE_INTEGER);
    requireInDomain(`${name}: value`, value, -1000, 1000);
    requireInDomain(`${name}: standard uncertainty`, standardUncertainty, Number.MIN_VALUE, 50);
    if (!(time > before))
      throw new SandlarderError(
        'BAD_REQUEST',
        `${name}: expected each reading later than the one before, got ${time} after ${before}`,
      );
    before = time;
  }
}

/**
 * The probe's readings that the reference has readings on both sides of, or at the same instant; the reference is
 * taken linearly between them, and the larger of their uncertainties with it, since both share one calibration.
 *
 * @param gapMost_ms the most that the two readings of the reference may be apart
 */
export function pairsOf(
  probe: readonly FieldSample[],
  reference: readonly FieldSample[],
  gapMost_ms: number,
): FieldPair[] {
  const pairs: FieldPair[] = [];
  let next = 0;
  for (const { time, value, standardUncertainty } of probe) {
    while (next < reference.length && (reference[next] as FieldSample).time < time) next += 1;
    const after = reference[next];
    const before = after?.time === time ? after : reference[next - 1];
    if (before === undefined || after === undefined || after.time - before.time > gapMost_ms) continue;
    const share = after === before ? 0 : (time - before.time) / (after.time - before.time);
    pairs.push({
      time,
      difference: value - (before.value + share * (after.value - before.value)),
      probeUncertainty: standardUncertainty,
      referenceUncertainty: Math.max(before.standardUncertainty, after.standardUncertainty),
    });
  }
  return pairs;
}
