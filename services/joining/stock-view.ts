/** What a bed's ledger says: what is left, where the rest went, what was lost, and how long it feeds. */
import { lossOverSeason, stockTotals } from '../core/keeping/index.js';
import type { StockQuery, StockView } from '../http/index.js';
import type { KnownBed } from './directory.js';
import { lossLooks } from './loss-looks.js';
import { outlookView } from './outlook-desk.js';
import { seasonBegin } from './season-start.js';
import type { Station } from './station.js';
import type { StockDesk } from './stock-desk.js';

/** Months to come whose warmth counts where food is asked for alone. */
const USUAL_months = 6;

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
  const asks = query.persons !== undefined || query.months !== undefined;
  const { months = USUAL_months } = query;
  const ahead = asks ? outlookView(station, bed, { months, eating: eatingOf(query) }, now).outlook : null;
  return {
    ...{ bed, since, left: desk.left(bed), entries: station.registry.stock.ofBed(bed) },
    totals: stockTotals(ledger, since === null ? {} : { from: since }),
    losses: since === null ? [] : lossOverSeason(since, looks),
    weeksOfFood: ahead?.weeksOfFood ?? null,
    rootsPerMonth: query.months === undefined ? null : (ahead?.rootsPerMonth ?? null),
    notes: ahead?.notes ?? [],
  };
}

/** Of all together; undefined where nobody's eating was asked for. */
function eatingOf({ persons, roots_per_person_week, kg_per_person_week = 0 }: StockQuery) {
  if (persons === undefined) return undefined;
  return roots_per_person_week === undefined
    ? { kg_per_day: (persons * kg_per_person_week) / 7 }
    : { roots_per_day: (persons * roots_per_person_week) / 7 };
}
