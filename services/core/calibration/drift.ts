/**
 * How a probe has gone astray since its last calibration: its error as it was found, and the change of its correction.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import type { CalibratedQuantity, CalibrationFit, CalibrationPoint } from '../model/calibration.js';
import { COVERAGE_FACTOR } from './budget.js';
import { correctionAt } from './correction.js';
import { requirePoints, scatterOfMean } from './point.js';
import { polynomialAt, polynomialUncertaintyAt } from './polynomial.js';

export interface AsFoundError {
  /** Of the points given, from 0. */
  readonly index: number;
  /** Corrected value less reference, °C or %RH. */
  readonly error: number;
  readonly standardUncertainty: number;
  /** The point lies beyond the range of the calibration in force. */
  readonly outsideRange: boolean;
}

export interface AsFound {
  readonly points: readonly AsFoundError[];
  /** The error of the greatest size. */
  readonly largest: AsFoundError;
  readonly tolerance: number;
  /** The largest error is above the tolerance. */
  readonly exceeds: boolean;
  /** Its distance from the tolerance is above its expanded uncertainty (k = 2): measuring again would say the same. */
  readonly certain: boolean;
}

/**
 * Error of the probe as it was found, by the calibration in force until then.
 *
 * @param previous undefined for a probe that had none: its raw values are judged
 * @param tolerance greatest error that is taken, above 0, °C or %RH
 * @throws SandlarderError TOO_FEW_SAMPLES, OUT_OF_DOMAIN
 * @remarks Where the reference is the same as then, its part cancels out; that is not counted on. The point's own
 * scatter, where it was noted, stands for the repeatability on record.
 */
export function driftBetween(
  asFound: readonly CalibrationPoint[],
  previous: CalibrationFit | undefined,
  quantity: CalibratedQuantity,
  tolerance: number,
): AsFound {
  requireInDomain('tolerance', tolerance, Number.MIN_VALUE, Number.MAX_VALUE);
  requirePoints(asFound, quantity);
  if (previous !== undefined) requireQuantity(previous, quantity);
  const points = asFound.map((point, index) => ({ index, ...errorOf(point, previous) }));
  const largest = points.reduce((most, next) => (Math.abs(next.error) > Math.abs(most.error) ? next : most));
  const beyond = Math.abs(largest.error) - tolerance;
  return {
    points,
    largest,
    tolerance,
    exceeds: beyond > 0,
    certain: Math.abs(beyond) > COVERAGE_FACTOR * largest.standardUncertainty,
  };
}

function errorOf(point: CalibrationPoint, previous: CalibrationFit | undefined): Omit<AsFoundError, 'index'> {
  const { indicated, indicatedCount, indicatedScatter, reference, referenceUncertainty } = point;
  const uncertainty = Math.hypot(referenceUncertainty, scatterOfMean(point));
  if (previous === undefined)
    return { error: indicated - reference, standardUncertainty: uncertainty, outsideRange: false };
  const { corrected, components, outsideRange } = correctionAt(previous, indicated, indicatedCount);
  const counted = components.filter(({ name }) => name !== 'repeatability' || indicatedScatter === undefined);
  return {
    error: corrected - reference,
    standardUncertainty: Math.hypot(uncertainty, ...counted.map((one) => one.standardUncertainty)),
    outsideRange,
  };
}

export interface CorrectionChange {
  /** Indicated values that both calibrations cover. */
  readonly range: readonly [number, number];
  /** Where within it the correction has changed most, by how much (after less before), and how sure that is. */
  readonly indicated: number;
  readonly change: number;
  readonly standardUncertainty: number;
}

/**
 * Greatest change of the correction from one calibration to the next, over the range that both cover.
 *
 * @throws SandlarderError OUT_OF_DOMAIN where they are of two quantities or have no indicated value in common
 */
export function correctionChange(before: CalibrationFit, after: CalibrationFit): CorrectionChange {
  requireQuantity(before, after.quantity);
  const low = Math.max(before.range[0], after.range[0]);
  const high = Math.min(before.range[1], after.range[1]);
  if (!(low <= high))
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `calibrations: expected ranges with a value in common, got [${before.range.join(', ')}] and [${after.range.join(', ')}]`,
    );
  const changeAt = (x: number): number => polynomialAt(after, x) - polynomialAt(before, x);
  const indicated = turningPoints(before, after)
    .filter((x) => x > low && x < high)
    .concat(low, high)
    .reduce((most, x) => (Math.abs(changeAt(x)) > Math.abs(changeAt(most)) ? x : most), low);
  const uncertainties = [before, after].flatMap((fit) => [
    polynomialUncertaintyAt(fit, indicated),
    fit.commonUncertainty,
  ]);
  return {
    range: [low, high],
    indicated,
    change: changeAt(indicated),
    standardUncertainty: Math.hypot(...uncertainties),
  };
}

/** Where the difference of the two curves is level: none where it is straight. */
function turningPoints(before: CalibrationFit, after: CalibrationFit): number[] {
  const bend = ({ coefficients }: CalibrationFit): number => coefficients[2] ?? 0;
  const slopeAt0 = (fit: CalibrationFit): number => (fit.coefficients[1] ?? 0) - 2 * bend(fit) * fit.centre;
  const bends = bend(after) - bend(before);
  return bends === 0 ? [] : [(slopeAt0(before) - slopeAt0(after)) / (2 * bends)];
}

function requireQuantity(fit: CalibrationFit, quantity: CalibratedQuantity): void {
  if (fit.quantity !== quantity)
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `calibration in force: expected one of ${quantity}, got one of ${fit.quantity}`,
    );
}
