import { describe, expect, test } from 'vitest';
import { coursesIn, coursesThatFit, laid, rootsIn } from '../../../services/core/keeping/courses.js';
import { gapBeside_cm, sizeOfRoot } from '../../../services/core/keeping/root-size.js';
import { sandNeeded } from '../../../services/core/keeping/sand-needed.js';

const ROOT = sizeOfRoot();
const box = (length: number, width: number, height: number) => [{ length, width, height }];
const PIT = Object.freeze([150, 100, 50].map((length) => Object.freeze({ length, width: 60, height: 25 })));

describe('the size of a root', () => {
  test('of Jewel follows from its mass within 6 %: 110.7 x 61.4 mm, 188 mL (Adetola et al. 2021)', () => {
    // The measured root is fuller than a spheroid of its length and width: its volume gives 3 % less of both.
    const jewel = sizeOfRoot(0.188 * 1.09);
    expect(jewel.volume_L).toBeCloseTo(0.188, 6);
    expect(Math.abs(jewel.width_cm / 6.14 - 1)).toBeLessThan(0.06);
    expect(Math.abs(jewel.length_cm / 11.07 - 1)).toBeLessThan(0.06);
  });

  test('its own floor is its outline over the cover, and its length and width with the gap', () => {
    const gap_cm = gapBeside_cm(ROOT);
    expect((Math.PI * ROOT.length_cm * ROOT.width_cm) / 4 / ROOT.floor_cm2).toBeCloseTo(0.55, 12);
    expect((ROOT.length_cm + gap_cm) * (ROOT.width_cm + gap_cm)).toBeCloseTo(ROOT.floor_cm2, 9);
    expect(gap_cm).toBeGreaterThan(1);
  });

  test.each([0, -1, Number.NaN, 0.04, 2.1])('no root has %d kg', (mass_kg) => {
    expect(() => sizeOfRoot(mass_kg)).toThrow(expect.objectContaining({ code: 'OUT_OF_DOMAIN' }));
  });
});

describe('courses', () => {
  test('lie on the steps, from the floor up, as many as fit with 5 cm of sand', () => {
    const courses = coursesIn(PIT, ROOT);
    expect(courses.map(({ step, roots }) => [step, roots])).toEqual([
      [2, 26],
      [2, 26],
      [1, 53],
      [1, 53],
      [0, 79],
      [0, 79],
    ]);
  });

  test.each([
    [PIT],
    [box(100, 60, 60)],
    [box(40, 40, 17)],
    [[90, 70, 45].map((length) => ({ length, width: 50, height: 17 }))],
    [[200, 60].map((length) => ({ length, width: 60, height: 40 }))],
  ])('keep 5 cm of sand under, between and over, and off every ledge: %j', (steps) => {
    const courses = coursesIn(steps, ROOT);
    const depth_cm = steps.reduce((sum, { height }) => sum + height, 0);
    const LEAST_cm = 5 - 1e-6;
    let below_cm = depth_cm;
    for (const { top_cm, bottom_cm, step } of courses) {
      expect(below_cm - bottom_cm).toBeGreaterThanOrEqual(LEAST_cm);
      const underside_cm = steps.slice(0, step + 1).reduce((sum, { height }) => sum + height, 0);
      expect(underside_cm - bottom_cm).toBeGreaterThanOrEqual(1.5 - 1e-6);
      expect(bottom_cm - top_cm).toBeCloseTo(ROOT.width_cm, 9);
      below_cm = top_cm;
    }
    expect(below_cm).toBeGreaterThanOrEqual(LEAST_cm);
  });

  test('a course less than a finger above a ledge takes the narrow step alone', () => {
    const steps = (height: number) => [
      { length: 200, width: 60, height },
      { length: 100, width: 60, height: 28 - height },
    ];
    // One course of 28 cm, evenly spaced, has its underside at 17.3 cm.
    expect(coursesIn(steps(19), ROOT).map(({ step, roots }) => [step, roots])).toEqual([[0, 106]]);
    expect(coursesIn(steps(18), ROOT).map(({ step, roots }) => [step, roots])).toEqual([[1, 53]]);
  });

  test('too shallow or too small a bed is refused with what is needed', () => {
    expect(() => coursesIn(box(100, 60, 16), ROOT)).toThrow(
      'bed: expected a depth of at least 17 cm for one course of such roots in sand, got 16 cm',
    );
    expect(() => coursesIn(box(20, 20, 100), sizeOfRoot(2))).toThrow(/expected at least 401 cm2 of floor/);
    expect(coursesThatFit(box(100, 60, 16), ROOT)).toEqual([]);
  });

  test('one course fits once the depth is there, and roots that are larger take more', () => {
    expect(coursesIn(box(100, 60, 17), ROOT)).toHaveLength(1);
    expect(rootsIn(coursesIn(PIT, sizeOfRoot(0.6)))).toBeLessThan(rootsIn(coursesIn(PIT, ROOT)) / 2 + 1);
  });

  test('fewer roots are laid from the floor up, and none gets lost', () => {
    const courses = coursesIn(PIT, ROOT);
    expect(laid(courses, 60).map(({ roots }) => roots)).toEqual([26, 26, 8]);
    for (const roots of [1, 26, 27, 200, 316]) expect(rootsIn(laid(courses, roots))).toBe(roots);
  });
});

describe('sand', () => {
  test('is what roots leave, in whole buckets', () => {
    expect(sandNeeded(450, 100)).toMatchObject({ sand_L: 350, buckets: 35 });
    expect(sandNeeded(450, 99.9).buckets).toBe(36);
    expect(sandNeeded(450, 100, 20)).toMatchObject({ buckets: 18 });
    expect(sandNeeded(450, 100, 20).bucket_kg).toBeCloseTo(31.92, 6);
  });

  test.each([
    [450, 100, 0],
    [450, 100, Number.NaN],
    [450, 100, 101],
    [450, 450, 10],
    [Number.NaN, 10, 10],
    [450, -1, 10],
  ])('%d L with %d L of roots in buckets of %d L is refused', (bed_L, roots_L, bucket_L) => {
    expect(() => sandNeeded(bed_L, roots_L, bucket_L)).toThrow(
      expect.objectContaining({ code: 'OUT_OF_DOMAIN' }),
    );
  });
});
