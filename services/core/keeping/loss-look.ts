/** What an inspection tells of losses: roots that were looked at, and what was wrong with them. */
import type { InspectionBody } from '../model/inspection.js';
import type { InspectionDetail, RootCount } from '../model/inspection-detail.js';

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
  /** Whether all roots of the bed were sorted at it, so that nothing lost stayed in. */
  readonly sorted: boolean;
}

/**
 * What of an inspection tells of losses; undefined where no root was looked at, or nothing counted.
 *
 * @param present roots in the bed before it by its stock; null where unknown
 */
export function lossLookOf(
  at: number,
  detail: InspectionDetail & Partial<Pick<InspectionBody, 'repacked'>>,
  present: number | null,
): LossLook | undefined {
  const { looked = 0, repacked = false } = detail;
  const counted = LOSS_CAUSES.flatMap((cause) => {
    const count = detail[COUNTED_AS[cause]];
    return count === undefined ? [] : [[cause, count] as const];
  });
  if (!(looked > 0) || counted.length === 0) return undefined;
  const known = present !== null && present >= looked ? present : null;
  const sorted = repacked || known === looked;
  return { at, looked, present: known, lost: Object.fromEntries(counted), sorted };
}

/** Roots lost at a look. One that was counted under two causes counts twice, at the most all that were looked at. */
export const lostAt = ({ looked, lost }: LossLook): number =>
  Math.min(
    looked,
    LOSS_CAUSES.reduce((sum, cause) => sum + (lost[cause] ?? 0), 0),
  );
