/** Limits in force for sand, and how they are cited beside what was measured. */
import { requireInDomain, SandlarderError } from '../errors.js';
import { SAND_LIMITS, SAND_ORDERED } from '../model/sand-thresholds.js';
import type { Threshold } from '../model/threshold.js';

export { SAND_LIMITS };

export type SandLimitName = keyof typeof SAND_LIMITS;
export type SandLimits = Readonly<Record<SandLimitName, number>>;

/** A limit as it is shown beside what was measured. */
export interface CitedLimit {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly source: string;
}

/**
 * Defaults of a table of limits, and what is set otherwise.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a limit outside its range
 */
export function limitsOf<Name extends string>(
  table: Readonly<Record<Name, Threshold>>,
  overrides: Readonly<Partial<Record<Name, number>>>,
): Readonly<Record<Name, number>> {
  const entries = (Object.entries(table) as [Name, Threshold][]).map(
    ([name, { default: usual, low, high }]) => {
      const value = overrides[name] ?? usual;
      requireInDomain(name, value, low, high);
      return [name, value] as const;
    },
  );
  return Object.freeze(Object.fromEntries(entries) as Record<Name, number>);
}

/**
 * The limits in force for sand.
 *
 * @throws SandlarderError OUT_OF_DOMAIN also for two that contradict each other
 */
export function sandLimits(overrides: Readonly<Partial<SandLimits>> = {}): SandLimits {
  return requireOrdered(limitsOf(SAND_LIMITS, overrides), SAND_ORDERED);
}

/** @throws SandlarderError OUT_OF_DOMAIN for two limits that contradict each other */
export function requireOrdered<Name extends string>(
  limits: Readonly<Record<Name, number>>,
  ordered: readonly (readonly [lower: NoInfer<Name>, upper: NoInfer<Name>])[],
): Readonly<Record<Name, number>> {
  for (const [lower, upper] of ordered)
    if (!(limits[lower] <= limits[upper]))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `${lower} must not be above ${upper}, got ${limits[lower]} and ${limits[upper]}`,
      );
  return limits;
}

/** A limit of a table with the value in force; one that was set has no other source than that. */
export function cite<Name extends string>(
  table: Readonly<Record<Name, Threshold>>,
  name: Name,
  value: number,
): CitedLimit {
  const { unit, source, default: usual } = table[name];
  return { name, value, unit, source: value === usual ? source : `set here; the default is ${usual}` };
}
