import { describe, expect, test } from 'vitest';
import { Bank, Onset, SIGNALS } from '../../../../services/core/watch/warmth/bank.js';
import { readingsByGrowth } from '../../../../services/core/watch/warmth/growths.js';
import { locate } from '../../../../services/core/watch/warmth/locate.js';
import { modelOf } from '../../../../services/core/watch/warmth/model.js';
import { type Reading, Scales } from '../../../../services/core/watch/warmth/search.js';
import { SHAPES, shapesOf } from '../../../../services/core/watch/warmth/sources.js';

const PIT = { kind: 'stepped-pit' as const, steps: [{ length: 145, width: 100, height: 60 }] };
const POINTS = [
  { x: 105, y: 45, depth: 25 },
  { x: 30, y: 30, depth: 25 },
  { x: 70, y: 80, depth: 20 },
  { x: 60, y: 45, depth: 40 },
];
const NOMINAL_h = 84;
const DAYS = 10;
const STEPS = 4 * DAYS;

/** What a sum of shapes comes to after so many steps. */
const summed = (weights: Float64Array, shapes: readonly Float64Array[], from: number, step: number): number =>
  shapes.reduce((sum, shape, at) => sum + (weights[from + at] as number) * (shape[step] as number), 0);

/** How far the first is from the second, as a share of the second's largest value. */
function apart(one: readonly number[], other: readonly number[]): number {
  const worst = Math.max(...one.map((value, at) => Math.abs(value - (other[at] as number))));
  return worst / Math.max(...other.map(Math.abs));
}

describe('a place read for sources of other growths', () => {
  const { inner } = modelOf(PIT, POINTS);
  const own = shapesOf();
  const steps = Array.from({ length: STEPS }, (_, step) => step);

  test.each([
    [36, 0.75],
    [60, 1],
    [NOMINAL_h, 1],
    [130, 1.33],
    [190, 1],
  ])('that of %d h, heat spreading %d times as fast, is what it would add at a probe', (growth_h, faster) => {
    const at = [36, 60, 84, 130, 190].indexOf(growth_h) + 5 * [0.75, 1, 1.33].indexOf(faster);
    const grown = shapesOf({ growth_h, faster });
    for (const place of inner.filter(({ place: { y } }) => y > 40 && y < 60)) {
      const { weights } = readingsByGrowth(place)[at] as Reading;
      for (const [index, probe] of place.probes.entries()) {
        if (probe !== place.nearest) continue;
        const from = index * SHAPES;
        const read = steps.map((step) => summed(weights, own, from, step));
        const truly = steps.map((step) => summed(place.weights, grown, from, step));
        // A seventh: sums of four shapes; what probes and places are off by is more.
        expect(apart(read, truly)).toBeLessThan(0.15);
      }
    }
  });
});

/** Evidence that probes with a noise of 0.05 °C and nothing else to learn would have of a source. */
function onsetOf(source: Reading, power_W: number, growth_h: number): Onset {
  const onset = new Onset(0, POINTS.length * SIGNALS, 1);
  const [own, grown] = [shapesOf(), shapesOf({ growth_h })];
  const count = onset.evidence.length;
  source.probes.forEach((probe, index) => {
    for (let step = 0; step < STEPS; step += 1) {
      const shown = power_W * summed(source.weights, grown, index * SHAPES, step);
      for (let shape = 0; shape < SHAPES; shape += 1)
        onset.evidence[probe * SIGNALS + shape] =
          (onset.evidence[probe * SIGNALS + shape] as number) +
          ((own[shape]?.[step] ?? 0) * shown) / 0.05 ** 2;
    }
  });
  for (let probe = 0; probe < POINTS.length; probe += 1)
    for (let a = 0; a < SHAPES; a += 1)
      for (let b = 0; b < SHAPES; b += 1) {
        let sum = 0;
        for (let step = 0; step < STEPS; step += 1)
          sum += ((own[a]?.[step] ?? 0) * (own[b]?.[step] ?? 0)) / 0.05 ** 2;
        onset.gram[(probe * SIGNALS + a) * count + probe * SIGNALS + b] = sum;
      }
  return onset;
}

describe('a source that grows in another time than the bank has it', () => {
  const { inner, sources, stateSize } = modelOf(PIT, POINTS);
  const source = inner.reduce((one, other) =>
    Math.hypot(other.place.x - 85, other.place.y - 55, other.place.depth - 30) <
    Math.hypot(one.place.x - 85, one.place.y - 55, one.place.depth - 30)
      ? other
      : one,
  );

  test.each([50, 84, 180])('of %d h is placed within a hand, with its power', (growth_h) => {
    const bank = new Bank(sources.shapes, POINTS.length, stateSize);
    bank.onsets = [onsetOf(source, 3, growth_h)];
    const found = locate(bank, new Scales(POINTS.length), inner, () => true);
    const { x, y, depth } = source.place;
    const off = Math.hypot((found?.x ?? 0) - x, (found?.y ?? 0) - y, (found?.depth ?? 0) - depth);
    expect(off).toBeLessThan(9);
    expect(off).toBeLessThan(found?.radius ?? 0);
    expect(found?.power).toBeGreaterThan(2);
    expect(found?.power).toBeLessThan(4);
  });
});
