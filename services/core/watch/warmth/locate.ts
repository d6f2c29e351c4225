/** Where a source is, with a radius that holds it nine times in ten. */
import type { Bank, Onset } from './bank.js';
import type { Reading, Scales, Weighed } from './search.js';

export interface Located {
  /** cm. */
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  readonly radius: number;
  /** W; mean over the places that may be. */
  readonly power: number;
  /** The likeliest place and beginning. */
  readonly reading: Reading;
  readonly onset: Onset;
  readonly ratio: number;
}

/** Ratios are softened by this before they weigh places: shapes are not quite right. Judgement, checked by evaluation. */
const SOFTENED = 2.2;
/** Share of the weight within the radius, and what the spacing of places adds, cm. */
const WITHIN = 0.9;
const SPACING_cm = 4;

export function locate(
  bank: Bank,
  scales: Scales,
  readings: readonly Reading[],
  isAsked: (onset: Onset) => boolean,
): Located | undefined {
  const tried: { reading: Reading; onset: Onset; weighed: Weighed }[] = [];
  for (const onset of bank.onsets) {
    if (!isAsked(onset)) continue;
    for (const reading of readings) {
      const weighed = scales.weigh(reading, onset);
      if (weighed.ratio > 0) tried.push({ reading, onset, weighed });
    }
  }
  if (tried.length === 0) return undefined;
  const best = tried.reduce((one, other) => (other.weighed.ratio > one.weighed.ratio ? other : one));
  const weights = tried.map(({ weighed }) => Math.exp((weighed.ratio - best.weighed.ratio) / SOFTENED));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const mean = (of: (one: (typeof tried)[number]) => number): number =>
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
