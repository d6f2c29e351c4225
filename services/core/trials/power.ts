/**
 * How many beds a trial needs. Noncentral t for two treatments, noncentral F for more, with the two that differ most
 * `difference` apart and all others midway: no other arrangement with that difference is harder to see (J. Cohen, Statistical
 * Power Analysis for the Behavioral Sciences, 2nd ed. 1988, ch. 8, pattern of minimum variability, from memory).
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import type { AssignedBy } from './assign.js';
import { fisherPower, studentPower } from './distributions.js';

export interface PowerQuestion {
  readonly by: AssignedBy;
  readonly treatments: number;
  /** Worth having, in the unit of the outcome, above 0. */
  readonly difference: number;
  /** Between beds of one treatment, of one block where there are blocks; in the same unit. */
  readonly sd: number;
  /** Chance of crying wolf that is put up with. */
  readonly alpha: number;
}

const MOST_BEDS = 10_000;
const MOST_TREATMENTS = 20;

function requireQuestion({ treatments, difference, sd, alpha }: PowerQuestion): void {
  requireInDomain('treatments', treatments, 2, MOST_TREATMENTS);
  requireInDomain('difference worth having', difference, Number.MIN_VALUE, Number.MAX_VALUE);
  requireInDomain('standard deviation between beds', sd, Number.MIN_VALUE, Number.MAX_VALUE);
  requireInDomain('alpha', alpha, 1e-6, 0.5);
}

/**
 * The chance to find the difference where it is there.
 *
 * @param beds of each treatment, 2 or more; with blocks as many blocks
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function powerOf(question: PowerQuestion, beds: number): number {
  requireQuestion(question);
  requireInDomain('beds of each treatment', beds, 2, MOST_BEDS);
  const { by, treatments, difference, sd, alpha } = question;
  const within = by === 'blocks' ? (treatments - 1) * (beds - 1) : treatments * (beds - 1);
  const size = difference / sd;
  return treatments === 2
    ? studentPower(alpha, within, size * Math.sqrt(beds / 2))
    : fisherPower(alpha, treatments - 1, within, (beds * size ** 2) / 2);
}

/**
 * The fewest beds of each treatment that find the difference with so much chance.
 *
 * @param wanted 0.5 to 0.999
 * @throws SandlarderError OUT_OF_DOMAIN, and LIMIT_EXCEEDED where 10,000 are not enough
 */
export function bedsNeeded(question: PowerQuestion, wanted: number): number {
  requireInDomain('power', wanted, 0.5, 0.999);
  if (!(powerOf(question, MOST_BEDS) >= wanted))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `beds of each treatment: expected at most ${MOST_BEDS} for a power of ${wanted}, got more: the difference is too small beside the scatter`,
    );
  let [low, high] = [1, MOST_BEDS];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (powerOf(question, Math.max(2, middle)) >= wanted) high = middle;
    else low = middle;
  }
  return Math.max(2, high);
}

export interface TrialSize {
  readonly bedsOfEach: number;
  readonly bedsInAll: number;
  /** Chance to find the difference where it is there. */
  readonly power: number;
}

/** Of the chance that is wanted where no beds are named. */
export const USUAL_POWER = 0.8;

/**
 * The size of a trial: that which finds the difference with so much chance, or that of so many beds of each treatment.
 *
 * @throws SandlarderError as `powerOf` and `bedsNeeded`
 */
export function trialSize(
  question: PowerQuestion,
  { beds, power = USUAL_POWER }: { readonly beds?: number | undefined; readonly power?: number | undefined },
): TrialSize {
  const bedsOfEach = beds ?? bedsNeeded(question, power);
  return {
    ...{ bedsOfEach, bedsInAll: bedsOfEach * question.treatments },
    power: powerOf(question, bedsOfEach),
  };
}
