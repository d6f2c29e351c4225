/**
 * Points of a calibration before anything is fitted to them: whole and believable.
 */
import { SandlarderError } from '../errors.js';
import {
  type CalibratedQuantity,
  type CalibrationPoint,
  calibrationPointSchema,
} from '../model/calibration.js';
import { describeIssue } from '../model/problem.js';
import { STORABLE } from '../model/quantity.js';
import { amount, UNIT } from './words.js';

/**
 * Greatest size of reference less indicated, °C and %RH (judgement): a probe that is further off is broken, or the two
 * are in different units (20 °C is 293 K, 75 %RH is 0.75).
 */
export const GREATEST_CORRECTION: Readonly<Record<CalibratedQuantity, number>> = {
  temperature: 30,
  humidity: 50,
};

type Range = readonly [number, number];

/**
 * Where a probe is calibrated. Temperature: what the sensors of cheap probes span, -55 to 125 °C and somewhat more
 * (data sheets); 20 read as kelvin is far below. Humidity: air cannot hold more than 100, but a probe may say so.
 */
const INDICATED: Readonly<Record<CalibratedQuantity, Range>> = {
  temperature: [-60, 160],
  humidity: STORABLE.humidity,
};
const REFERENCE: Readonly<Record<CalibratedQuantity, Range>> = {
  temperature: [-60, 160],
  humidity: [0, 100],
};

/**
 * What is wrong with a point, if anything, as a clause that says what was expected.
 *
 * @param quantity which unit the numbers are in
 */
export function pointProblem(point: CalibrationPoint, quantity: CalibratedQuantity): string | undefined {
  const parsed = calibrationPointSchema.safeParse(point, { reportInput: true });
  if (!parsed.success) return parsed.error.issues.map(describeIssue)[0];
  const { indicated, reference } = parsed.data;
  return (
    distanceProblem(reference - indicated, quantity) ??
    rangeProblem('indicated', indicated, INDICATED[quantity], quantity) ??
    rangeProblem('reference', reference, REFERENCE[quantity], quantity)
  );
}

function rangeProblem(
  name: string,
  value: number,
  [low, high]: Range,
  quantity: CalibratedQuantity,
): string | undefined {
  if (value >= low && value <= high) return undefined;
  return `${name}: expected ${low} to ${high} ${UNIT[quantity]}, got ${value}`;
}

function distanceProblem(correction: number, quantity: CalibratedQuantity): string | undefined {
  const most = GREATEST_CORRECTION[quantity];
  if (Math.abs(correction) <= most) return undefined;
  return `reference and indicated: expected at most ${amount(most, quantity)} apart and in the same unit, got ${amount(Math.abs(correction), quantity)}`;
}

/**
 * Refuses points that cannot be fitted; the first that is wrong is named by its index, from 0.
 *
 * @throws SandlarderError TOO_FEW_SAMPLES where there are none; OUT_OF_DOMAIN
 */
export function requirePoints(points: readonly CalibrationPoint[], quantity: CalibratedQuantity): void {
  if (!(points.length >= 1))
    throw new SandlarderError('TOO_FEW_SAMPLES', 'calibration: expected at least one point, got none');
  points.forEach((point, index) => {
    const problem = pointProblem(point, quantity);
    if (problem !== undefined) throw new SandlarderError('OUT_OF_DOMAIN', `point ${index}: ${problem}`);
  });
}

/** Correction that a point asks for: reference less indicated [JCGM 100 H.3.1]. */
export const correctionOf = ({ reference, indicated }: CalibrationPoint): number => reference - indicated;

/** Standard uncertainty of `indicated` from its scatter, s/sqrt(n) [JCGM 100 4.2.3]; 0 where no scatter was noted. */
export const scatterOfMean = ({ indicatedScatter, indicatedCount }: CalibrationPoint): number =>
  (indicatedScatter ?? 0) / Math.sqrt(indicatedCount ?? 1);
