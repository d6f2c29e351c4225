/** Gradations against worked problem sheets. */
import { describe, expect, test } from 'vitest';
import { unifiedClassOf } from '../../services/core/keeping/sand-classes.js';
import { hazenConductivity_m_s } from '../../services/core/keeping/sand-flow.js';
import { gradationOf } from '../../services/core/keeping/sand-gradation.js';
import { type GrainSize, type Grains, grainsOf } from '../../services/core/keeping/sand-grains.js';
import type { Sieving } from '../../services/core/model/sand-samples.js';

const NUMBERS = [4, 10, 20, 40, 60, 100, 200] as const;

const sieving = (retained_g: readonly number[], pan_g: number): Sieving =>
  Object.freeze({
    sieves: Object.freeze(
      NUMBERS.map((number, at) => Object.freeze({ number, retained_g: retained_g[at] as number })),
    ),
    pan_g,
  });

/** Half a unit of the last printed place, and a little for its own rounding. */
const printed = (places: number): number => 0.51 * 10 ** -places;

// Data of a stored problem sheet [seen]; shares and sizes by log-linear interpolation [computed apart from the program].
const SHEETS = [
  {
    retained_g: [0, 18.5, 53.2, 90.5, 81.8, 92.2, 58.5],
    pan_g: 26.5,
    sum_g: 421.2,
    finer: [100, 95.61, 82.98, 61.49, 42.07, 20.18, 6.29],
    d10: 0.0902,
    d30: 0.1886,
    d60: 0.408,
    uniformity: 4.521,
    curvature: 0.966,
  },
  {
    retained_g: [0, 41.2, 55.1, 80, 91.6, 60.5, 35.6],
    pan_g: 21.5,
    sum_g: 385.5,
    finer: [100, 89.31, 75.02, 54.27, 30.51, 14.81, 5.58],
    d10: 0.1045,
    d30: 0.2459,
    d60: 0.5147,
    uniformity: 4.924,
    curvature: 1.124,
  },
  {
    retained_g: [0, 20.1, 19.5, 210.5, 85.6, 22.7, 15.5],
    pan_g: 23.5,
    sum_g: 397.4,
    finer: [100, 94.94, 90.04, 37.07, 15.53, 9.81, 5.91],
    d10: 0.1525,
    d30: 0.3571,
    d60: 0.5738,
    uniformity: 3.762,
    curvature: 1.457,
  },
];

describe.each(SHEETS)('the sheet of $sum_g g', (sheet) => {
  const gradation = gradationOf(sieving(sheet.retained_g, sheet.pan_g));
  const grains = grainsOf(gradation);

  test('sums up', () => {
    expect(Math.abs(gradation.sum_g - sheet.sum_g)).toBeLessThan(1e-9);
  });

  test('shares that are finer', () => {
    gradation.points.forEach(({ finer_percent }, at) => {
      expect(Math.abs(finer_percent - (sheet.finer[at] as number))).toBeLessThan(printed(2));
    });
  });

  test.each(['d10', 'd30', 'd60'] as const)('%s', (name) => {
    expect(grains[name].is).toBe('known');
    expect(Math.abs(grains[name].mm - sheet[name])).toBeLessThan(printed(4));
  });

  test('Cu and Cc', () => {
    expect(Math.abs((grains.uniformity ?? 0) - sheet.uniformity)).toBeLessThan(printed(3));
    expect(Math.abs((grains.curvature ?? 0) - sheet.curvature)).toBeLessThan(printed(3));
  });

  test('is SP-SM or SP-SC [limits of ASTM D2487 from memory]', () => {
    expect(unifiedClassOf(grains).symbols).toEqual(['SP-SM', 'SP-SC']);
  });
});

test('a report with D10 .078, D30 .125, D60 .55 is poorly graded: Cu 7.0513, Cc 0.3642 [seen]', () => {
  const known = (mm: number): GrainSize => ({ is: 'known', mm });
  const [d10, d30, d60] = [0.078, 0.125, 0.55];
  const uniformity = d60 / d10;
  const curvature = (d30 * d30) / (d10 * d60);
  const grains: Grains = {
    d10: known(d10),
    d30: known(d30),
    d50: known(0.4),
    d60: known(d60),
    uniformity,
    curvature,
    fines: { low: 4, high: 4 },
    gravel: { low: 0, high: 0 },
  };
  expect(Math.abs(uniformity - 7.0513)).toBeLessThan(printed(4));
  expect(Math.abs(curvature - 0.3642)).toBeLessThan(printed(4));
  expect(unifiedClassOf(grains).symbols).toEqual(['SP']);
});

// Hazen with C = 100 [seen], values [computed], cm/s.
test.each([
  [0.25, 0.0625],
  [0.4, 0.16],
])('D10 of %d mm lets through %d cm/s', (d10_mm, cm_s) => {
  expect(Math.abs(hazenConductivity_m_s(d10_mm) * 100 - cm_s)).toBeLessThan(1e-12);
});
