import type { Calibration } from '../api/types/bench.js';

/** A point of a calibration with what the fit leaves over there; °C or %RH. */
export interface Plotted {
  /** From 1. */
  readonly number: number;
  readonly label: string;
  readonly indicated: number;
  readonly reference: number;
  readonly residual: number;
  /** Of the reference, k = 2. */
  readonly expanded: number;
  readonly kind: 'used' | 'outlier' | 'left-out';
  /** Why it was left out; empty else. */
  readonly reason: string;
}

/** Points of a calibration in their order; one for which the fit names no residual is not among them. */
export function plottedOf({ points, fit }: Calibration): readonly Plotted[] {
  return points.flatMap(({ indicated, reference, referenceUncertainty, label = '' }, index) => {
    const out = fit.leftOut.find((one) => one.index === index);
    const found = out ?? fit.residuals.find((one) => one.index === index);
    if (!found) return [];
    const isOutlier = fit.outliers.some((one) => one.index === index);
    return [
      {
        ...{ number: index + 1, label, indicated, reference, residual: found.residual },
        ...{ expanded: 2 * referenceUncertainty, reason: out?.reason ?? '' },
        kind: out ? ('left-out' as const) : isOutlier ? ('outlier' as const) : ('used' as const),
      },
    ];
  });
}
