/**
 * What a sound bed looks like at a probe: how it follows the shade, how far it stands above each neighbour, and
 * its own level.
 */
import { countingDays, type Dated } from './learned-days.js';
import { carriedOn, type Level, levelOf } from './level.js';
import { responseOf } from './response.js';
import type { Baseline, Day, ProbeState, ShadeDay } from './state.js';

/** Of the days that both have, made into one. */
function both<Theirs, Made>(
  days: readonly Day[],
  others: readonly Dated<Theirs>[],
  make: (probe_C: number, theirs: Theirs) => Made,
): Dated<Made>[] {
  const theirs = new Map(others);
  return days.flatMap(([day, probe_C]): Dated<Made>[] => {
    const their = theirs.get(day);
    return their === undefined ? [] : [[day, make(probe_C, their)]];
  });
}

function aboveNeighbour(days: readonly Day[], neighbour: ProbeState, today: number): Level | undefined {
  const above = countingDays(
    both(days, neighbour.days, (probe_C, their_C) => probe_C - their_C),
    today,
  );
  return above && levelOf(above.map(([, difference_C]) => difference_C));
}

/**
 * The baseline of a probe for the day that begins.
 *
 * @param others the other probes of the bed
 * @param today the day that begins, days since the epoch
 * @returns undefined while there are fewer than five sound days
 */
export function baselineFor(
  { days }: ProbeState,
  shadeDays: readonly ShadeDay[],
  others: readonly (readonly [string, ProbeState])[],
  today: number,
): Baseline | undefined {
  const own = countingDays(days, today);
  if (!own) return undefined;
  const peers = others.flatMap(([id, other]): [string, Level][] => {
    const level = aboveNeighbour(days, other, today);
    return level ? [[id, level]] : [];
  });
  const pairs = both(days, shadeDays, (probe_C, shade_C) => ({ probe_C, shade_C }));
  return { own: carriedOn(own, today), shade: responseOf(pairs, today) ?? null, peers };
}
