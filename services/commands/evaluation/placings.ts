/** How far off the places of alarms were, and whether their radius held the truth. */
import { known, middle, shareOf } from './middle.js';
import type { SeasonScore } from './score.js';

/** With fewer probes a place is hardly more than the surroundings of one of them. */
const PLACED_BY_probes = 4;

/** Places of one moment: medians, and the share inside the radius that was given. */
export interface Placed {
  readonly error_cm: number | null;
  readonly radius_cm: number | null;
  readonly covered: number | null;
}

export interface Placing {
  /** Alarms that gave a place. */
  readonly alarms: number;
  readonly first: Placed;
  /** Four days later. */
  readonly later: Placed;
}

export interface Placings {
  /** Of beds with four probes or more: what is asked for is asked of these. */
  readonly counted: Placing;
  readonly all: Placing;
}

interface Pair {
  readonly error: number | null;
  readonly radius: number | null;
}

function placedOf(pairs: readonly Pair[]): Placed {
  const errors = pairs.map(({ error }) => error);
  const held = pairs.filter(({ error, radius }) => error !== null && radius !== null && error <= radius);
  return {
    error_cm: middle(errors),
    radius_cm: middle(pairs.map(({ radius }) => radius)),
    covered: shareOf(held.length, known(errors).length),
  };
}

function placingOf(scores: readonly SeasonScore[]): Placing {
  const rots = scores.flatMap((score) => score.rots).filter(({ error_cm }) => error_cm !== null);
  return {
    alarms: rots.length,
    first: placedOf(rots.map(({ error_cm, radius_cm }) => ({ error: error_cm, radius: radius_cm }))),
    later: placedOf(
      rots.map(({ laterError_cm, laterRadius_cm }) => ({ error: laterError_cm, radius: laterRadius_cm })),
    ),
  };
}

export const placingsOf = (scores: readonly SeasonScore[]): Placings => ({
  counted: placingOf(scores.filter(({ probes }) => probes >= PLACED_BY_probes)),
  all: placingOf(scores),
});
