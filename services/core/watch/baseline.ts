/**
 * What a sound bed looks like at a probe: how it follows the shade, how far it stands above each neighbour, and
 * its own level.
 */
import { type Dated, learnedOldestFrom, windowed } from './learned-days.js';
import { carriedOn, type Level, levelIn } from './level.js';
import { responseOf } from './response.js';
import type { Baseline, Day, ProbeState } from './state.js';

function aboveOther(days: readonly Day[], other: ProbeState): Dated[] {
  const theirs = new Map(other.days.map(({ day, probe_C }) => [day, probe_C]));
  return days.flatMap(({ day, probe_C }) => {
    const there_C = theirs.get(day);
    return there_C === undefined ? [] : [{ day, value: probe_C - there_C }];
  });
}

/**
 * The baseline of a probe for the day that begins.
 *
 * @param others the other probes of the bed
 * @param today the day that begins, days since the epoch
 * @returns undefined while there are fewer than five sound days
 */
export function baselineFor(
  probe: ProbeState,
  others: readonly (readonly [string, ProbeState])[],
  today: number,
): Baseline | undefined {
  const days = probe.days.filter(({ day }) => day >= learnedOldestFrom(today));
  const own = windowed(
    days.map(({ day, probe_C }) => ({ day, value: probe_C })),
    today,
  );
  if (!own) return undefined;
  const peers = others.flatMap(([id, other]): [string, Level][] => {
    const above = windowed(aboveOther(days, other), today);
    return above ? [[id, levelIn(above)]] : [];
  });
  return { own: carriedOn(own, today), shade: responseOf(days, today) ?? null, peers };
}
