/** The months to come of a bed, from its ledger, its looks and its readings. */
import { SandlarderError } from '../core/errors.js';
import { outlookOf, rootMass_kg, rootsAt } from '../core/keeping/index.js';
import { DAY_ms } from '../core/model/time.js';
import type { OutlookQuery, OutlookView } from '../http/index.js';
import { dailyMeans } from './bed-warmth.js';
import { knownBed } from './known-bed.js';
import { lossLooks } from './loss-looks.js';
import { seasonBegin } from './season-start.js';
import type { Station } from './station.js';
import { StockDesk } from './stock-desk.js';

/** A year and a month back, for how warm the bed was in the same month. */
const BACK_ms = 400 * DAY_ms;

/**
 * @param now wall clock, ms
 * @throws SandlarderError NOT_FOUND; TOO_FEW_SAMPLES for a bed whose filling or stock was not written down
 */
export function outlookView(station: Station, id: string, query: OutlookQuery, now: number): OutlookView {
  const known = knownBed(station, id);
  const ledger = new StockDesk(station, () => now).ledger(id);
  const begin = seasonBegin(station, known, now);
  if (!begin || ledger.entries.length === 0)
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `outlook of bed "${id}": expected a filling or stock that was written down, got none`,
    );
  const since = begin.filledAt;
  const outlook = outlookOf({
    ...{ roots: rootsAt(ledger, now), rootMass_kg: rootMass_kg(ledger), since, now },
    looks: lossLooks(station, ledger, since).filter(({ at }) => at <= now),
    days: dailyMeans(station, known, Math.min(since, now - BACK_ms), now),
    ...query,
  });
  return { bed: known.bed, at: now, since, outlook };
}
