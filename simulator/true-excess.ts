/** The true excess at each probe of a bed: the same bed simulated with and without its rots, side by side. */
import { SandlarderError } from '../services/core/errors.js';
import { simulateDaysWithTruth, type TrueHour } from './days.js';
import type { Scenario } from './scenario.js';

/**
 * Hour by hour what is true at a bed's probes, before any error of theirs.
 *
 * @param bed a bed's id
 * @throws SandlarderError NOT_FOUND where the scenario has no such bed
 */
export function trueExcessAt(scenario: Scenario, bed: string, seed: number): TrueHour[] {
  if (!scenario.beds.some(({ id }) => id === bed))
    throw new SandlarderError('NOT_FOUND', `scenario ${scenario.name}: no bed "${bed}"`);
  return Array.from(simulateDaysWithTruth(scenario, bed, seed)).flatMap(({ hours }) => hours);
}

/**
 * The day, with its time, at the end of the first hour in which the excess at a probe is at least a limit.
 *
 * @param limit_C e.g. 0.5 °C
 * @returns undefined where it never is
 */
export function dayOfExcess(hours: readonly TrueHour[], probe: string, limit_C: number): number | undefined {
  const first = hours.find(({ sands }) =>
    sands.some((sand) => sand.probe === probe && sand.excess_C >= limit_C),
  );
  return first && first.hour / 24;
}
