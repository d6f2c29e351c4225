/** Where a source is, with a radius that holds it nine times in ten. */
import type { Bank, Onset } from './bank.js';
import { readingsByGrowth } from './growths.js';
import type { Reading, Scales, Weighed } from './search.js';

export interface Located {
  /** cm. */
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  readonly radius: number;
  /** W once it is grown; mean over the places and growths that may be. */
  readonly power: number;
  /** The likeliest place and beginning. */
  readonly reading: Reading;
  readonly onset: Onset;
  readonly ratio: number;
}

/** Ratios are softened by this before they weigh places: shapes are not quite right. Judgement, checked by evaluation. */
const SOFTENED = 1.5;
/** Share of the weight within the radius, and what the spacing of places adds, cm: so it held 19 of 20, by evaluation. */
const WITHIN = 0.85;
const SPACING_cm = 4;

interface Tried {
  readonly reading: Reading;
  readonly onset: Onset;
  readonly weighed: Weighed;
}

/** Every place, for every growth and beginning that is asked for. */
function tryAll(
  { onsets }: Bank,
  scales: Scales,
  readings: readonly Reading[],
  isAsked: (onset: Onset) => boolean,
): Tried[] {
  const asked = onsets.filter(isAsked);
  return readings.flatMap((place) =>
    readingsByGrowth(place).flatMap((reading) =>
      asked
        .map((onset) => ({ reading, onset, weighed: scales.weigh(reading, onset) }))
        .filter(({ weighed }) => weighed.ratio > 0),
    ),
  );
}

export function locate(
  bank: Bank,
  scales: Scales,
  readings: readonly Reading[],
  isAsked: (onset: Onset) => boolean,
): Located | undefined {
  const tried = tryAll(bank, scales, readings, isAsked);
  if (tried.length === 0) return undefined;
  const best = tried.reduce((one, other) => (other.weighed.ratio > one.weighed.ratio ? other : one));
  const weights = tried.map(({ weighed }) => Math.exp((weighed.ratio - best.weighed.ratio) / SOFTENED));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const mean = (of: (one: Tried) => number): number =>
    tried.reduce((total, one, index) => total + of(one) * (weights[index] as number), 0) / sum;
  const x = mean(({ reading }) => reading.place.x);
  const y = mean(({ reading }) => reading.place.y);
  const depth = mean(({ reading }) => reading.place.depth);
  const distances = tried
    .map(({ reading: { place } }, index) => ({
      distance: Math.hypot(place.x - x, place.y - y, place.depth - depth),
      weight: weights[index] as number,
    }))
    .sort((one, other) => one.distance - other.distance);
  let gathered = 0;
  const edge = distances.find(({ weight }) => {
    gathered += weight;
    return gathered >= WITHIN * sum;
  });
  const radius = (edge?.distance ?? 0) + SPACING_cm;
  const power = mean(({ weighed }) => weighed.power);
  return { x, y, depth, radius, power, reading: best.reading, onset: best.onset, ratio: best.weighed.ratio };
}
