/** Made-up calibration points. */
import { type FitOptions, fitCalibration } from '../../../services/core/calibration/index.js';
import type { CalibrationPoint } from '../../../services/core/model/calibration.js';

/** A point beside an instrument; frozen. */
export const beside = (
  indicated: number,
  reference: number,
  more: Partial<CalibrationPoint> = {},
): CalibrationPoint =>
  Object.freeze({ indicated, reference, referenceUncertainty: 0.05, source: 'instrument', ...more });

/** One point at each indicated value; `noise` is passed through in turn, so that nothing is left to chance. */
export const along = (
  indicated: readonly number[],
  correction: (indicated: number) => number,
  noise: readonly number[] = [0],
): readonly CalibrationPoint[] =>
  Object.freeze(
    indicated.map((value, at) => beside(value, value + correction(value) + (noise[at % noise.length] ?? 0))),
  );

/** Scatter of a sound bench, °C: it adds up to nothing, and has neither slope nor bend over six points. */
export const QUIET = [0.01, -0.02, 0.01, 0.01, -0.02, 0.01] as const;

/** What a fit is refused with. */
export function messageOf(points: readonly CalibrationPoint[], options: FitOptions): string {
  try {
    fitCalibration(points, options);
  } catch (error) {
    return (error as Error).message;
  }
  return 'no error';
}
