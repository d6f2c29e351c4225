/**
 * The block of a bed against closed solutions of heat conduction. The closed forms are those of any textbook on heat
 * conduction (Carslaw & Jaeger; Incropera), evaluated here by themselves: [C].
 */
import { describe, expect, test } from 'vitest';
import { Curve, KNOTS_h, stepMean } from '../../../../services/core/watch/warmth/curve.js';
import { folded } from '../../../../services/core/watch/warmth/folding.js';
import { gridOf, sharesAt } from '../../../../services/core/watch/warmth/grid.js';
import { readOff, responsesOf } from '../../../../services/core/watch/warmth/responses.js';
import { Stepping } from '../../../../services/core/watch/warmth/stepping.js';

const PIT = {
  kind: 'stepped-pit' as const,
  steps: [
    { length: 150, width: 100, height: 25 },
    { length: 150, width: 60, height: 25 },
  ],
};
const BOX = { kind: 'box' as const, steps: [{ length: 100, width: 50, height: 75 }] };
const POINTS = [
  { x: 75, y: 50, depth: 30 },
  { x: 40, y: 40, depth: 20 },
];

test('stepping is of second order: half the step, a quarter of the error', () => {
  const grid = gridOf(PIT);
  const stepping = new Stepping(grid);
  const drive = { outer_C: [1, 3, 2] as const };
  const after = (parts: number): Float64Array => {
    const field = Float64Array.from({ length: grid.count }, (_, cell) => (grid.inBed[cell] === 1 ? 5 : 0));
    for (let part = 0; part < parts; part += 1) stepping.advance(field, (24 * 3600) / parts, drive);
    return field;
  };
  const right = after(256);
  const error = (parts: number): number =>
    after(parts).reduce((most, value, cell) => Math.max(most, Math.abs(value - (right[cell] as number))), 0);
  expect(error(8)).toBeLessThan(0.02);
  expect(error(16) / error(32)).toBeGreaterThan(3);
});

describe('a block by half or by a quarter', () => {
  const ASIDE = {
    kind: 'stepped-pit' as const,
    steps: [
      { length: 150, width: 100, height: 25 },
      { length: 100, width: 60, height: 25, x: 0 },
    ],
  };

  test.each([
    ['pit', PIT, 4],
    ['box', BOX, 4],
    ['pit that mirrors itself along its width only', ASIDE, 2],
  ])('of a %s is what the whole is where both halves are driven alike', (_, bed, parts) => {
    const grid = gridOf(bed);
    const part = folded(grid);
    expect(grid.count / part.grid.count).toBeGreaterThan(0.8 * parts);
    const drive = { outer_C: [1, 3, 2] as const };
    const whole = new Float64Array(grid.count);
    const half = new Float64Array(part.grid.count);
    new Stepping(grid).advance(whole, 10 * 24 * 3600, drive);
    new Stepping(part.grid, grid).advance(half, 10 * 24 * 3600, drive);
    for (const [x, y, z] of [
      [0.1, 0.1, 0.05],
      [0.7, 0.45, 0.3],
      [0.9, 0.3, 0.4],
    ] as const) {
      const shares = sharesAt(grid, x, y, z);
      expect(readOff(part.sharesOf(shares), half)).toBeCloseTo(readOff(shares, whole), 10);
    }
  });

  test('holds as much as the whole', () => {
    const grid = gridOf(PIT);
    const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);
    expect(4 * sum(folded(grid).grid.capacity)).toBeCloseTo(sum(grid.capacity), 3);
  });
});

describe('responses', () => {
  test.each([
    ['pit', PIT],
    ['box', BOX],
  ])('of a %s to everything a degree warmer from the beginning are a degree, for ever', (_, bed) => {
    const { drives } = responsesOf(bed, POINTS);
    for (const hours of [1, 6, 24, 240, 2400, 9000])
      for (const [probe] of POINTS.entries()) {
        const sum = (['surface', 'open', 'ground', 'upper', 'lower'] as const).reduce(
          (total, drive) => total + (drives[drive][probe]?.value.at(hours) ?? 0),
          0,
        );
        expect(sum).toBeCloseTo(1, 6);
      }
  });

  test('of a box: warmth that roots give leaves by the faces, and all of it in the end', () => {
    const { drives } = responsesOf(BOX, [{ x: 50, y: 25, depth: 37 }]);
    const settled = drives.roots[0]?.value.at(4000) ?? 0;
    // Between a slab of half the width with its boards and the whole block's mean: q L^2 / 2k + q L / U, computed.
    const slab = 0.25 ** 2 / (2 * 0.3) + 0.25 / 3.1;
    expect(settled).toBeGreaterThan(0.4 * slab);
    expect(settled).toBeLessThan(slab);
  });

  test('deeper probes follow the air later and less', () => {
    const { drives } = responsesOf(PIT, [
      { x: 75, y: 50, depth: 10 },
      { x: 75, y: 50, depth: 40 },
    ]);
    const at = (probe: number, hours: number): number => drives.surface[probe]?.value.at(hours) ?? 0;
    expect(at(0, 24)).toBeGreaterThan(4 * at(1, 24));
    expect(drives.surface[0]?.depth.at(48)).toBeLessThan(0);
  });
});

describe('curve', () => {
  const values = Float64Array.from(KNOTS_h, (hours) => 1 - Math.exp(-hours / 40));
  const curve = new Curve(values);

  test('keeps to a smooth function between its knots', () => {
    for (const hours of [1, 4.5, 20, 70, 200])
      expect(curve.at(hours)).toBeCloseTo(1 - Math.exp(-hours / 40), 2);
  });

  test('its change with speed is its slope by the logarithm of time', () => {
    for (const hours of [5, 20, 80]) {
      const by = 1e-4;
      const slope = (curve.at(hours * (1 + by)) - curve.at(hours * (1 - by))) / (2 * by);
      expect(curve.perFaster(hours)).toBeCloseTo(slope, 3);
    }
  });

  test('the mean over a step lies between its ends, and before the beginning is nothing', () => {
    const mean = stepMean((hours) => curve.at(hours), 2);
    expect(mean).toBeGreaterThan(curve.at(12));
    expect(mean).toBeLessThan(curve.at(18));
    expect(stepMean((hours) => curve.at(hours), -1)).toBe(0);
  });
});
