/** What a residual plot shows: the points with their residuals, the band of the fit, and both told in words. */
import type { Calibration } from '../model/calibration-record.js';
import { COVERAGE_FACTOR } from './budget.js';
import { numberOf, pointOf } from './certificate-words.js';
import { scatterOfMean } from './point.js';
import { polynomialUncertaintyAt } from './polynomial.js';
import { uncertaintyText } from './rounding.js';
import { UNIT } from './words.js';

export interface PlottedPoint {
  readonly number: string;
  readonly indicated: number;
  readonly residual: number;
  /** Of the measured correction, k = 1. */
  readonly uncertainty: number;
  readonly kind: 'used' | 'outlier' | 'left-out';
}

/**
 * All points of a record that its fit speaks of: those used, and those left out.
 *
 * @throws SandlarderError OUT_OF_DOMAIN where the record does not have one of them
 */
export function plottedPoints(record: Calibration): PlottedPoint[] {
  const { fit } = record;
  const plotted = (index: number, residual: number, kind: PlottedPoint['kind']): PlottedPoint => {
    const point = pointOf(record, index);
    const uncertainty = Math.hypot(point.referenceUncertainty, scatterOfMean(point));
    return { number: numberOf(index), indicated: point.indicated, residual, uncertainty, kind };
  };
  const isOutlier = (index: number): boolean => fit.outliers.some((outlier) => outlier.index === index);
  return [
    ...fit.residuals.map(({ index, residual }) =>
      plotted(index, residual, isOutlier(index) ? 'outlier' : 'used'),
    ),
    ...fit.leftOut.map(({ index, residual }) => plotted(index, residual, 'left-out')),
  ];
}

/** Indicated values at which the band is looked at, from end to end. */
const BAND_STEPS = 60;

export interface BandEdge {
  readonly indicated: number;
  /** U of the fitted correction, k = 2. */
  readonly expanded: number;
}

/** The band from the lowest to the highest indicated value; one place where these are the same. */
export function bandOf({ fit }: Calibration): BandEdge[] {
  const [low, high] = fit.range;
  const steps = low === high ? 0 : BAND_STEPS;
  return Array.from({ length: steps + 1 }, (_, step) => {
    const indicated = step === steps ? high : low + ((high - low) * step) / steps;
    return { indicated, expanded: COVERAGE_FACTOR * polynomialUncertaintyAt(fit, indicated) };
  });
}

/** For whoever cannot see the plot. */
export function describe(record: Calibration, points: readonly PlottedPoint[]): string {
  const unit = UNIT[record.quantity];
  const of = (kind: PlottedPoint['kind']): PlottedPoint[] => points.filter((point) => point.kind === kind);
  const told = (kind: PlottedPoint['kind'], word: string): string => {
    const numbers = of(kind).map(({ number }) => number);
    return numbers.length === 0 ? `no point is ${word}` : `${word}: nr ${numbers.join(', ')}`;
  };
  const used = points.filter(({ kind }) => kind !== 'left-out');
  const largest = Math.max(0, ...used.map(({ residual }) => Math.abs(residual)));
  return (
    `Residual in ${unit} of each point over its indicated value, with bars of one standard uncertainty, about a zero ` +
    `line within the expanded uncertainty of the fitted correction. ${used.length} points were used; the largest ` +
    `residual is ${uncertaintyText(largest)} ${unit}; ${told('outlier', 'an outlier')}; ${told('left-out', 'left out')}. ` +
    'The numbers are in the table of the points.'
  );
}
