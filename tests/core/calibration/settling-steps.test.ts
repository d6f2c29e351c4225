/** Probes of coarse steps, and probes with too few readings: what is said while they are waited for. */
import { describe, expect, test } from 'vitest';
import { SOAK_LEAST_s, settling } from '../../../services/core/calibration/settling.js';
import { codeOf } from '../physics/refused.js';
import { approach, HUMIDITY, readings, roundedTo, START, TEMPERATURE } from './bench-readings.js';

const BATH = { since: START, soakLeast_s: SOAK_LEAST_s.bath };

/** In steps of half a degree, at rest at 25 °C from 3 min on. */
const coarse = readings(10, 20, (s) => (s < 180 ? roundedTo(0.5, 20 + (5 * s) / 200) : 25));
const at = (minutes: number, all = coarse) => settling(all.slice(0, minutes * 6 + 1), TEMPERATURE, BATH);

describe('steps of half a degree', () => {
  // The last change is at 180 s; ten minutes of stillness (as of a usual step of 0.0625) end at 780 s.
  test.each([
    [8, 300],
    [9, 240],
    [11, 120],
    [12, 60],
  ])('after %d min are told the time that is left, and it runs down', (minutes, left_s) => {
    const { settled, remaining_s, reason, stillness } = at(minutes);
    expect({ settled, remaining_s }).toEqual({ settled: false, remaining_s: left_s });
    expect(stillness).toEqual({ step: 0.5, isKnown: true, needs_min: 10, left_s });
    expect(reason).toBe(
      `Not settled: steps of 0.5 °C: needs 10 min of stillness; about ${left_s / 60} min more.`,
    );
  });

  test('settle then, with half of their step as what they may be off', () => {
    const { settled, window } = at(13);
    expect(settled).toBe(true);
    expect(window).toMatchObject({ mean: 25, step: 0.5, stepFrom: 'seen' });
    // By hand: 0.5 / sqrt(12) = 0.1443; nothing else, as the value stood still.
    expect(window?.indicatedUncertainty).toBeCloseTo(0.5 / Math.sqrt(12), 9);
  });

  test('wait anew from each change on', () => {
    const jumping = readings(10, 20, (s) => (s < 480 ? 25 : 24.5));
    expect(at(8.5, jumping).stillness).toMatchObject({ step: 0.5, left_s: 570 });
    expect(at(13, jumping).remaining_s).toBe(300);
  });

  test('are reckoned with as well where somebody said them', () => {
    const still = readings(10, 12, () => 25);
    const early = settling(still.slice(0, 37), TEMPERATURE, { ...BATH, resolution: 0.5 });
    expect(early).toMatchObject({
      settled: false,
      remaining_s: 240,
      stillness: { step: 0.5, isKnown: true },
    });
    const { settled, window } = settling(still, TEMPERATURE, { ...BATH, resolution: 0.5 });
    expect({ settled, step: window?.step, from: window?.stepFrom }).toEqual({
      ...{ settled: true, step: 0.5, from: 'given' },
    });
  });
});

describe('the same value from the first reading on', () => {
  const still = readings(10, 12, () => 25);

  test('needs ten minutes, as the step may be a usual one, and says so', () => {
    const { reason, remaining_s } = at(6, still);
    expect(remaining_s).toBe(240);
    expect(reason).toBe(
      'Not settled: steps not seen yet, 0.0625 °C taken: needs 10 min of stillness; about 4 min more.',
    );
    expect(at(10, still)).toMatchObject({ settled: true, window: { step: 0.0625, stepFrom: 'usual' } });
  });

  test('every ten minutes needs five of them', () => {
    const slow = readings(600, 60, () => 25);
    expect(settling(slow.slice(0, 4), TEMPERATURE, BATH).earliest).toEqual({ needs_min: 40, left_s: 600 });
    expect(settling(slow.slice(0, 5), TEMPERATURE, BATH).settled).toBe(true);
  });
});

describe('steps of a tenth', () => {
  test('to and fro wait for ten minutes in the bath', () => {
    const toggling = readings(10, 12, (s) => ((s / 10) % 3 === 0 ? 25.1 : 25));
    const { stillness, remaining_s } = at(6, toggling);
    expect(stillness).toMatchObject({ step: 0.1, needs_min: 10 });
    expect(remaining_s).toBe(240);
    expect(at(10, toggling).settled).toBe(true);
  });

  test('of a humidity wait for nothing', () => {
    const damp = readings(10, 6, (s) => ((s / 10) % 2 === 0 ? 75.3 : 75.2));
    expect(settling(damp, HUMIDITY, BATH)).toMatchObject({ settled: true, window: { step: 0.1 } });
  });
});

test('a fine probe that drifts or scatters is not said to wait for its steps', () => {
  const drifting = readings(10, 12, (s) => 25 + (0.02 * s) / 60);
  const found = settling(drifting, TEMPERATURE, BATH);
  expect(found.settled).toBe(false);
  expect(found.stillness).toBeUndefined();
  const closing = settling(
    readings(10, 6, (s) => roundedTo(0.01, approach(25, 5, 120)(s))),
    TEMPERATURE,
    BATH,
  );
  expect(closing.stillness).toBeUndefined();
});

test('a bound that is just too large does not read like the limit', () => {
  // 0.01001 a minute and no noise: the bound is 0.1001 in ten minutes, and its step too fine to count.
  const drifting = readings(10, 20, (s) => 25 + (0.01001 * s) / 60);
  const { reason } = settling(drifting, TEMPERATURE, { resolution: 1e-5 });
  expect(reason).toContain('may still move by 0.1001 °C in 10 min, more than 0.1 °C in 10 min');
});

describe('too few readings', () => {
  const steady = readings(10, 25, () => 20);

  test('say what the probe shows and when it can be judged', () => {
    const { shown, earliest } = settling(steady.slice(0, 13), TEMPERATURE, BATH);
    expect(shown).toEqual({ count: 13, latest: { time: START + 120_000, value: 20 } });
    expect(earliest).toEqual({ needs_min: 5, left_s: 180 });
    const salt = { since: START, soakLeast_s: SOAK_LEAST_s.salt };
    expect(settling(steady.slice(0, 13), HUMIDITY, salt).earliest).toEqual({ needs_min: 20, left_s: 1080 });
  });

  test('of a probe that is silent yet', () => {
    const found = settling([], TEMPERATURE, BATH);
    expect(found.shown).toBeUndefined();
    expect(found.earliest).toEqual({ needs_min: 5, left_s: 300 });
  });

  test('that come too seldom are never enough', () => {
    const hourly = readings(3600, 240, () => 20);
    expect(settling(hourly, TEMPERATURE, BATH).earliest).toBeUndefined();
    expect(codeOf(() => settling([...hourly].reverse(), TEMPERATURE, BATH))).toBe('BAD_REQUEST');
  });
});
