/**
 * Sizes of grains out of a gradation: D10, D30, D50, D60, the coefficients of shape, fines and gravel.
 *
 * Between two sieves the logarithm of the size is taken linearly with the share that is finer, as on the usual sheet.
 * Beyond the sieves nothing is known but on which side it lies.
 */
import { requireInDomain } from '../errors.js';
import type { Gradation, GradationPoint } from './sand-gradation.js';
import { FINES_BELOW_mm, GRAVEL_FROM_mm } from './sand-sieves.js';

/** `below` the smallest sieve or `above` the largest: `mm` is that sieve's opening, not the size. */
export interface GrainSize {
  readonly is: 'known' | 'below' | 'above';
  readonly mm: number;
}

/** A share by mass that lies between two ends; they are equal where it is known. */
export interface PercentRange {
  readonly low: number;
  readonly high: number;
}

export interface Grains {
  readonly d10: GrainSize;
  readonly d30: GrainSize;
  readonly d50: GrainSize;
  readonly d60: GrainSize;
  /** D60 / D10; undefined where one of them is not known. */
  readonly uniformity: number | undefined;
  /** D30^2 / (D10 D60). */
  readonly curvature: number | undefined;
  /** Finer than 0.075 mm. */
  readonly fines: PercentRange;
  /** Coarser than 4.75 mm. */
  readonly gravel: PercentRange;
}

/**
 * Size that a share of the sand is finer than.
 *
 * @param finer_percent by mass, above 0 and below 100
 * @returns where a range of sizes is missing just there, the lower end of the gap
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function grainSizeAt({ points }: Gradation, finer_percent: number): GrainSize {
  requireInDomain('share that is finer, %,', finer_percent, Number.MIN_VALUE, 100 - 1e-9);
  const coarser = points.findLast((point) => point.finer_percent >= finer_percent);
  if (!coarser) return { is: 'above', mm: largestOf(points).opening_mm };
  if (coarser.finer_percent === finer_percent) return { is: 'known', mm: coarser.opening_mm };
  const finer = points[points.indexOf(coarser) + 1];
  if (!finer) return { is: 'below', mm: coarser.opening_mm };
  const share = (finer_percent - finer.finer_percent) / (coarser.finer_percent - finer.finer_percent);
  return { is: 'known', mm: finer.opening_mm * (coarser.opening_mm / finer.opening_mm) ** share };
}

/**
 * Share that is finer than an opening, by the same line; between what its neighbours allow beyond the sieves.
 *
 * @param opening_mm above 0
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function finerThan({ points }: Gradation, opening_mm: number): PercentRange {
  requireInDomain('opening, mm,', opening_mm, 1e-6, 1e6);
  const coarser = points.findLast((point) => point.opening_mm >= opening_mm);
  if (!coarser) return { low: largestOf(points).finer_percent, high: 100 };
  if (coarser.opening_mm === opening_mm) return exactly(coarser.finer_percent);
  const finer = points[points.indexOf(coarser) + 1];
  if (!finer) return { low: 0, high: coarser.finer_percent };
  const share = Math.log(opening_mm / finer.opening_mm) / Math.log(coarser.opening_mm / finer.opening_mm);
  return exactly(finer.finer_percent + share * (coarser.finer_percent - finer.finer_percent));
}

const exactly = (percent: number): PercentRange => ({ low: percent, high: percent });

/** A gradation has two points or more. */
const largestOf = (points: readonly GradationPoint[]): GradationPoint => points[0] as GradationPoint;

/** All that the classes and the verdict go by. */
export function grainsOf(gradation: Gradation): Grains {
  const [d10, d30, d50, d60] = [10, 30, 50, 60].map((percent) => grainSizeAt(gradation, percent)) as [
    GrainSize,
    GrainSize,
    GrainSize,
    GrainSize,
  ];
  const isKnown = [d10, d30, d60].every(({ is }) => is === 'known');
  const notGravel = finerThan(gradation, GRAVEL_FROM_mm);
  return {
    d10,
    d30,
    d50,
    d60,
    uniformity: d10.is === 'known' && d60.is === 'known' ? d60.mm / d10.mm : undefined,
    curvature: isKnown ? (d30.mm * d30.mm) / (d10.mm * d60.mm) : undefined,
    fines: finerThan(gradation, FINES_BELOW_mm),
    gravel: { low: 100 - notGravel.high, high: 100 - notGravel.low },
  };
}

/** `0.0902 mm`, `below 0.075 mm`. */
export const sizeText = ({ is, mm }: GrainSize): string =>
  is === 'known' ? `${Number(mm.toPrecision(3))} mm` : `${is} ${mm} mm`;
