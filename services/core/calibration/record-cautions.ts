/** What is to be said of a calibration beside its numbers. */
import type { Calibration } from '../model/calibration-record.js';
import { pointsCounted } from './in-force.js';
import { amount } from './words.js';

/** Tolerances beyond which a single point is doubted: a probe is seldom that far off, a reference often mistaken. Judgement. */
const TOLERANCES_MOST = 4;

/** Sentences; none for a calibration that rests on what it should. */
export function recordCautions(
  record: Pick<Calibration, 'points' | 'fit' | 'asFound' | 'quantity'>,
): string[] {
  const { fit, asFound, quantity } = record;
  const [offset = 0] = fit.coefficients;
  const most = TOLERANCES_MOST * asFound.tolerance;
  if (pointsCounted(record).length > 1 || Math.abs(offset) <= most) return [];
  return [
    `one point only: it moves every value by ${amount(offset, quantity)}, more than ${TOLERANCES_MOST} times the tolerance of ${amount(asFound.tolerance, quantity)}; was the reference entered rightly? A second point would tell.`,
  ];
}
