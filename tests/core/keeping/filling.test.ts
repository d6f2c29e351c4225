import { describe, expect, test } from 'vitest';
import { expectedSwing } from '../../../services/core/keeping/filling.js';
import { daySwing } from '../../../services/core/keeping/filling-swing.js';
import {
  type Filling,
  fillingProblems,
  fillingSchema,
  massFilled_kg,
  rootsFilled,
} from '../../../services/core/model/filling.js';
import { scattered, wave } from './daily-waves.js';
import { FILLED, idOf } from './some-stock.js';

const outOfDomain = expect.objectContaining({ code: 'OUT_OF_DOMAIN' });

const STEPS = Object.freeze([
  { length: 150, width: 100, height: 25 },
  { length: 150, width: 60, height: 25 },
]);

const BODY = {
  id: idOf(1),
  bed: 'pit-a',
  at: '2026-05-04T08:00:00Z',
  by: 'Wanja',
  courses: [
    { roots: 200, mass_kg: 55 },
    { roots: 150, mass_kg: 40 },
  ],
  cultivar: 'orange, early',
  field: 'east',
  lot: '7',
  probes: [{ probe: 'p01', x: 75, y: 40, depth: 30 }],
};

describe('a filling', () => {
  const filling: Filling = fillingSchema.parse(BODY);

  test('is read, with roots and mass over all courses', () => {
    expect(filling).toEqual({ ...BODY, at: FILLED });
    expect(rootsFilled(filling)).toBe(350);
    expect(massFilled_kg(filling)).toBe(95);
    expect(fillingProblems(filling, STEPS)).toEqual([]);
  });

  test('its mass as given goes before the courses; unknown where one was not weighed', () => {
    expect(massFilled_kg({ courses: [{ roots: 200, mass_kg: 55 }, { roots: 9 }] })).toBeUndefined();
    expect(massFilled_kg({ courses: [{ roots: 9 }], mass_kg: 3 })).toBe(3);
  });

  test.each<[string, object]>([
    ['no course', { courses: [] }],
    ['a course of no roots', { courses: [{ roots: 0 }] }],
    ['half a root', { courses: [{ roots: 1.5 }] }],
    ['a mass of nothing', { courses: [{ roots: 5, mass_kg: 0 }] }],
    ['a time without offset', { at: '2026-05-04T08:00:00' }],
    ['nobody', { by: '' }],
    ['an id that is none', { id: 'x' }],
    ['an unknown key', { layers: 3 }],
    ['a depth that is none', { probes: [{ probe: 'p01', x: 1, y: 1, depth: Number.NaN }] }],
  ])('%s: refused', (_, change) => {
    expect(fillingSchema.safeParse({ ...BODY, ...change }).success).toBe(false);
  });

  test.each<[string, object, RegExp]>([
    [
      'a mass in grams',
      { mass_kg: 95_000, courses: [{ roots: 350 }] },
      /^mass_kg: expected 0.005 to 10 kg a root/,
    ],
    [
      'a mass in tons',
      { mass_kg: 0.095, courses: [{ roots: 350 }] },
      /^mass_kg: expected 0.005 to 10 kg a root/,
    ],
    ['a mass that its courses do not have', { mass_kg: 110 }, /^mass_kg: .* together, 95 kg, got 110$/],
    [
      'a probe outside the bed',
      { probes: [{ probe: 'p01', x: 75, y: 10, depth: 30 }] },
      /^probes.0: expected a point inside the bed, got x 75, y 10, depth 30 cm$/,
    ],
    [
      'a probe twice',
      { probes: [...BODY.probes, ...BODY.probes] },
      /^probes.1.probe: expected each probe once, got "p01", which probes\[0\] is$/,
    ],
  ])('%s is a problem', (_, change, message) => {
    const found = fillingProblems(fillingSchema.parse({ ...BODY, ...change }), STEPS);
    expect(found.map(({ path, message: text }) => `${path.join('.')}: ${text}`)).toEqual([
      expect.stringMatching(message),
    ]);
  });
});

describe('the daily swing', () => {
  test('comes back from a wave on a drift, gaps or not', () => {
    for (const hours of [24, 30, 47, 72]) {
      const swing = daySwing(wave(1.5, 14, hours));
      expect(swing.amplitude_C).toBeCloseTo(1.5, 9);
      expect(swing.latest_h).toBeCloseTo(14, 9);
      expect(swing.deviation_C).toBeLessThan(1e-9);
    }
    const gaps = wave(1.5, 3).map((value, hour) => (hour % 5 === 2 ? null : value));
    expect(daySwing(gaps).amplitude_C).toBeCloseTo(1.5, 9);
    expect(daySwing(gaps).latest_h).toBeCloseTo(3, 9);
  });

  test('scatter makes it uncertain', () => {
    const { amplitude_C, deviation_C } = daySwing(scattered(wave(1.5, 14), 0.2));
    expect(deviation_C).toBeGreaterThan(0.04);
    expect(Math.abs(amplitude_C - 1.5)).toBeLessThan(2 * deviation_C);
  });

  test.each<[string, (number | null)[], string]>([
    ['too few hours', wave(1, 14, 19), 'TOO_FEW_SAMPLES'],
    ['hours of less than a day', wave(1, 14, 23), 'TOO_FEW_SAMPLES'],
    ['gaps only', Array.from({ length: 36 }, () => null), 'TOO_FEW_SAMPLES'],
    ['none', [], 'TOO_FEW_SAMPLES'],
    ['too many', wave(1, 14, 73), 'LIMIT_EXCEEDED'],
    ['no number', [...wave(1, 14, 35), Number.NaN], 'OUT_OF_DOMAIN'],
    ['no temperature of sand', [...wave(1, 14, 35), 126], 'OUT_OF_DOMAIN'],
  ])('%s: refused', (_, hours, code) => {
    expect(() => daySwing(Object.freeze(hours))).toThrow(expect.objectContaining({ code }));
  });
});

describe('what is expected at a depth', () => {
  const PIT = { kind: 'stepped-pit', steps: STEPS } as const;
  const BOX = { kind: 'box', steps: [{ length: 100, width: 50, height: 75 }] } as const;
  const at = (depth: number) => ({ x: 50, y: 25, depth });

  test('by hand at 20 cm in a pit: film 0.39 and 0.285, sand of 0.2 roots', () => {
    const { share, lag_h } = expectedSwing(PIT, at(20));
    // Dry sand with roots: 1.50e-7 m2/s, damping depth 6.42 cm; exp(-20 / 6.42 - 0.39), (20 / 6.42 + 0.285) 3.82 h.
    expect(share.likely).toBeCloseTo(0.03, 3);
    expect(lag_h.likely).toBeCloseTo(13, 1);
    // Logarithm of the share and lag in radians differ by what lies above the sand alone.
    expect(-Math.log(share.likely) - (lag_h.likely * 2 * Math.PI) / 24).toBeCloseTo(0.39 - 0.285, 9);
  });

  test.each([
    ['stepped-pit', PIT, [0, 5, 10, 20, 30, 50]],
    ['box', BOX, [1, 5, 10, 20, 35]],
  ] as const)('%s: less and later with depth, the ranges around it', (_, bed, at_cm) => {
    const depths = at_cm.map((depth) => expectedSwing(bed, at(depth)));
    depths.forEach(({ share, lag_h }, index) => {
      const before = depths[index - 1];
      expect(share.likely).toBeLessThan(before?.share.likely ?? 1);
      expect(lag_h.likely).toBeGreaterThan(before?.lag_h.likely ?? 0);
      expect(share.low).toBeLessThan(share.likely);
      expect(share.high).toBeGreaterThan(share.likely);
      expect(lag_h.low).toBeLessThan(lag_h.likely);
      expect(lag_h.high).toBeGreaterThan(lag_h.likely);
    });
  });

  test.each([-1, 301, Number.NaN])('%d cm is refused', (depth_cm) => {
    expect(() => expectedSwing(BOX, at(depth_cm))).toThrow(outOfDomain);
  });
});
