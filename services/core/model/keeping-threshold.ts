/** Thresholds of keeping: what sand and readiness go by, set for a site or a bed beside those of the watch. */
import { READINESS_LIMITS, READINESS_ORDERED } from './readiness-thresholds.js';
import { SAND_LIMITS, SAND_ORDERED } from './sand-thresholds.js';

export const KEEPING_THRESHOLDS = { ...SAND_LIMITS, ...READINESS_LIMITS };
export type KeepingThresholdName = keyof typeof KEEPING_THRESHOLDS;
export type KeepingOverrides = Readonly<Partial<Record<KeepingThresholdName, number | undefined>>>;

const NAMES = Object.keys(KEEPING_THRESHOLDS) as KeepingThresholdName[];

/** What is set of them otherwise than the default: the later override wins (site first, then bed). */
export function keepingOverrides(
  ...overrides: readonly (KeepingOverrides | undefined)[]
): Readonly<Partial<Record<KeepingThresholdName, number>>> {
  const set: Partial<Record<KeepingThresholdName, number>> = {};
  for (const override of overrides)
    for (const name of NAMES) {
      const value = override?.[name];
      if (value !== undefined) set[name] = value;
    }
  return Object.freeze(set);
}

/** What does not hold among those in force; undefined where all does. */
export function keepingProblem(...overrides: readonly (KeepingOverrides | undefined)[]): string | undefined {
  const set = keepingOverrides(...overrides);
  const inForce = (name: KeepingThresholdName): number => set[name] ?? KEEPING_THRESHOLDS[name].default;
  const wrong = [...SAND_ORDERED, ...READINESS_ORDERED].find(
    ([lower, upper]) => !(inForce(lower) <= inForce(upper)),
  );
  if (!wrong) return undefined;
  const [lower, upper] = wrong;
  return `expected ${lower} not above ${upper}, got ${inForce(lower)} and ${inForce(upper)}`;
}
