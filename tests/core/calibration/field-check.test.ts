import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type FieldCheckOptions, fieldCheck } from '../../../services/core/calibration/field-check.js';
import { type FieldSample, pairsOf } from '../../../services/core/calibration/field-pairs.js';
import { codeOf, refuses } from '../physics/refused.js';
import { seededNormal } from '../watch/sequential/seeded-normal.js';

const START = 1_700_000_000_000;
const MINUTE_ms = 60_000;
const OPTIONS: FieldCheckOptions = { unit: '°C', bound: 1, placeUncertainty: 0 };

/** A reading every `every_min` for `hours`; `at` gets hours. */
function series(
  every_min: number,
  hours: number,
  standardUncertainty: number,
  at: (hour: number) => number,
): readonly FieldSample[] {
  const count = Math.floor((60 * hours) / every_min) + 1;
  return Object.freeze(
    Array.from({ length: count }, (_, step) =>
      Object.freeze({
        time: START + step * every_min * MINUTE_ms,
        value: at((step * every_min) / 60),
        standardUncertainty,
      }),
    ),
  );
}

const steady = (value: number, standardUncertainty = 0.1) => series(20, 24, standardUncertainty, () => value);

describe('by hand', () => {
  test('0.5 °C with 0.15 and 0.2 °C: u 0.25, U 0.5, E_n exactly 1', () => {
    // E_n = 0.5 / sqrt((2 * 0.15)^2 + (2 * 0.2)^2) = 0.5 / 0.5; scatter none.
    const found = fieldCheck(steady(18.5, 0.15), steady(18, 0.2), OPTIONS);
    expect(found).toMatchObject({
      pairs: 73,
      difference: 0.5,
      scatter: 0,
      coverageFactor: 2,
      verdict: 'agrees',
    });
    expect(found.standardUncertainty).toBeCloseTo(0.25, 12);
    expect(found.expandedUncertainty).toBeCloseTo(0.5, 12);
    expect(found.enNumber).toBeCloseTo(1, 12);
    expect(found.to - found.from).toBe(24 * 60 * MINUTE_ms);
  });

  test('-1.2 °C with 0.3, 0.4 and 1.2 °C for the place: u 1.3, E_n -0.4615', () => {
    const found = fieldCheck(steady(16.8, 0.3), steady(18, 0.4), { ...OPTIONS, placeUncertainty: 1.2 });
    expect(found.standardUncertainty).toBeCloseTo(1.3, 12);
    expect(found.enNumber).toBeCloseTo(-1.2 / 2.6, 12);
    expect(found.verdict).toBe('undecided');
    expect(found.sentence).toBe(
      'The probe reads 1.20 °C lower than the reference, ± 2.60 °C (95 %): it cannot be told whether it is within the ' +
        '1 °C asked for. Use a better reference, lay it closer, or calibrate the probe again.',
    );
  });
});

describe('verdicts', () => {
  // U is 2 * sqrt(0.06^2 + 0.08^2) = 0.2 °C, bound 1 °C.
  test.each([
    [0.79, 'agrees'],
    [0.81, 'undecided'],
    [-0.79, 'agrees'],
    [1.19, 'undecided'],
    [1.21, 'disagrees'],
    [-1.21, 'disagrees'],
  ] as const)('%d °C off: %s', (off, verdict) => {
    expect(fieldCheck(steady(18 + off, 0.06), steady(18, 0.08), OPTIONS).verdict).toBe(verdict);
  });

  test('each has its words, and a contradiction of the uncertainties is said even within the bound', () => {
    const told = (off: number) => fieldCheck(steady(18 + off, 0.06), steady(18, 0.08), OPTIONS).sentence;
    expect(told(0.1)).toContain('it is within the 1 °C asked for. The probe can stay.');
    expect(told(0.5)).toContain(
      'within the 1 °C asked for. The two differ by more than their uncertainties explain.',
    );
    expect(told(2)).toContain('it is beyond the 1 °C asked for.');
    expect(told(2)).toContain('Calibrate or replace the probe.');
  });
});

describe('pairs', () => {
  const reference = series(30, 1, 0.1, (hour) => 10 * hour);
  const probe = series(10, 1, 0.1, () => 0);

  test('the reference is taken linearly between its readings, and as it is on them', () => {
    const found = pairsOf(probe, reference, 30 * MINUTE_ms);
    expect(found.map(({ difference }) => Math.round(difference * 1000) / 1000)).toEqual([
      0, -1.667, -3.333, -5, -6.667, -8.333, -10,
    ]);
  });

  test('a gap that is too wide keeps only what falls on a reading', () => {
    expect(pairsOf(probe, reference, 29 * MINUTE_ms).map(({ time }) => (time - START) / MINUTE_ms)).toEqual([
      0, 30, 60,
    ]);
  });

  test('nothing is carried beyond the first and the last reading', () => {
    expect(pairsOf(probe, reference.slice(1, 2), 60 * MINUTE_ms)).toHaveLength(1);
    expect(pairsOf(probe, [], 60 * MINUTE_ms)).toEqual([]);
    expect(pairsOf([], reference, 60 * MINUTE_ms)).toEqual([]);
  });

  test('the larger uncertainty of the two neighbours counts', () => {
    const mixed = reference.map((sample, at) => ({ ...sample, standardUncertainty: at === 1 ? 0.3 : 0.1 }));
    expect(
      pairsOf(probe, mixed, 30 * MINUTE_ms).map(({ referenceUncertainty }) => referenceUncertainty),
    ).toEqual([0.1, 0.3, 0.3, 0.3, 0.3, 0.3, 0.1]);
  });
});

describe('calibrations do not average out', () => {
  test('ten times the readings, the same u for both instruments', () => {
    const check = (every_min: number) =>
      fieldCheck(
        series(every_min, 24, 0.3, () => 18),
        series(every_min, 24, 0.4, () => 18),
        OPTIONS,
      );
    expect(check(2).standardUncertainty).toBeCloseTo(0.5, 12);
    expect(check(20).standardUncertainty).toBeCloseTo(0.5, 12);
  });
});

describe('readings that are alike their neighbours', () => {
  /** A first-order series with that correlation, a pair every 10 minutes, of unit scatter. */
  function wander(correlation: number, normal: () => number): readonly FieldSample[] {
    let value = normal();
    return series(10, 24, 0.001, () => {
      value = correlation * value + Math.sqrt(1 - correlation ** 2) * normal();
      return value;
    });
  }
  const zero = series(10, 24, 0.001, () => 0);

  // 145 pairs: worth 145, 48 and 8 independent ones by n (1 - r) / (1 + r).
  test.each([0, 0.5, 0.9])('correlation %d: 95 %% of 300 means at least within U', (correlation) => {
    const normal = seededNormal(31);
    let within = 0;
    let worth = 0;
    for (let run = 0; run < 300; run += 1) {
      const found = fieldCheck(wander(correlation, normal), zero, OPTIONS);
      if (Math.abs(found.difference) <= found.expandedUncertainty) within += 1;
      worth += found.independent / 300;
    }
    // Six batches and one estimate of r, on series as short as this: 92 % is what they hold at r = 0.9.
    expect(within).toBeGreaterThanOrEqual(correlation < 0.9 ? 285 : 270);
    const ideal = (145 * (1 - correlation)) / (1 + correlation);
    expect(worth / ideal).toBeLessThan(1.15);
    expect(worth / ideal).toBeGreaterThan(0.5);
  });

  test('a swing over the day counts as few independent pairs, with a larger factor', () => {
    const swing = series(10, 16, 0.001, (hour) => Math.sin((2 * Math.PI * hour) / 24));
    const found = fieldCheck(
      swing,
      series(10, 16, 0.001, () => 0),
      OPTIONS,
    );
    expect(found.independent).toBeLessThan(8);
    expect(found.coverageFactor).toBeGreaterThan(2.3);
  });
});

test('exchanging the two changes the sign and nothing else', () => {
  const normal = seededNormal(32);
  const [one, other] = [0, 0].map(() => series(20, 24, 0.1, () => 18 + 0.2 * normal()));
  const [there, back] = [
    fieldCheck(one ?? [], other ?? [], OPTIONS),
    fieldCheck(other ?? [], one ?? [], OPTIONS),
  ];
  expect(there.difference).toBeCloseTo(-back.difference, 12);
  expect(there.expandedUncertainty).toBeCloseTo(back.expandedUncertainty, 12);
});

test('a larger bound never turns agreement into doubt, nor doubt into disagreement', () => {
  const ORDER = ['disagrees', 'undecided', 'agrees'];
  fc.assert(
    fc.property(
      fc.double({ min: -3, max: 3, noNaN: true }),
      fc.double({ min: 0.1, max: 2, noNaN: true }),
      fc.double({ min: 0.01, max: 1, noNaN: true }),
      (off, bound, more) => {
        const at = (limit: number) =>
          ORDER.indexOf(fieldCheck(steady(18 + off), steady(18), { ...OPTIONS, bound: limit }).verdict);
        expect(at(bound + more)).toBeGreaterThanOrEqual(at(bound));
      },
    ),
    { seed: 33, numRuns: 100 },
  );
});

describe('misuse', () => {
  const check = (
    probe: readonly FieldSample[],
    reference = steady(18),
    options: Partial<FieldCheckOptions> = {},
  ) => fieldCheck(probe, reference, { ...OPTIONS, ...options });
  const first = (changes: Partial<FieldSample>) =>
    check(steady(18).map((sample, at) => (at === 0 ? { ...sample, ...changes } : sample)));

  test('too few pairs, and too short a time, each said', () => {
    expect(codeOf(() => check(steady(18).slice(0, 23)))).toBe('TOO_FEW_SAMPLES');
    expect(() => check(steady(18).slice(0, 23))).toThrow('expected at least 24 readings of the probe');
    expect(() =>
      check(
        series(10, 11, 0.1, () => 18),
        series(10, 24, 0.1, () => 18),
      ),
    ).toThrow('expected at least 12 h side by side, got 11.0 h');
    expect(codeOf(() => check([], []))).toBe('TOO_FEW_SAMPLES');
  });

  test('series that do not overlap', () => {
    const later = steady(18).map((sample) => ({ ...sample, time: sample.time + 48 * 60 * MINUTE_ms }));
    expect(() => check(later)).toThrow('got 0');
  });

  test('a reference every two hours, unless that gap is allowed', () => {
    const sparse = series(120, 24, 0.1, () => 18);
    expect(codeOf(() => check(steady(18), sparse))).toBe('TOO_FEW_SAMPLES');
    expect(check(steady(18), sparse, { gapMost_ms: 120 * MINUTE_ms }).pairs).toBe(73);
  });

  test('out of order, doubled, too long', () => {
    expect(codeOf(() => check([...steady(18)].reverse()))).toBe('BAD_REQUEST');
    expect(codeOf(() => check(steady(18), [...steady(18), ...steady(18)]))).toBe('BAD_REQUEST');
    expect(codeOf(() => check(series(1, 834, 0.1, () => 18)))).toBe('LIMIT_EXCEEDED');
  });

  refuses('value', (value) => first({ value }), [-1001, 1001]);
  refuses('time', (time) => first({ time }), [-1]);
  refuses('uncertainty', (standardUncertainty) => first({ standardUncertainty }), [0, -0.1, 51]);
  refuses('bound', (bound) => check(steady(18), steady(18), { bound }), [0, -1, 101]);
  refuses('place', (placeUncertainty) => check(steady(18), steady(18), { placeUncertainty }), [-0.1, 51]);
  refuses('gap', (gapMost_ms) => check(steady(18), steady(18), { gapMost_ms }), [0, 6 * 3_600_000 + 1]);
});
