/** Scores of many seasons together. */
import { type Groups, nearAndFar } from './groups.js';
import { known, middle, most, sum } from './middle.js';
import { type Placings, placingsOf } from './placings.js';
import type { SeasonScore } from './score.js';
import type { FaultScore } from './score-fault.js';
import type { RotScore } from './score-rot.js';
import type { WaterScore } from './score-water.js';

export interface Totals {
  readonly seasons: number;
  readonly rots: number;
  readonly found: number;
  readonly fromOnset_days: number | null;
  /** After the true excess at the nearest probe passed 0.5 °C; negative before. */
  readonly fromKnowable_h: number | null;
  readonly beforeHand_days: number | null;
  /** 1.5 W or more, within 30 cm of a probe, and from there to 50 cm. */
  readonly near: Groups;
  readonly far: Groups;
  readonly months: number;
  readonly soundMonths: number;
  readonly falseUnpack: number;
  readonly falseUnpack_per_100_months: number;
  readonly falseCheck: number;
  readonly falseCheck_per_100_months: number;
  readonly falseFault: number;
  readonly falseDamp: number;
  readonly falseWetting: number;
  readonly place: Placings;
  readonly faults: number;
  readonly recognised: number;
  readonly faultsToldAsRot: number;
  /** By kind of fault. */
  readonly faultKinds: Readonly<Record<string, { readonly planted: number; readonly recognised: number }>>;
  /** Calls to unpack a sound bed while any of its probes failed. */
  readonly unpackInFault: number;
  readonly wettings: number;
  readonly wettingsTold: number;
  readonly wettingAfter_h: number | null;
  readonly slowestWetting_h: number | null;
  readonly dampings: number;
  readonly dampingsTold: number;
  readonly dampingAfter_h: number | null;
  readonly slowestDamping_h: number | null;
}

export function totalsOf(scores: readonly SeasonScore[]): Totals {
  const rots = scores.flatMap((score) => score.rots);
  return {
    ...{ seasons: scores.length, rots: rots.length, found: foundOf(rots).length },
    fromOnset_days: middle(rots.map(({ fromOnset_h }) => fromOnset_h && fromOnset_h / 24)),
    fromKnowable_h: middle(rots.map(({ fromKnowable_h }) => fromKnowable_h)),
    beforeHand_days: middle(rots.map(({ beforeHand_days }) => beforeHand_days)),
    ...nearAndFar(scores),
    ...falseOf(scores),
    place: placingsOf(scores),
    ...faultsOf(scores.flatMap(({ faults }) => faults)),
    unpackInFault: sum(scores.map(({ unpackInFault }) => unpackInFault)),
    ...watersOf(scores),
  };
}

const foundOf = (rots: readonly RotScore[]): RotScore[] => rots.filter(({ foundDay }) => foundDay !== null);

function falseOf(scores: readonly SeasonScore[]) {
  const count = (
    of: 'falseUnpack' | 'falseCheck' | 'falseFault' | 'falseDamp' | 'falseWetting' | 'months' | 'soundMonths',
  ): number => sum(scores.map((score) => score[of]));
  const soundMonths = count('soundMonths');
  const rate = (falsely: number): number => (soundMonths > 0 ? (100 * falsely) / soundMonths : 0);
  return {
    ...{ months: count('months'), soundMonths },
    ...{ falseUnpack: count('falseUnpack'), falseUnpack_per_100_months: rate(count('falseUnpack')) },
    ...{ falseCheck: count('falseCheck'), falseCheck_per_100_months: rate(count('falseCheck')) },
    ...{ falseFault: count('falseFault'), falseDamp: count('falseDamp') },
    falseWetting: count('falseWetting'),
  };
}

function faultKindsOf(faults: readonly FaultScore[]) {
  const kinds: Record<string, { planted: number; recognised: number }> = {};
  for (const { fault, recognised } of faults) {
    kinds[fault] ??= { planted: 0, recognised: 0 };
    kinds[fault].planted += 1;
    kinds[fault].recognised += recognised ? 1 : 0;
  }
  return kinds;
}

const faultsOf = (faults: readonly FaultScore[]) => ({
  faults: faults.length,
  recognised: faults.filter(({ recognised }) => recognised).length,
  faultsToldAsRot: faults.filter(({ toldAsRot }) => toldAsRot).length,
  faultKinds: faultKindsOf(faults),
});

const afterOf = (waters: readonly (WaterScore | null)[]): (number | null)[] =>
  waters.flatMap((water) => (water ? [water.after_h] : []));

function watersOf(scores: readonly SeasonScore[]) {
  const wettings = afterOf(scores.map(({ wetting }) => wetting));
  const dampings = afterOf(scores.map(({ damping }) => damping));
  return {
    ...{ wettings: wettings.length, wettingsTold: known(wettings).length },
    ...{ wettingAfter_h: middle(wettings), slowestWetting_h: most(wettings) },
    ...{ dampings: dampings.length, dampingsTold: known(dampings).length, dampingAfter_h: middle(dampings) },
    slowestDamping_h: most(dampings),
  };
}
