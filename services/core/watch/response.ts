/**
 * How the sand at a probe follows the shade: with which memory and with which share of its swings. Learned from
 * sound days, as the one of a few responses that leaves the least unexplained.
 */
import { standardDeviation } from 'simple-statistics';
import { type Dated, valuesOf, windowed } from './learned-days.js';
import { levelIn } from './level.js';
import { PARAMETERS } from './parameters.js';
import type { Day, Response } from './state.js';

const { shadeMemories_days, shadeShares, shareNeeds } = PARAMETERS;

/** Index of the ground's memory: the last. */
const GROUND = shadeMemories_days.length;

/** The part of a probe's temperature that the shade explains, °C. */
function explained_C(memory: number, share: number, shade_C: readonly number[]): number {
  return share * (shade_C[memory] ?? Number.NaN) + (1 - share) * (shade_C[GROUND] ?? Number.NaN);
}

/** What of each day the shade does not explain, °C. */
function unexplained(days: readonly Day[], memory: number, share: number): Dated[] {
  return days.flatMap(({ day, probe_C, shade_C }) =>
    shade_C === null ? [] : [{ day, value: probe_C - explained_C(memory, share, shade_C) }],
  );
}

/**
 * The response with the least spread over the days that count, a smaller share only where it leaves clearly less;
 * undefined where the days are too few.
 */
export function responseOf(days: readonly Day[], today: number): Response | undefined {
  let best: Response | undefined;
  let least_C = Number.POSITIVE_INFINITY;
  for (const [step, share] of shadeShares.entries())
    for (const memory of shadeMemories_days.keys()) {
      const window = windowed(unexplained(days, memory, share), today);
      const cost_C = window ? standardDeviation(valuesOf(window.all)) * (1 + shareNeeds * step) : Number.NaN;
      if (!window || !(cost_C < least_C)) continue;
      least_C = cost_C;
      best = { memory, share, ...levelIn(window) };
    }
  return best;
}

/** What a sound bed's probe shows, °C, given the shade's slow means by memory. */
export function expectedFrom({ memory, share, middle }: Response, shade_C: readonly number[]): number {
  return middle + explained_C(memory, share, shade_C);
}
