/** The figures of a season of one bed, from what is at rest. What is not known is null, never 0. */
import { SPEAKS_OF_ms } from '../alarms/labels.js';
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

/** Roots that went in as the bed is described; null where that does not say. */
export interface DescribedRoots {
  readonly roots: number | null;
  readonly mass_kg: number | null;
}

/** A season of one bed: from its filling to the report. What lies outside is left out. */
export interface BedSeason {
  readonly name: string;
  /** ms. */
  readonly filledAt: number;
  readonly cultivar: string | null;
  readonly field: string | null;
  readonly lot: string | null;
  /** Null where the description is of no filling, or of another. */
  readonly described: DescribedRoots | null;
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

export type FilledBy = 'ledger' | 'description';

export interface SeasonFigures {
  readonly season: BedSeason;
  readonly totals: StockTotals;
  /** What went in: by the ledger where that has anything, else as described; null where neither says. */
  readonly filled: number | null;
  readonly filledMass_kg: number | null;
  /** Where that is from. */
  readonly filledBy: FilledBy | null;
  /** By the ledger; null where that does not say what went in. */
  readonly left: number | null;
  /** Days from the filling until the bed was empty, or to the report. */
  readonly kept_days: number;
  readonly emptied: boolean;
  readonly intervals: readonly LossInterval[];
  readonly causes: readonly SeasonLoss[];
  /** After the last look; null without any. */
  readonly survival: SurvivalStep | null;
  readonly alarms: readonly ReportedAlarm[];
  readonly warmth: WarmthFigures | null;
  /** Looks since the filling at which the bed was opened. */
  readonly opened: number;
  /** Null where no sprouts were found; without a look at the opened bed that says nothing of them. */
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
  const inspections = season.inspections.filter(during);
  const left = rootsAt(ledger, to);
  const totals = stockTotals(ledger, { from: filledAt, to: to + 1 });
  const emptiedAt = left === 0 ? lastMovementAt(ledger, to) : undefined;
  return {
    season,
    totals,
    ...wentIn(season, totals),
    left: totals.in.length === 0 ? null : left,
    kept_days: Math.max(0, (emptiedAt ?? to) - filledAt) / DAY_ms,
    emptied: emptiedAt !== undefined,
    intervals: lossByInterval(filledAt, looks),
    causes: lossOverSeason(filledAt, looks),
    survival: survivalOf(filledAt, looks).at(-1) ?? null,
    alarms: season.alarms
      .filter(({ raisedAt }) => raisedAt >= filledAt && raisedAt <= to)
      .map((alarm) => asKnownBy(alarm, to)),
    warmth: warmthOf(season.days.filter(({ at }) => at + DAY_ms > filledAt && at < (emptiedAt ?? to))),
    opened: inspections.filter(({ opened }) => opened).length,
    sprouts: sproutsOf(inspections, filledAt),
  };
}

function wentIn(
  { described }: BedSeason,
  totals: StockTotals,
): Pick<SeasonFigures, 'filled' | 'filledMass_kg' | 'filledBy'> {
  if (totals.in.length === 0)
    return {
      filled: described?.roots ?? null,
      filledMass_kg: described?.mass_kg ?? null,
      filledBy: described === null ? null : 'description',
    };
  return {
    filled: totals.in.reduce((sum, { roots }) => sum + roots, 0),
    filledMass_kg: totals.in.reduce<number | null>(
      (sum, { mass_kg }) => (sum === null || mass_kg === null ? null : sum + mass_kg),
      0,
    ),
    filledBy: 'ledger',
  };
}

/** That nobody looked within a week is known once the week is over. */
function asKnownBy(alarm: ReportedAlarm, to: number): ReportedAlarm {
  if (alarm.foundOut?.verdict !== 'unseen' || to > alarm.raisedAt + SPEAKS_OF_ms) return alarm;
  const { foundOut: _, ...open } = alarm;
  return open;
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
