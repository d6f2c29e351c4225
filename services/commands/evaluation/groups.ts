/** Rots that are strong enough to be found, near a probe and further away: how many were, and how soon. */
import { middle, most } from './middle.js';
import type { SeasonScore } from './score.js';
import type { RotScore } from './score-rot.js';

const STRONG_W = 1.5;
const NEAR_cm = 30;
const FAR_cm = 50;

/** Rots of one group. */
export interface Group {
  readonly rots: number;
  readonly found: number;
  /** Median and most, from when the true excess at the nearest probe passed 0.5 °C. */
  readonly fromKnowable_h: number | null;
  readonly slowest_h: number | null;
}

export interface Groups {
  /** Without the seasons in which readings came late or the shade probe was missing: what is asked for is asked of these. */
  readonly counted: Group;
  readonly all: Group;
}

type Within = (distance_cm: number) => boolean;

const isNear: Within = (distance_cm) => distance_cm <= NEAR_cm;
const isFar: Within = (distance_cm) => distance_cm > NEAR_cm && distance_cm <= FAR_cm;

function groupOf(scores: readonly SeasonScore[], within: Within): Group {
  const belongs = ({ grown_W, distance_cm }: RotScore): boolean =>
    grown_W >= STRONG_W && distance_cm !== null && within(distance_cm);
  const rots = scores.flatMap((score) => score.rots.filter(belongs));
  const delays = rots.map(({ fromKnowable_h }) => fromKnowable_h);
  const found = rots.filter(({ foundDay }) => foundDay !== null).length;
  return { rots: rots.length, found, fromKnowable_h: middle(delays), slowest_h: most(delays) };
}

const groupsOf = (scores: readonly SeasonScore[], within: Within): Groups => ({
  counted: groupOf(
    scores.filter(({ apart }) => !apart),
    within,
  ),
  all: groupOf(scores, within),
});

/** 1.5 W or more, within 30 cm of a probe, and from there to 50 cm. */
export const nearAndFar = (scores: readonly SeasonScore[]): { near: Groups; far: Groups } => ({
  near: groupsOf(scores, isNear),
  far: groupsOf(scores, isFar),
});
