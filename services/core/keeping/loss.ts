/**
 * What a bed loses, and by what, from the roots that were looked at.
 *
 * A look sees a part of the roots. What it finds wrong among those it did not see at the look before may be older than
 * that look, so that a single interval may get more than its own; over the season it evens out.
 */
import { SandlarderError } from '../errors.js';
import type { InspectionDetail, RootCount } from '../model/inspection-detail.js';
import { DAY_ms, formatTime } from '../model/time.js';
import { type ShareInterval, wilsonInterval } from './loss-interval.js';
import { kaplanMeier, type SurvivalStep } from './loss-survival.js';

/** Sprouted roots are no loss: they are eaten, sold or planted. */
export const LOSS_CAUSES = ['rot', 'weevils', 'rodents', 'termites'] as const;
export type LossCause = (typeof LOSS_CAUSES)[number];

const COUNTED_AS: Readonly<Record<LossCause, RootCount>> = {
  rot: 'rotten',
  weevils: 'weevil',
  rodents: 'rodent',
  termites: 'termite',
};

export interface LossLook {
  /** ms. */
  readonly at: number;
  /** Roots looked at, above 0. */
  readonly looked: number;
  /** Roots in the bed before the look by its stock; null where that is unknown or fewer than were looked at. */
  readonly present: number | null;
  /** Of those looked at; a cause that was not counted is absent. */
  readonly lost: Readonly<Partial<Record<LossCause, number>>>;
}

/**
 * What of an inspection tells of losses; undefined where no root was looked at, or nothing counted.
 *
 * @param present roots in the bed before it by its stock; null where unknown
 */
export function lossLookOf(
  at: number,
  detail: InspectionDetail,
  present: number | null,
): LossLook | undefined {
  const { looked = 0 } = detail;
  const counted = LOSS_CAUSES.flatMap((cause) => {
    const count = detail[COUNTED_AS[cause]];
    return count === undefined ? [] : [[cause, count] as const];
  });
  if (!(looked > 0) || counted.length === 0) return undefined;
  const known = present !== null && present >= looked ? present : null;
  return { at, looked, present: known, lost: Object.fromEntries(counted) };
}

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

/** Roots lost at a look. One that was counted under two causes counts twice, at the most all that were looked at. */
export const lostAt = ({ looked, lost }: LossLook): number =>
  Math.min(
    looked,
    LOSS_CAUSES.reduce((sum, cause) => sum + (lost[cause] ?? 0), 0),
  );

/**
 * Share of the roots that is left after each look, in days since the filling.
 *
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export const survivalOf = (filledAt: number, looks: readonly LossLook[]): SurvivalStep[] =>
  kaplanMeier(
    looks.map((look) => ({
      time: (look.at - filledAt) / DAY_ms,
      atRisk: look.looked,
      lost: lostAt(look),
    })),
  );
