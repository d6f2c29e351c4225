/**
 * How the sand at a probe follows the shade: with which memory and with which share of its swings. Learned from
 * sound days, as the one of a few responses that leaves the least unexplained.
 */
import { standardDeviation } from 'simple-statistics';
import { countingDays, type Dated } from './learned-days.js';
import { levelOf } from './level.js';
import { PARAMETERS } from './parameters.js';
import type { Response } from './state.js';

const { shadeMemories_days, shadeShares, shareNeeds } = PARAMETERS;

/** Index of the ground's memory: the last. */
const GROUND = shadeMemories_days.length;

/** A day's mean of the probe, °C, and the shade's slow means by memory, °C. */
export interface Pair {
  readonly probe_C: number;
  readonly shade_C: readonly number[];
}

/** The part of a probe's temperature that the shade explains, °C. */
function explained_C(memory: number, share: number, shade_C: readonly number[]): number {
  return share * (shade_C[memory] ?? Number.NaN) + (1 - share) * (shade_C[GROUND] ?? Number.NaN);
}

/**
 * The response with the least spread over the days that count, a less likely share only where it leaves clearly less;
 * undefined where the days are too few.
 *
 * @param today days since the epoch
 */
export function responseOf(days: readonly Dated<Pair>[], today: number): Response | undefined {
  const counting = countingDays(days, today);
  if (!counting) return undefined;
  const left = (memory: number, share: number): number[] =>
    counting.map(([, { probe_C, shade_C }]) => probe_C - explained_C(memory, share, shade_C));
  let best: { memory: number; share: number } | undefined;
  let least_C = Number.POSITIVE_INFINITY;
  for (const [step, share] of shadeShares.entries())
    for (const memory of shadeMemories_days.keys()) {
      const cost_C = standardDeviation(left(memory, share)) * (1 + shareNeeds * step);
      if (!(cost_C < least_C)) continue;
      least_C = cost_C;
      best = { memory, share };
    }
  return best && { ...best, ...levelOf(left(best.memory, best.share)) };
}

/** What a sound bed's probe shows, °C, given the shade's slow means by memory. */
export function expectedFrom({ memory, share, middle }: Response, shade_C: readonly number[]): number {
  return middle + explained_C(memory, share, shade_C);
}
