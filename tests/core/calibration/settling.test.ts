import { describe, expect, test } from 'vitest';
import { SETTLING_RULES, SOAK_LEAST_s, settling } from '../../../services/core/calibration/settling.js';
import type { BenchReading } from '../../../services/core/calibration/settling-window.js';
import { codeOf, refuses } from '../physics/refused.js';
import { seededNormal } from '../watch/sequential/seeded-normal.js';

const START = 1_700_000_000_000;
const { temperature: TEMPERATURE, humidity: HUMIDITY } = SETTLING_RULES;

/** Readings every `every_s` for `minutes`, frozen. `at` gets seconds since the start. */
function readings(every_s: number, minutes: number, at: (s: number) => number): readonly BenchReading[] {
  const count = Math.floor((60 * minutes) / every_s) + 1;
  return Object.freeze(
    Array.from({ length: count }, (_, step) =>
      Object.freeze({ time: START + step * every_s * 1000, value: at(step * every_s) }),
    ),
  );
}

const approach = (end: number, gap: number, constant_s: number) => (s: number) =>
  end - gap * Math.exp(-s / constant_s);

const roundedTo = (step: number, value: number): number => Math.round(value / step) * step;

/** s from the start at which the rule first says settled, judged at each reading. */
function settledAfter_s(all: readonly BenchReading[], rule = TEMPERATURE): number {
  const count = all.findIndex((_, at) => settling(all.slice(0, at + 1), rule).settled);
  return ((all[count]?.time ?? Number.NaN) - START) / 1000;
}

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
    const hidden = readings(10, 5, (s) => roundedTo(0.0625, 24.99 + (0.011 * s) / 60));
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

describe('a probe that closes in on its bath', () => {
  const CONSTANT_s = 120;
  const normal = seededNormal(25);
  const curve = approach(25, 20, CONSTANT_s);
  const all = readings(10, 40, (s) => roundedTo(0.01, curve(s) + 0.01 * normal()));

  test('settles when what is left of its way is within its stated uncertainty, and not before', () => {
    const after_s = settledAfter_s(all);
    // 20 °C exp(-t / 120 s) has a slope of 0.01 °C/min at 829 s; a window reaches 5 min back.
    expect(after_s).toBeGreaterThan(829);
    expect(after_s).toBeLessThan(1250);
    const { window } = settling(all.slice(0, after_s / 10 + 1), TEMPERATURE);
    expect(Math.abs((window?.mean ?? 0) - 25)).toBeLessThan(2 * (window?.indicatedUncertainty ?? 0));
  });

  test.each([4, 6, 8, 10, 12, 14])('after %d min it says how long, within 3 min', (minutes) => {
    const { settled, remaining_s, reason } = settling(all.slice(0, minutes * 6 + 1), TEMPERATURE);
    expect(settled).toBe(false);
    if (minutes < 5) {
      expect(reason).toContain('Not judged yet');
      return;
    }
    expect(Math.abs((remaining_s ?? Number.NaN) + minutes * 60 - settledAfter_s(all))).toBeLessThan(180);
    expect(reason).toMatch(/about \d+ min more\.$/);
  });

  test('one wild reading does not spoil the estimate', () => {
    const wild = all.slice(0, 49).map((reading, at) => (at === 20 ? { ...reading, value: 60 } : reading));
    const clean = settling(all.slice(0, 49), TEMPERATURE).remaining_s ?? Number.NaN;
    expect(Math.abs((settling(wild, TEMPERATURE).remaining_s ?? Number.NaN) - clean)).toBeLessThan(60);
  });

  test('cooling is told like warming', () => {
    const cooling = all.map(({ time, value }) => ({ time, value: 50 - value }));
    expect(settling(cooling.slice(0, 49), TEMPERATURE).remaining_s).toBeCloseTo(
      settling(all.slice(0, 49), TEMPERATURE).remaining_s ?? Number.NaN,
      6,
    );
  });

  test('over salt: 7 min of time constant, a reading a minute, within 6 min of what comes', () => {
    const noise = seededNormal(26);
    const damp = readings(60, 90, (s) => roundedTo(0.1, approach(75.5, 25, 420)(s) + 0.05 * noise()));
    const after_s = settledAfter_s(damp, HUMIDITY);
    const { remaining_s } = settling(damp.slice(0, 21), HUMIDITY);
    expect(Math.abs((remaining_s ?? Number.NaN) + 1200 - after_s)).toBeLessThan(360);
  });
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

  test('what was read before the bath does not count', () => {
    const { settled, window, reason } = settling(steady, HUMIDITY, { ...salt, since: START + 24 * 60_000 });
    expect({ settled, window }).toEqual({ settled: false });
    expect(reason).toContain('got 7 over 1 min; about 19 min more at least');
  });

  test('nothing read at all', () => {
    expect(settling([], HUMIDITY, salt).reason).toContain('got 0 over 0 min; about 20 min more at least');
    expect(settling([], HUMIDITY)).toEqual({ settled: false, reason: expect.stringContaining('got 0') });
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
