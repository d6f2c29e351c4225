/** The figures of a season of one bed, from what is at rest. What is not known is null, never 0. */
import { SandlarderError } from '../errors.js';
import type { Alarm } from '../model/alarm.js';
import type { Inspection } from '../model/inspection.js';
import { DAY_ms, formatTime } from '../model/time.js';
import { type LossInterval, lossByInterval, survivalOf } from './loss.js';
import type { LossLook } from './loss-look.js';
import { lossOverSeason, type SeasonLoss } from './loss-season.js';
import type { SurvivalStep } from './loss-survival.js';
import type { DailyMean } from './outlook-rate.js';
import { type Ledger, movementsOf, rootsAt } from './stock.js';
import { type StockTotals, stockTotals } from './stock-totals.js';

export type ReportedAlarm = Pick<Alarm, 'kind' | 'raisedAt' | 'clearedAt' | 'foundOut'>;

/** A season of one bed: from its filling to the report. What lies outside is left out. */
export interface BedSeason {
  readonly name: string;
  /** ms. */
  readonly filledAt: number;
  readonly cultivar: string | null;
  readonly field: string | null;
  readonly lot: string | null;
  readonly ledger: Ledger;
  /** In order of time. */
  readonly inspections: readonly Pick<Inspection, 'at' | 'opened' | 'found'>[];
  /** In order of time. */
  readonly looks: readonly LossLook[];
  readonly alarms: readonly ReportedAlarm[];
  /** Daily means of the sand among the roots, corrected, in order. */
  readonly days: readonly DailyMean[];
}

export interface WarmthFigures {
  readonly mean_C: number;
  readonly coldest_C: number;
  readonly warmest_C: number;
  /** Days with a mean. */
  readonly measured: number;
  /** Of these, with a mean of 20 to 29 °C, in which nearly every rot is quick (cabinet trials, abstracts). */
  readonly quickRot: number;
}

export interface SproutFigures {
  /** Days from the filling to the look at which sprouts were first found, and to the opened look before it, or 0. */
  readonly foundAfter: number;
  readonly notAfter: number;
}

export interface SeasonFigures {
  readonly season: BedSeason;
  readonly totals: StockTotals;
  /** Roots that went in, and what is left of them by the entries. */
  readonly filled: number;
  readonly left: number;
  /** Days from the filling until the bed was empty, or to the report. */
  readonly kept_days: number;
  readonly emptied: boolean;
  readonly intervals: readonly LossInterval[];
  readonly causes: readonly SeasonLoss[];
  /** After the last look; null without any. */
  readonly survival: SurvivalStep | null;
  readonly alarms: readonly ReportedAlarm[];
  readonly warmth: WarmthFigures | null;
  /** Null where no sprouts were found. */
  readonly sprouts: SproutFigures | null;
}

/**
 * @param to end of the report, ms
 * @throws SandlarderError OUT_OF_DOMAIN for an end before the filling, and for looks that do not fit together
 */
export function seasonFigures(season: BedSeason, to: number): SeasonFigures {
  const { filledAt, ledger } = season;
  if (!(to > filledAt))
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `end of the report: expected a time after the bed was filled, ${formatTime(filledAt)}, got ${Number.isFinite(to) ? formatTime(to) : to}`,
    );
  const during = ({ at }: { readonly at: number }): boolean => at > filledAt && at <= to;
  const looks = season.looks.filter(during);
  const left = rootsAt(ledger, to);
  const totals = stockTotals(ledger, { from: filledAt, to: to + 1 });
  const emptiedAt = left === 0 ? lastMovementAt(ledger, to) : undefined;
  return {
    season,
    totals,
    filled: totals.in.reduce((sum, { roots }) => sum + roots, 0),
    left,
    kept_days: Math.max(0, (emptiedAt ?? to) - filledAt) / DAY_ms,
    emptied: emptiedAt !== undefined,
    intervals: lossByInterval(filledAt, looks),
    causes: lossOverSeason(filledAt, looks),
    survival: survivalOf(filledAt, looks).at(-1) ?? null,
    alarms: season.alarms.filter(({ raisedAt }) => raisedAt >= filledAt && raisedAt <= to),
    warmth: warmthOf(season.days.filter(({ at }) => at + DAY_ms > filledAt && at < (emptiedAt ?? to))),
    sprouts: sproutsOf(season.inspections.filter(during), filledAt),
  };
}

/** Undefined where nothing ever went in. */
const lastMovementAt = (ledger: Ledger, to: number): number | undefined =>
  movementsOf(ledger).findLast(({ at }) => at <= to)?.at;

const QUICK_ROT_FROM_C = 20;
const QUICK_ROT_TO_C = 29;

function warmthOf(days: readonly DailyMean[]): WarmthFigures | null {
  if (days.length === 0) return null;
  const means = days.map(({ mean_C }) => mean_C);
  return {
    mean_C: means.reduce((sum, mean_C) => sum + mean_C, 0) / means.length,
    coldest_C: means.reduce((least, mean_C) => Math.min(least, mean_C)),
    warmest_C: means.reduce((most, mean_C) => Math.max(most, mean_C)),
    measured: means.length,
    quickRot: means.filter((mean_C) => mean_C >= QUICK_ROT_FROM_C && mean_C <= QUICK_ROT_TO_C).length,
  };
}

function sproutsOf(inspections: BedSeason['inspections'], filledAt: number): SproutFigures | null {
  const first = inspections.findIndex(({ found }) => found.includes('sprouts'));
  const look = inspections[first];
  if (!look) return null;
  const before = inspections.slice(0, first).findLast(({ opened }) => opened);
  return {
    foundAfter: (look.at - filledAt) / DAY_ms,
    notAfter: before === undefined ? 0 : (before.at - filledAt) / DAY_ms,
  };
}
