/** Limits that a bed is found ready by, beside those of its sand and the thresholds that it is watched by. */
import { keepingOverrides } from '../model/keeping-threshold.js';
import { READINESS_LIMITS, READINESS_ORDERED } from '../model/readiness-thresholds.js';
import {
  THRESHOLDS,
  type ThresholdName,
  type ThresholdOverrides,
  type Thresholds,
  thresholdsInForce,
} from '../model/threshold.js';
import {
  type CitedLimit,
  cite,
  limitsOf,
  requireOrdered,
  SAND_LIMITS,
  type SandLimits,
  sandLimits,
} from './sand-limits.js';

export type ReadinessLimitName = keyof typeof READINESS_LIMITS;
export type ReadinessLimits = Readonly<Record<ReadinessLimitName, number>>;

/** All limits that readiness goes by, in force for a bed. */
export interface LimitsInForce {
  readonly watch: Thresholds;
  readonly sand: SandLimits;
  readonly own: ReadinessLimits;
}

/**
 * @param watch thresholds in force for the bed
 * @throws SandlarderError OUT_OF_DOMAIN for a limit outside its range, or two that contradict each other
 */
export function readinessLimits(
  watch: Thresholds,
  own: Readonly<Partial<ReadinessLimits>> = {},
  sand: SandLimits = sandLimits(),
): LimitsInForce {
  const limits = requireOrdered(limitsOf(READINESS_LIMITS, own), READINESS_ORDERED);
  return Object.freeze({ watch, sand, own: limits });
}

/** All limits in force for a bed: what the site sets, then what the bed sets. */
export function limitsOfBed(...set: readonly (ThresholdOverrides | undefined)[]): LimitsInForce {
  const keeping = keepingOverrides(...set);
  return readinessLimits(thresholdsInForce(...set), keeping, sandLimits(keeping));
}

/** A limit of readiness in force, with where it comes from. */
export const ownLimit = (name: ReadinessLimitName, { own }: LimitsInForce): CitedLimit =>
  cite(READINESS_LIMITS, name, own[name]);

/** A limit of sand in force, with where it comes from. */
export const sandLimit = (name: keyof SandLimits, { sand }: LimitsInForce): CitedLimit =>
  cite(SAND_LIMITS, name, sand[name]);

/** A threshold of the watch in force, with where it comes from. */
export const watchLimit = (name: ThresholdName, { watch }: LimitsInForce): CitedLimit =>
  cite<ThresholdName>(THRESHOLDS, name, watch[name]);
