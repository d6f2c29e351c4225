/**
 * How much each point counts, and what all of them share.
 *
 * What is assumed:
 * - Points beside one reference instrument share its error. Averaging does not lessen it, and it shifts the correction
 *   as a whole: the fit has its uncertainty from the scatter, and the common part comes on top [JCGM 100 5.2.2 note 1,
 *   F.1.2.3].
 * - Fixed points are independent of each other: ice, steam and each salt err by themselves. Each counts by its own
 *   uncertainty. Several points of one fixed point share its error: together they count as one.
 * - A weighted fit takes the reference uncertainty of instrument points as independent from one to the next, which
 *   makes the fitted line look surer than it is; so that where there are two of them or more the common part comes on
 *   top once again, to the safe side.
 */
import { rootMeanSquare } from 'simple-statistics';
import { requireInDomain } from '../errors.js';
import type { CalibrationPoint, PointSource, Weighting } from '../model/calibration.js';
import { scatterOfMean } from './point.js';

/** Points from which their scatter tells enough of itself (judgement): 3 degrees of freedom are left to a gain. */
const FEWEST_THAT_SCATTER = 5;

/** References of one source that are no further apart belong to one fixed point, °C or %RH (judgement). */
const SAME_FIXED_POINT = 1;

/** Points beside instruments, as against fixed points. */
const BESIDE_INSTRUMENT: readonly PointSource[] = ['instrument', 'file'];

const isBesideInstrument = ({ source }: CalibrationPoint): boolean => BESIDE_INSTRUMENT.includes(source);

/** Ordinary for five points or more that are all beside instruments; weighted else. */
export const usualWeighting = (points: readonly CalibrationPoint[]): Weighting =>
  points.length >= FEWEST_THAT_SCATTER && points.every(isBesideInstrument) ? 'ordinary' : 'weighted';

/**
 * Standard uncertainty of each point's correction: its reference and the scatter of its mean. The reference of k
 * points at one fixed point counts k times in variance, so that their mean has it once.
 */
export function pointUncertainties(points: readonly CalibrationPoint[]): number[] {
  const fixed = points.filter((point) => !isBesideInstrument(point));
  return points.map((point) => {
    const alike = isBesideInstrument(point)
      ? 1
      : fixed.filter((other) => isSameFixedPoint(point, other)).length;
    return Math.hypot(point.referenceUncertainty * Math.sqrt(alike), scatterOfMean(point));
  });
}

const isSameFixedPoint = (one: CalibrationPoint, other: CalibrationPoint): boolean =>
  one.source === other.source && Math.abs(one.reference - other.reference) <= SAME_FIXED_POINT;

/**
 * Standard uncertainty that all references share.
 *
 * @param given where it is known, for example from the certificate of the reference; 0 or above
 * @returns as given; else the root mean square of the reference uncertainties, of all points in an ordinary fit, in a
 * weighted one of those beside instruments where they are two or more, else 0
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function commonUncertaintyOf(
  points: readonly CalibrationPoint[],
  weighting: Weighting,
  given: number | undefined,
): number {
  if (given !== undefined) {
    requireInDomain('common uncertainty', given, 0, Number.MAX_VALUE);
    return given;
  }
  const sharing = weighting === 'ordinary' ? points : points.filter(isBesideInstrument);
  if (weighting === 'weighted' && sharing.length < 2) return 0;
  return rootMeanSquare(sharing.map(({ referenceUncertainty }) => referenceUncertainty));
}

/**
 * Standard deviation of a single reading, pooled over the points that noted one and how many readings it is of
 * [JCGM 100 4.2.4]; undefined where none did.
 */
export function pooledScatter(points: readonly CalibrationPoint[]): number | undefined {
  let squares = 0;
  let degreesOfFreedom = 0;
  for (const { indicatedScatter, indicatedCount } of points)
    if (indicatedScatter !== undefined && indicatedCount !== undefined && indicatedCount > 1) {
      squares += (indicatedCount - 1) * indicatedScatter ** 2;
      degreesOfFreedom += indicatedCount - 1;
    }
  return degreesOfFreedom > 0 ? Math.sqrt(squares / degreesOfFreedom) : undefined;
}
