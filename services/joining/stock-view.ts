/** What a bed's ledger says: what is left, where the rest went, what was lost, and how long it feeds. */
import { SandlarderError } from '../core/errors.js';
import {
  type Ledger,
  type LossLook,
  lossBelief,
  lossLookOf,
  lossOverSeason,
  OUTLOOK_PRIOR,
  type Prospect,
  rootMass_kg,
  rootsAt,
  rootsPerDay,
  rootsPerMonth,
  stockTotals,
  weeksOfFood,
} from '../core/keeping/index.js';
import { DAY_ms, LATEST_TIME_ms } from '../core/model/time.js';
import type { StockQuery, StockView } from '../http/index.js';
import { dailyMeans, recentMean_C } from './bed-warmth.js';
import type { KnownBed } from './directory.js';
import type { Station } from './station.js';
import type { StockDesk } from './stock-desk.js';

/** days. Months of sale are counted alike. */
const MONTH_days = 30;

export function stockView(
  station: Station,
  desk: StockDesk,
  known: KnownBed,
  query: StockQuery,
  now: number,
): StockView {
  const bed = known.bed.id;
  const ledger = desk.ledger(bed);
  const since = seasonStart(known, ledger);
  const looks = since === null ? [] : lossLooks(station, ledger, since);
  const asks = query.persons !== undefined || query.months !== undefined;
  const ahead = asks
    ? prospectOf(station, known, { ledger, since, looks, months: query.months ?? 1, now })
    : null;
  return {
    ...{ bed, since, left: desk.left(bed), entries: station.registry.stock.ofBed(bed) },
    totals: stockTotals(ledger, since === null ? {} : { from: since }),
    losses: since === null ? [] : lossOverSeason(since, looks),
    weeksOfFood:
      ahead && query.persons !== undefined ? weeksOfFood(ahead.prospect, eatenOf(query, ledger)) : null,
    rootsPerMonth: ahead && query.months !== undefined ? rootsPerMonth(ahead.prospect) : null,
    notes: ahead?.notes ?? [],
  };
}

/** When the bed was filled last; where nobody said so, when the first roots went in. ms. */
export function seasonStart({ bed }: KnownBed, { entries }: Ledger): number | null {
  return bed.filled ?? entries.find(({ kind }) => kind === 'in')?.at ?? null;
}

/** Of looks since the filling, in order of time; of two at one instant the first. */
export function lossLooks({ registry }: Station, ledger: Ledger, since: number): LossLook[] {
  const looks = registry.inspections.between(ledger.bed, since + 1, LATEST_TIME_ms).flatMap((inspection) => {
    const present = ledger.entries.length === 0 ? null : rootsAt(ledger, inspection.at - 1);
    return lossLookOf(inspection.at, inspection, present) ?? [];
  });
  return looks.filter(({ at }, index) => at !== looks[index - 1]?.at);
}

interface Season {
  readonly ledger: Ledger;
  readonly since: number | null;
  readonly looks: readonly LossLook[];
  readonly months: number;
  readonly now: number;
}

/** The bed is taken to stay as warm as it is. */
function prospectOf(
  station: Station,
  known: KnownBed,
  { ledger, since, looks, months, now }: Season,
): { prospect: Prospect; notes: string[] } {
  if (since === null || ledger.entries.length === 0)
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `stock of bed ${known.bed.id}: expected an entry of what went in, got none`,
    );
  const days = dailyMeans(station, known, since, now);
  const recent_C = recentMean_C(days, now);
  const mean_C = recent_C ?? OUTLOOK_PRIOR.at_C.value;
  const belief = lossBelief(since, looks, days);
  const roots = rootsAt(ledger, LATEST_TIME_ms);
  const ahead = Array.from({ length: months }, (_, month) => ({
    ...{ to: now + (month + 1) * MONTH_days * DAY_ms, mean_C },
  }));
  return {
    prospect: { belief, roots, from: now, months: ahead },
    notes: [
      `what is lost meanwhile is taken off; ${Math.round(100 * belief.ownShare)} % of what is known of that rests on this bed's own looks (${looks.length}), the rest on: ${OUTLOOK_PRIOR.meanLoss_per_day.source}`,
      recent_C === null
        ? `no readings of the last week: the bed is taken to have ${mean_C} °C`
        : `the bed is taken to stay as warm as in the last week, ${recent_C.toFixed(1)} °C`,
    ],
  };
}

/** Roots a day. */
function eatenOf({ persons = 1, roots_per_person_week, kg_per_person_week = 0 }: StockQuery, ledger: Ledger) {
  if (roots_per_person_week !== undefined)
    return rootsPerDay({ roots_per_day: (persons * roots_per_person_week) / 7 }, undefined);
  return rootsPerDay({ kg_per_day: (persons * kg_per_person_week) / 7 }, rootMass_kg(ledger));
}
