import { describe, expect, test } from 'vitest';
import { settling } from '../../../services/core/calibration/settling.js';
import { remaining_s } from '../../../services/core/calibration/settling-time.js';
import { seededNormal } from '../watch/sequential/seeded-normal.js';
import { approach, HUMIDITY, readings, roundedTo, settledAfter_s, TEMPERATURE } from './bench-readings.js';

describe('without noise, by hand', () => {
  // 25 - 8 exp(-t / 100 s) after 400 s: gap 0.1465 °C, 0.0879 °C/min; 100 s * ln(2 * 0.0879 / 0.01) + 150 s.
  const curve = readings(10, 400 / 60, approach(25, 8, 100));

  test('436.7 s', () => {
    // The grid's nearest constant is within 2.5 %.
    expect(Math.abs((remaining_s(curve, 0.01, 300) ?? Number.NaN) - 436.7)).toBeLessThan(12);
  });

  test('less where more is allowed, nothing where it is slow enough already', () => {
    const one = remaining_s(curve, 0.01, 300) ?? Number.NaN;
    const other = remaining_s(curve, 0.02, 300) ?? Number.NaN;
    expect(Math.abs(one - other - 100 * Math.log(2))).toBeLessThan(2);
    expect(remaining_s(curve, 10, 300)).toBe(0);
  });

  test('more than two hours, fewer than eight readings, none: unknown', () => {
    expect(remaining_s(readings(60, 30, approach(25, 60, 1500)), 1e-4, 300)).toBeUndefined();
    expect(remaining_s(curve.slice(0, 7), 0.01, 300)).toBeUndefined();
    expect(remaining_s(curve.slice(0, 8), 0.01, 300)).toBeDefined();
    expect(remaining_s([], 0.01, 300)).toBeUndefined();
  });

  test('the same value throughout: unknown', () => {
    expect(
      remaining_s(
        readings(10, 5, () => 25),
        0.01,
        300,
      ),
    ).toBeUndefined();
  });
});

describe('a probe that closes in on its bath', () => {
  const CONSTANT_s = 120;
  const normal = seededNormal(25);
  /** Half the limit that is left to the uncertainty is 83 s of this curve; with what the noise took of it. */
  const ESTIMATE_s = 60;
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

  test.each([4, 6, 8, 10, 12, 14])('after %d min it says how long, within a minute', (minutes) => {
    const { settled, remaining_s, reason } = settling(all.slice(0, minutes * 6 + 1), TEMPERATURE);
    expect(settled).toBe(false);
    if (minutes < 5) {
      expect(reason).toContain('Not judged yet');
      return;
    }
    expect(Math.abs((remaining_s ?? Number.NaN) + minutes * 60 - settledAfter_s(all))).toBeLessThan(
      ESTIMATE_s,
    );
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

test('a curve that is too short to tell its time constant is seldom given one', () => {
  // 8 min of a constant of 10 min in some noise: 1 to 60 min of it would do about as well.
  const normal = seededNormal(27);
  let told = 0;
  for (let run = 0; run < 100; run += 1) {
    const short = readings(60, 7, (s) => approach(25, 3, 600)(s) + 0.05 * normal());
    if (settling(short, TEMPERATURE).remaining_s !== undefined) told += 1;
  }
  expect(told).toBeLessThanOrEqual(15);
});

describe('a jump faster than any probe closes in is of unknown length', () => {
  test.each([10, 60])('a reading every %d s', (every_s) => {
    const normal = seededNormal(28);
    const jumped = readings(every_s, 10, (s) => (s === 0 ? 20 : 25) + 0.02 * normal());
    expect(remaining_s(jumped, 0.01, 300)).toBeUndefined();
  });
});
