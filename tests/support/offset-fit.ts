import type { CalibratedQuantity, CalibrationFit } from '../../services/core/model/calibration.js';

/** A calibration that adds the same everywhere, by three points of standard uncertainty 0.05. */
export function offsetFit(quantity: CalibratedQuantity, offset: number): CalibrationFit {
  return {
    quantity,
    form: 'offset',
    reason: 'made for a test',
    centre: 20,
    coefficients: [offset],
    covariance: [[0.0009]],
    weighting: 'weighted',
    degreesOfFreedom: 2,
    commonUncertainty: 0,
    range: quantity === 'temperature' ? [0, 40] : [30, 98],
    residuals: [],
    outliers: [],
    leftOut: [],
  };
}
