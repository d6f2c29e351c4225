/**
 * How the sand at a probe follows the shade: with which memory and with which share of its swings. Learned from
 * sound days, as the one of a few responses that leaves the least unexplained.
 */
import { standardDeviation } from 'simple-statistics';
import { type Dated, type Window, windowed } from './learned-days.js';
import { type Level, levelOf } from './median.js';
import { PARAMETERS } from './parameters.js';
import type { Day, Response } from './state.js';

const { shadeMemories_days, shadeShares } = PARAMETERS;

/** What of each day the shade does not explain, °C. */
function unexplained(days: readonly Day[], memory: number, share: number): Dated[] {
  return days.flatMap(({ day, probe_C, shade_C }) => {
    const there_C = shade_C?.[memory];
    return there_C === undefined ? [] : [{ day, value: probe_C - share * there_C }];
  });
}

/** Middle of the last weeks, and how far all days stray from their own middle. */
export function levelIn({ recent, all }: Window): Level {
  return { middle: levelOf(recent).middle, deviation: levelOf(all).deviation };
}

/** The response with the least spread over the days that count; undefined where these are too few. */
export function responseOf(days: readonly Day[], today: number): Response | undefined {
  let best: Response | undefined;
  let least_C = Number.POSITIVE_INFINITY;
  for (const memory of shadeMemories_days.keys())
    for (const share of shadeShares) {
      const window = windowed(unexplained(days, memory, share), today);
      const spread_C = window ? standardDeviation(window.all) : Number.NaN;
      if (!window || !(spread_C < least_C)) continue;
      least_C = spread_C;
      best = { memory, share, ...levelIn(window) };
    }
  return best;
}

/** What a sound bed's probe shows, °C, given the shade's slow means by memory. */
export function expectedFrom({ memory, share, middle }: Response, shade_C: readonly number[]): number {
  return middle + share * (shade_C[memory] ?? Number.NaN);
}
