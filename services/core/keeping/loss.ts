/**
 * What a bed loses, and by what, from the roots that were looked at.
 *
 * A look sees a part of the roots. What it finds wrong among those it did not see at the look before may be older than
 * that look, so that a single interval may get more than its own; over the season loss-standing takes account of it.
 */
import { SandlarderError } from '../errors.js';
import { DAY_ms, formatTime } from '../model/time.js';
import { type ShareInterval, wilsonInterval } from './loss-interval.js';
import { LOSS_CAUSES, type LossCause, type LossLook, lostAt } from './loss-look.js';
import { lossRuns } from './loss-standing.js';
import {
  ALL_LEFT,
  type Count,
  type Left,
  leftAfter,
  requireCounts,
  type SurvivalStep,
  stepOf,
} from './loss-survival.js';

export interface CauseLoss extends ShareInterval {
  readonly cause: LossCause;
  /** Roots found so. */
  readonly count: number;
  /** Roots of all present that are so, by the interval; null where it is not known how many there were. */
  readonly roots: { readonly low: number; readonly likely: number; readonly high: number } | null;
}

export interface LossInterval {
  /** The look before, or the filling, ms. */
  readonly from: number;
  readonly to: number;
  readonly looked: number;
  readonly present: number | null;
  readonly causes: readonly CauseLoss[];
}

/**
 * Loss by cause from look to look.
 *
 * @param filledAt ms, before the first look
 * @param looks in order of time
 * @throws SandlarderError OUT_OF_DOMAIN for looks out of order and for counts that do not fit together
 */
export function lossByInterval(filledAt: number, looks: readonly LossLook[]): LossInterval[] {
  return looks.map((look, index) => {
    const from = looks[index - 1]?.at ?? filledAt;
    if (!(look.at > from))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `look: expected a time after ${formatTime(from)}, got ${Number.isFinite(look.at) ? formatTime(look.at) : look.at}`,
      );
    const { looked, present } = look;
    return { from, to: look.at, looked, present, causes: causesOf(look) };
  });
}

function causesOf({ looked, present, lost }: LossLook): CauseLoss[] {
  return LOSS_CAUSES.flatMap((cause) => {
    const count = lost[cause];
    if (count === undefined) return [];
    const interval = wilsonInterval(count, looked, present ?? undefined);
    const { low, share, high } = interval;
    const roots =
      present === null ? null : { low: low * present, likely: share * present, high: high * present };
    return [{ cause, count, ...interval, roots }];
  });
}

/**
 * Share of the roots that is left after each look, in days since the filling.
 *
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function survivalOf(filledAt: number, looks: readonly LossLook[]): SurvivalStep[] {
  const countOf = (look: LossLook): Count => ({
    time: (look.at - filledAt) / DAY_ms,
    atRisk: look.looked,
    lost: lostAt(look),
  });
  requireCounts(looks.map(countOf));
  let before: Left = ALL_LEFT;
  return lossRuns(filledAt, looks).flatMap((run) => {
    const sorted = before;
    return run.looks.map(({ look, pool }) => {
      before = leftAfter(sorted, pool);
      return stepOf(countOf(look), before);
    });
  });
}
