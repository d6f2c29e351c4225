import { describe, expect, test } from 'vitest';
import { type BedKind, expectedSwing, judgeDepth } from '../../../services/core/keeping/filling.js';
import { type DaySwing, daySwing } from '../../../services/core/keeping/filling-swing.js';
import {
  type Filling,
  fillingProblems,
  fillingSchema,
  massFilled_kg,
  rootsFilled,
} from '../../../services/core/model/filling.js';
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

/** Hourly means of a wave on a drift, warmest at an hour of the day. */
const wave = (amplitude_C: number, warmest_h: number, hours = 36, drift_C = 0.5): number[] =>
  Array.from(
    { length: hours },
    (_, hour) => 22 + (drift_C * hour) / 24 + amplitude_C * Math.cos((2 * Math.PI * (hour - warmest_h)) / 24),
  );
/** Scatter of a probe, the same at each call: a fixed pattern without a wave of a day in it. */
const scattered = (values: readonly number[], by_C: number): number[] =>
  values.map((value, hour) => value + by_C * Math.cos(2.7 * hour));

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
  test('by hand at 20 cm in a pit: film 0.39 and 0.285, sand of 0.2 roots', () => {
    const { share, lag_h } = expectedSwing(20, 'stepped-pit');
    // Dry sand with roots: 1.50e-7 m2/s, damping depth 6.42 cm; exp(-20 / 6.42 - 0.39), (20 / 6.42 + 0.285) 3.82 h.
    expect(share.likely).toBeCloseTo(0.03, 3);
    expect(lag_h.likely).toBeCloseTo(13, 1);
    // Logarithm of the share and lag in radians differ by what lies above the sand alone.
    expect(-Math.log(share.likely) - (lag_h.likely * 2 * Math.PI) / 24).toBeCloseTo(0.39 - 0.285, 9);
  });

  test.each<BedKind>(['stepped-pit', 'box'])(
    '%s: less and later with depth, the ranges around it',
    (kind) => {
      const depths = [0, 5, 10, 20, 30, 50].map((depth_cm) => expectedSwing(depth_cm, kind));
      depths.forEach(({ share, lag_h }, index) => {
        const before = depths[index - 1];
        expect(share.likely).toBeLessThan(before?.share.likely ?? 1);
        expect(lag_h.likely).toBeGreaterThan(before?.lag_h.likely ?? 0);
        expect(share.low).toBeLessThan(share.likely);
        expect(share.high).toBeGreaterThan(share.likely);
        expect(lag_h.low).toBeLessThan(lag_h.likely);
        expect(lag_h.high).toBeGreaterThan(lag_h.likely);
      });
    },
  );

  test.each([-1, 301, Number.NaN])('%d cm is refused', (depth_cm) => {
    expect(() => expectedSwing(depth_cm, 'box')).toThrow(outOfDomain);
  });
});

describe('the verdict', () => {
  const outside = daySwing(scattered(wave(8, 14), 0.3));
  /** As a probe at a depth would see it, with some scatter. */
  const seenAt = (depth_cm: number, by_C = 0.02): DaySwing => {
    const { share, lag_h } = expectedSwing(depth_cm, 'stepped-pit');
    return daySwing(scattered(wave(8 * share.likely, 14 + lag_h.likely), by_C));
  };
  const verdictOf = (planned_cm: number, probe: DaySwing, air = outside): string =>
    judgeDepth(expectedSwing(planned_cm, 'stepped-pit'), air, probe).verdict;

  test.each([2, 5, 10, 15, 20])('at %d cm as planned', (depth_cm) => {
    expect(verdictOf(depth_cm, seenAt(depth_cm))).toBe('as planned');
  });

  test('5 cm where 20 were planned is shallower, 20 where 5 were is deeper', () => {
    expect(verdictOf(20, seenAt(5))).toBe('shallower');
    expect(verdictOf(5, seenAt(20))).toBe('deeper');
  });

  test('a bare probe is shallower whatever was planned, but for the top', () => {
    for (const planned_cm of [15, 20, 30, 50]) expect(verdictOf(planned_cm, outside)).toBe('shallower');
  });

  test('where so little arrives that nothing can be measured', () => {
    const still = daySwing(scattered(wave(0, 0), 0.05));
    const deep = judgeDepth(expectedSwing(40, 'stepped-pit'), outside, still);
    expect(deep.verdict).toBe('cannot tell');
    expect(deep.because).toMatch(/too small to be measured$/);
    const shallow = judgeDepth(expectedSwing(5, 'stepped-pit'), outside, still);
    expect(shallow).toMatchObject({ verdict: 'deeper', share: null, lag_h: null });
    expect(shallow.because).toMatch(/^at most .* % of the swing outside arrives; at 5 cm at least/);
  });

  test('nothing under a still sky, or one that is no wave', () => {
    expect(verdictOf(10, seenAt(10), daySwing(wave(1.4, 14)))).toBe('cannot tell');
    expect(verdictOf(10, seenAt(10), daySwing(scattered(wave(2, 14), 4)))).toBe('cannot tell');
  });

  test('says what it saw, and the lag of more than a day where that fits', () => {
    const { share, lag_h, because } = judgeDepth(expectedSwing(10, 'stepped-pit'), outside, seenAt(10));
    expect(share).toBeCloseTo(expectedSwing(10, 'stepped-pit').share.likely, 1);
    expect(because).toMatch(
      /^\d+ % of the swing outside came [\d.]+ h later; at 10 cm [\d.]+ % to [\d.]+ % and/,
    );
    expect(Math.abs((lag_h ?? 0) - expectedSwing(10, 'stepped-pit').lag_h.likely)).toBeLessThan(1);
    const deep = judgeDepth(
      expectedSwing(50, 'stepped-pit'),
      { ...outside, amplitude_C: 2000 },
      {
        ...outside,
        amplitude_C: 1,
        latest_h: (outside.latest_h + 3) % 24,
      },
    );
    expect(deep.lag_h).toBeCloseTo(27, 9);
  });
});
