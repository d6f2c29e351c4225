import { describe, expect, test } from 'vitest';
import { SOAK_LEAST_s, settling } from '../../../services/core/calibration/settling.js';
import type { BenchReading } from '../../../services/core/calibration/settling-window.js';
import { codeOf, refuses } from '../physics/refused.js';
import { seededNormal } from '../watch/sequential/seeded-normal.js';
import { approach, HUMIDITY, readings, roundedTo, START, TEMPERATURE } from './bench-readings.js';

describe('noise about a steady value', () => {
  // Limits by seed; the first are what the windows of 5, 10 and 20 minutes can give at that pace.
  test.each([
    ['every 10 s, 20 min, 0.02 °C', 10, 20, 0.02, TEMPERATURE, 1],
    ['every 60 s, 20 min, 0.02 °C', 60, 20, 0.02, TEMPERATURE, 3],
    ['every 10 min, 40 min, 0.02 °C', 600, 40, 0.02, TEMPERATURE, 1],
    ['every 10 s, 20 min, 0.1 %RH', 10, 20, 0.1, HUMIDITY, 1],
    ['every 60 s, 20 min, 0.1 %RH', 60, 20, 0.1, HUMIDITY, 5],
  ] as const)('%s: not settled at most %d of 100 times', (_, every_s, minutes, sigma, rule, most) => {
    const normal = seededNormal(21);
    let moving = 0;
    for (let run = 0; run < 100; run += 1)
      if (
        !settling(
          readings(every_s, minutes, () => 25 + sigma * normal()),
          rule,
        ).settled
      )
        moving += 1;
    expect(moving).toBeLessThanOrEqual(most);
  });

  test('mean and its uncertainty: within twice 95 % of the time at least', () => {
    const normal = seededNormal(22);
    let within = 0;
    for (let run = 0; run < 300; run += 1) {
      const { window } = settling(
        readings(10, 10, () => 25 + 0.05 * normal()),
        TEMPERATURE,
      );
      if (Math.abs((window?.mean ?? 0) - 25) <= 2 * (window?.indicatedUncertainty ?? 0)) within += 1;
    }
    expect(within).toBeGreaterThanOrEqual(285);
  });

  test('too much of it is never settled, and said so', () => {
    const normal = seededNormal(23);
    const { settled, reason } = settling(
      readings(1, 20, () => 25 + 0.4 * normal()),
      TEMPERATURE,
    );
    expect(settled).toBe(false);
    expect(reason).toContain('scatters by');
  });
});

describe('a steady drift', () => {
  test.each([0.012, 0.02, 0.1])(
    'of %d °C/min does not settle in 95 of 100 runs, of unknown length',
    (drift) => {
      const normal = seededNormal(24);
      let settled = 0;
      let told = 0;
      for (let run = 0; run < 100; run += 1) {
        const found = settling(
          readings(10, 30, (s) => 25 + (drift * s) / 60 + 0.02 * normal()),
          TEMPERATURE,
        );
        if (found.settled) settled += 1;
        if (found.remaining_s !== undefined) told += 1;
      }
      expect(settled).toBeLessThanOrEqual(5);
      expect(told).toBeLessThanOrEqual(5);
    },
  );

  test('hidden under the steps of a coarse sensor does not settle as long as it could be there', () => {
    const hidden = readings(10, 5, (s) => roundedTo(0.0625, 24.97 + (0.011 * s) / 60));
    expect(new Set(hidden.map(({ value }) => value)).size).toBe(1);
    expect(settling(hidden, TEMPERATURE).settled).toBe(false);
  });
});

describe('the same value over and over', () => {
  test('settles with no scatter, and the coarsest step as its uncertainty, after 10 min', () => {
    const { settled, window } = settling(
      readings(10, 12, () => 25),
      TEMPERATURE,
    );
    expect(settled).toBe(true);
    expect(window).toMatchObject({ mean: 25, scatter: 0, slopePerMinute: 0, count: 61 });
    expect(window?.indicatedUncertainty).toBeCloseTo(0.0625 / Math.sqrt(12), 12);
  });

  test('after 5 min where the step is known to be fine', () => {
    const found = settling(
      readings(10, 5, () => 25),
      TEMPERATURE,
      { resolution: 0.01 },
    );
    expect(found.settled).toBe(true);
    expect(found.window?.indicatedUncertainty).toBeCloseTo(0.01 / Math.sqrt(12), 12);
    expect(found.reason).toBe('Settled: 31 readings over 5 min, moving by less than 0.017 °C in 10 min.');
  });
});

test('uncertainty and bound by hand: 20.00 and 20.02 in turn, every two minutes', () => {
  // Mean 20.008, no slope; squares 0.00048 over 3: scatter 0.0126491; times -4 -2 0 2 4 min: 40, slope 0.002.
  // Left: 0.002 * (4 + 3 min) = 0.014; of the mean 0.0056569; of the step 0.02 / sqrt(12) = 0.0057735.
  // Bound: 3.182446 * hypot(0.002, 0.02 / sqrt(6) / 8) = 0.0071533 (3 degrees of freedom, JCGM 100 table G.2: 3.18).
  const { window } = settling(
    readings(120, 8, (s) => ((s / 120) % 2 === 1 ? 20.02 : 20)),
    TEMPERATURE,
  );
  expect(window?.scatter).toBeCloseTo(0.0126491, 7);
  expect(window?.indicatedUncertainty).toBeCloseTo(Math.hypot(0.014, 0.0056569, 0.0057735), 6);
  expect(window?.slopeBound_perMinute).toBeCloseTo(3.182446 * Math.hypot(0.002, 0.0010206), 7);
});

describe('a step in the middle', () => {
  test('is not settled until it has left the window, and its length is unknown', () => {
    const stepped = readings(10, 30, (s) => (s < 900 ? 20 : 25));
    const at = (minutes: number) =>
      settling(stepped.slice(0, minutes * 6 + 1), TEMPERATURE, { resolution: 0.01 });
    expect(at(14).settled).toBe(true);
    expect(at(17)).toMatchObject({ settled: false });
    expect(at(17).remaining_s).toBeUndefined();
    expect(at(17).reason).toContain('unknown');
    expect(at(21).settled).toBe(true);
  });
});

describe('pace', () => {
  test.each([
    [1, 5, 301],
    [10, 5, 31],
    [60, 5, 6],
    [120, 8, 5],
    [600, 40, 5],
  ])('a reading every %d s is judged after %d min on %d readings', (every_s, minutes, count) => {
    const steady = readings(every_s, minutes, () => 25);
    const { settled, window } = settling(steady, TEMPERATURE, { resolution: 0.01 });
    expect(settled).toBe(true);
    expect(window).toMatchObject({ count, from: START, to: START + minutes * 60_000 });
    expect(settling(steady.slice(0, -1), TEMPERATURE, { resolution: 0.01 }).settled).toBe(false);
  });

  test('a reading every hour is never judged', () => {
    const { settled, window, reason } = settling(
      readings(3600, 600, () => 25),
      TEMPERATURE,
    );
    expect({ settled, window }).toEqual({ settled: false });
    expect(reason).toContain('expected at least 5 readings over 5 to 120 min');
  });
});

describe('soaking', () => {
  const steady = readings(10, 25, () => 75.3);
  const salt = { since: START, soakLeast_s: SOAK_LEAST_s.salt, resolution: 0.01 };

  test('a quiet probe waits for the jar: 20 min over salt', () => {
    const early = settling(steady.slice(0, 61), HUMIDITY, salt);
    expect(early).toMatchObject({ settled: false, remaining_s: 600 });
    expect(early.reason).toBe('Quiet already, but not long enough in this bath: about 10 min more.');
    expect(settling(steady, HUMIDITY, salt).settled).toBe(true);
  });

  test('half a minute is said as one', () => {
    const late = settling(steady.slice(0, 118), HUMIDITY, salt);
    expect(late.remaining_s).toBe(30);
    expect(late.reason).toContain('about 1 min more');
  });

  test('what was read before the bath does not count', () => {
    const { settled, window, reason } = settling(steady, HUMIDITY, { ...salt, since: START + 24 * 60_000 });
    expect({ settled, window }).toEqual({ settled: false });
    expect(reason).toContain('got 7 over 1 min; about 19 min more at least');
  });

  test('nothing read at all', () => {
    expect(settling([], HUMIDITY, salt).reason).toContain('got 0 over 0 min; about 20 min more at least');
    expect(settling([], HUMIDITY)).toEqual({
      ...{ settled: false, reason: expect.stringContaining('got 0') },
      earliest: { needs_min: 5, left_s: 300 },
    });
  });

  test('a probe that moves waits for the longer of the two', () => {
    const warming = readings(10, 8, approach(25, 20, 60));
    const { remaining_s } = settling(warming, TEMPERATURE, { since: START, soakLeast_s: 1800 });
    expect(remaining_s).toBe(1800 - 480);
  });
});

describe('misuse', () => {
  const with_ = (changes: Partial<BenchReading>) =>
    settling([...readings(10, 5, () => 25), { time: START + 400_000, value: 25, ...changes }], TEMPERATURE);
  refuses('value', (value) => with_({ value }), [-1001, 1001]);
  refuses('time', (time) => with_({ time }), [-1]);
  refuses('start', (since) => settling([], TEMPERATURE, { since }), [-1]);
  refuses('soak', (soakLeast_s) => settling([], TEMPERATURE, { since: 0, soakLeast_s }), [-1, 86_401]);
  refuses('resolution', (resolution) => settling([], TEMPERATURE, { resolution }), [-0.1, 11]);

  test('readings out of order, and twice the same time', () => {
    expect(codeOf(() => with_({ time: START }))).toBe('BAD_REQUEST');
    expect(codeOf(() => with_({ time: START + 300_000 }))).toBe('BAD_REQUEST');
    expect(codeOf(() => settling([...readings(10, 5, () => 25)].reverse(), TEMPERATURE))).toBe('BAD_REQUEST');
  });

  test('more than 10,000 readings', () => {
    expect(
      codeOf(() =>
        settling(
          readings(1, 167, () => 25),
          TEMPERATURE,
        ),
      ),
    ).toBe('LIMIT_EXCEEDED');
  });
});
