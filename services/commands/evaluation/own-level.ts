/**
 * A rule that learns: how far a probe departs from its own level of the last weeks, less what its neighbours
 * depart from theirs. Without a neighbour it says nothing: the season alone would move it.
 */
import { median } from 'simple-statistics';
import type { DayMeans } from './daily-means.js';

/** The level is the mean of these days before; the last few are left out, so that a slow rise is not learned. Judgement. */
const LEVEL_days = { from: 18, to: 4 } as const;
/** Days with readings that a level needs. */
const NEEDS_days = 7;

function levelOf(means: readonly DayMeans[], id: string, day: number): number | undefined {
  const known = means
    .slice(Math.max(0, day - LEVEL_days.from), Math.max(0, day - LEVEL_days.to + 1))
    .flatMap((one) => one.get(id) ?? []);
  return known.length >= NEEDS_days ? known.reduce((sum, value) => sum + value, 0) / known.length : undefined;
}

/** By probe: today's mean less its own level, °C. */
function departures(means: readonly DayMeans[], day: number): DayMeans {
  return new Map(
    [...(means[day] ?? [])].flatMap(([id, mean]) => {
      const level = levelOf(means, id, day);
      return level === undefined ? [] : [[id, mean - level] as const];
    }),
  );
}

/** By probe: its departure less the median of its neighbours', °C. */
export function apartFromNeighbours(means: readonly DayMeans[], day: number): DayMeans {
  const all = departures(means, day);
  return new Map(
    [...all].flatMap(([id, departure]) => {
      const others = [...all].flatMap(([other, value]) => (other === id ? [] : [value]));
      return others.length > 0 ? [[id, departure - median(others)] as const] : [];
    }),
  );
}
