/** What a bed's ledger says: what is left, where the rest went, what was lost, and how long it feeds. */
import { lossOverSeason, rootMass_kg, stockTotals } from '../core/keeping/index.js';
import type { StockQuery, StockView } from '../http/index.js';
import type { KnownBed } from './directory.js';
import { lossLooks } from './loss-looks.js';
import { outlookView } from './outlook-desk.js';
import { seasonBegin } from './season-start.js';
import type { Station } from './station.js';
import type { StockDesk } from './stock-desk.js';

/** Months to come whose warmth counts where food is asked for alone. */
const USUAL_months = 6;

/**
 * @param now wall clock, ms
 * @throws SandlarderError as the outlook, where food or selling is asked for
 */
export function stockView(
  station: Station,
  desk: StockDesk,
  known: KnownBed,
  query: StockQuery,
  now: number,
): StockView {
  const bed = known.bed.id;
  const ledger = desk.ledger(bed);
  const since = seasonBegin(station, known, now)?.filledAt ?? null;
  const looks = since === null ? [] : lossLooks(station, ledger, since);
  const { eating, months = USUAL_months } = query;
  const asks = eating !== undefined || query.months !== undefined;
  const ahead = asks ? outlookView(station, bed, { months, eating }, now).outlook : null;
  const left = desk.left(bed);
  const each_kg = rootMass_kg(ledger);
  return {
    leftMass_kg: left === null || each_kg === undefined ? null : left * each_kg,
    ...{ bed, since, left, entries: station.registry.stock.ofBed(bed) },
    totals: stockTotals(ledger, since === null ? {} : { from: since }),
    losses: since === null ? [] : lossOverSeason(since, looks),
    weeksOfFood: ahead?.weeksOfFood ?? null,
    rootsPerMonth: query.months === undefined ? null : (ahead?.rootsPerMonth ?? null),
    notes: ahead?.notes ?? [],
  };
}
