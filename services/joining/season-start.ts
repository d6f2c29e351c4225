/** When the season of a bed began. */
import { fillingsInForce } from '../core/keeping/index.js';
import type { Filling } from '../core/model/filling.js';
import { DAY_ms } from '../core/model/time.js';
import type { KnownBed } from './directory.js';
import type { Station } from './station.js';

/** A filling as described and one as written down are the same where they are no further apart, ms. */
const SAME_ms = 3 * DAY_ms;

export interface SeasonBegin {
  readonly filledAt: number;
  /** As written down; undefined where it is only described, or known by its first roots. */
  readonly filling: Filling | undefined;
  /** Whether it is the filling that the bed's description speaks of. */
  readonly isDescribed: boolean;
}

/**
 * The last filling by a time; of one that is described and written down the earlier time.
 *
 * @param to event time, ms
 * @returns undefined where nothing says that the bed was filled by then
 */
export function seasonBegin(station: Station, { bed }: KnownBed, to: number): SeasonBegin | undefined {
  const fillings = fillingsInForce(station.registry.fillings.ofBed(bed.id)).filter(({ at }) => at <= to);
  const entries = station.registry.stock.ofBed(bed.id).map(({ entry }) => entry);
  const described = bed.filled !== undefined && bed.filled <= to ? [bed.filled] : [];
  const times = [...described, ...fillings.map(({ at }) => at)];
  if (times.length === 0) {
    const first = entries.find(({ kind, at }) => kind === 'in' && at <= to);
    return first && { filledAt: first.at, filling: undefined, isDescribed: false };
  }
  const last = Math.max(...times);
  const filledAt = Math.min(...times.filter((time) => last - time <= SAME_ms));
  return {
    ...{ filledAt, filling: fillings.findLast(({ at }) => at >= filledAt) },
    isDescribed: described.some((time) => last - time <= SAME_ms),
  };
}
