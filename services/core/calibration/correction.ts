/** A reading corrected by the calibration in force, with what is known of its error. */
import { requireInDomain } from '../errors.js';
import type { CalibrationFit } from '../model/calibration.js';
import { STORABLE } from '../model/quantity.js';
import { budgetAt, type UncertaintyComponent } from './budget.js';
import { polynomialAt } from './polynomial.js';
import { UNIT } from './words.js';

export interface Correction {
  /** Indicated plus correction, °C or %RH; of humidity it may lie above 100, and that is not cut off. */
  readonly corrected: number;
  readonly correction: number;
  readonly standardUncertainty: number;
  /** k = 2. */
  readonly expandedUncertainty: number;
  readonly effectiveDegreesOfFreedom?: number;
  readonly components: readonly UncertaintyComponent[];
  /**
   * The value lies beyond the points that the correction rests on. Its uncertainty then grows as the form lets it, and
   * does not hold what the form itself may miss out there.
   */
  readonly outsideRange: boolean;
}

/**
 * Corrects one value.
 *
 * @param indicated °C or %RH, as the fit's quantity, within what can be stored
 * @param readings that the value is the mean of
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function correctionAt(fit: CalibrationFit, indicated: number, readings = 1): Correction {
  const [least, most] = STORABLE[fit.quantity];
  requireInDomain(`indicated ${fit.quantity}, ${UNIT[fit.quantity]},`, indicated, least, most);
  const correction = polynomialAt(fit, indicated);
  const [low, high] = fit.range;
  return {
    corrected: indicated + correction,
    correction,
    ...budgetAt(fit, indicated, readings),
    outsideRange: !(indicated >= low && indicated <= high),
  };
}
