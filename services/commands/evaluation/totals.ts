/** Scores of many seasons together. */
import { median } from 'simple-statistics';
import type { SeasonScore } from './score.js';
import type { FaultScore } from './score-fault.js';
import type { RotScore } from './score-rot.js';
import type { WaterScore } from './score-water.js';

/** Strong and near enough to be found, or strong and further away. */
const STRONG_W = 1.5;
const NEAR_cm = 30;
const FAR_cm = 50;
/** With fewer probes a place is hardly more than the surroundings of one of them. */
const PLACED_BY_probes = 4;

/** Rots of one group. */
export interface Group {
  readonly rots: number;
  readonly found: number;
  /** Median, without late readings or a missing shade probe. */
  readonly fromKnowable_h: number | null;
  readonly slowest_h: number | null;
}

export interface Totals {
  readonly seasons: number;
  readonly rots: number;
  readonly found: number;
  readonly fromOnset_days: number | null;
  /** After the true excess at the nearest probe passed 0.5 °C; negative before. */
  readonly fromKnowable_h: number | null;
  readonly beforeHand_days: number | null;
  /** 1.5 W or more, within 30 cm of a probe, and from there to 50 cm. */
  readonly near: Group;
  readonly far: Group;
  readonly months: number;
  readonly soundMonths: number;
  readonly falseUnpack: number;
  readonly falseUnpack_per_100_months: number;
  readonly falseCheck: number;
  readonly falseCheck_per_100_months: number;
  readonly falseFault: number;
  readonly falseDamp: number;
  readonly falseWetting: number;
  /** Of places: beds with four probes or more, medians, and the share inside the radius that was given. */
  readonly placed: number;
  readonly error_cm: number | null;
  readonly radius_cm: number | null;
  readonly covered: number | null;
  readonly laterError_cm: number | null;
  readonly laterRadius_cm: number | null;
  readonly laterCovered: number | null;
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
}

const known = (values: readonly (number | null)[]): number[] => values.filter((value) => value !== null);

const middle = (values: readonly (number | null)[]): number | null =>
  known(values).length > 0 ? median(known(values)) : null;

const most = (values: readonly (number | null)[]): number | null =>
  known(values).length > 0 ? Math.max(...known(values)) : null;

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

export function totalsOf(scores: readonly SeasonScore[]): Totals {
  const rots = scores.flatMap((score) => score.rots);
  return {
    ...{ seasons: scores.length, rots: rots.length, found: foundOf(rots).length },
    fromOnset_days: middle(rots.map(({ fromOnset_h }) => fromOnset_h && fromOnset_h / 24)),
    fromKnowable_h: middle(rots.map(({ fromKnowable_h }) => fromKnowable_h)),
    beforeHand_days: middle(rots.map(({ beforeHand_days }) => beforeHand_days)),
    near: groupOf(scores, (distance_cm) => distance_cm <= NEAR_cm),
    far: groupOf(scores, (distance_cm) => distance_cm > NEAR_cm && distance_cm <= FAR_cm),
    ...falseOf(scores),
    ...placesOf(scores),
    ...faultsOf(scores.flatMap(({ faults }) => faults)),
    unpackInFault: sum(scores.map(({ unpackInFault }) => unpackInFault)),
    ...watersOf(scores),
  };
}

const foundOf = (rots: readonly RotScore[]): RotScore[] => rots.filter(({ foundDay }) => foundDay !== null);

function groupOf(scores: readonly SeasonScore[], within: (distance_cm: number) => boolean): Group {
  const belongs = ({ grown_W, distance_cm }: RotScore): boolean =>
    grown_W >= STRONG_W && distance_cm !== null && within(distance_cm);
  const all = scores.flatMap(({ rots }) => rots.filter(belongs));
  const delays = scores
    .filter(({ apart }) => !apart)
    .flatMap(({ rots }) => rots.filter(belongs).map(({ fromKnowable_h }) => fromKnowable_h));
  return {
    ...{ rots: all.length, found: foundOf(all).length },
    ...{ fromKnowable_h: middle(delays), slowest_h: most(delays) },
  };
}

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

/** Share of places whose error is no larger than their radius. */
function coveredShare(errors: readonly (readonly [error: number | null, radius: number | null])[]) {
  const both = errors.filter((pair): pair is [number, number] => pair[0] !== null && pair[1] !== null);
  return both.length > 0 ? both.filter(([error, radius]) => error <= radius).length / both.length : null;
}

function placesOf(scores: readonly SeasonScore[]) {
  const rots = scores
    .filter(({ probes }) => probes >= PLACED_BY_probes)
    .flatMap((score) => score.rots)
    .filter(({ error_cm }) => error_cm !== null);
  return {
    placed: rots.length,
    error_cm: middle(rots.map(({ error_cm }) => error_cm)),
    radius_cm: middle(rots.map(({ radius_cm }) => radius_cm)),
    covered: coveredShare(rots.map(({ error_cm, radius_cm }) => [error_cm, radius_cm])),
    laterError_cm: middle(rots.map(({ laterError_cm }) => laterError_cm)),
    laterRadius_cm: middle(rots.map(({ laterRadius_cm }) => laterRadius_cm)),
    laterCovered: coveredShare(
      rots.map(({ laterError_cm, laterRadius_cm }) => [laterError_cm, laterRadius_cm]),
    ),
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
  };
}
