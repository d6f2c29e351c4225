import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { thresholdsInForce } from '../../../../services/core/model/threshold.js';
import { DAY_ms, HOUR_ms } from '../../../../services/core/model/time.js';
import {
  DEFAULT_SETTINGS,
  inspectThermalTime,
  nextLook,
  startThermalTime,
  type ThermalTimeState,
  thermalTimeSettings,
} from '../../../../services/core/watch/thermal-time/index.js';
import { dayOf, FILLED, keptAt, timeOf } from './warm-bed.js';

const SEED = 20260504;
const outOfDomain = expect.objectContaining({ code: 'OUT_OF_DOMAIN' });

/** The look as a day and a reason. */
const lookOf = (state: ThermalTimeState): [number, string] => {
  const { dueAt, because } = nextLook(state);
  return [Number(dayOf(dueAt).toFixed(1)), because];
};

/** Looks of a keeper who comes in the hour in which one is due. */
function looksOver(days: number, temperature_C: number, repacks = false): [number, string][] {
  let state = startThermalTime(FILLED);
  const looks: [number, string][] = [];
  for (let hour = 0; hour < days * 24; hour += 1) {
    state = keptAt(1, temperature_C, state);
    if (!state.due) continue;
    looks.push(lookOf(state));
    state = inspectThermalTime(state, { at: FILLED + (hour + 1) * HOUR_ms, opened: true, repacked: repacks });
  }
  return looks;
}

describe('the next look', () => {
  test('is two weeks after filling in a bed that is cool, cold, unknown, or not begun', () => {
    for (const state of [keptAt(48, 18), keptAt(48, 5), keptAt(48, undefined), startThermalTime(FILLED)])
      expect(lookOf(state)).toEqual([14, 'two-weeks']);
  });

  test('is sooner in warmth: 12.3 days at 25 °C, 9.8 at 28 °C', () => {
    expect(lookOf(keptAt(48, 23))).toEqual([14, 'two-weeks']);
    expect(lookOf(keptAt(48, 25))).toEqual([12.3, 'warmth']);
    expect(lookOf(keptAt(48, 28))).toEqual([9.8, 'warmth']);
  });

  test('at 28 °C falls before sprouts (day 19.5) and before the first adults (20 days at 27 °C)', () => {
    const looks = looksOver(45, 28);
    expect(looks).toEqual([
      [9.8, 'warmth'],
      [18.1, 'weevils'],
      [25.7, 'weevils'],
      [35.5, 'warmth'],
    ]);
  });

  test('falls on the day of sprouting where nothing else comes before it', () => {
    // 285 degree-days at 20 °C: day 43.2, the last of the two-weekly looks before it on day 28.
    const late = inspectThermalTime(keptAt(30 * 24, 20), { at: timeOf(30), opened: true, repacked: false });
    expect(lookOf(late)).toEqual([43.2, 'sprouting']);
  });

  test('a look in the last tenth before sprouting was that look', () => {
    // 0.9 of 285 at 20 °C: day 38.9.
    const look = (day: number): [number, string] =>
      lookOf(inspectThermalTime(keptAt(day * 24, 20), { at: timeOf(day), opened: true, repacked: false }));
    expect(look(38)).toEqual([43.2, 'sprouting']);
    // Then C. brunneus: 0.8 of 545 at 9 degrees a day.
    expect(look(39)).toEqual([48.4, 'weevils']);
  });

  test('repacking puts sprouting off, not the weevils', () => {
    const looked = (repacked: boolean): [number, string] =>
      lookOf(inspectThermalTime(keptAt(30 * 24, 20), { at: timeOf(30), opened: true, repacked }));
    expect(looked(false)).toEqual([43.2, 'sprouting']);
    expect(looked(true)).toEqual([44, 'two-weeks']);
    // C. puncticollis: 0.8 of 385 at 9 degrees a day is day 34.2.
    const earlier = inspectThermalTime(keptAt(22 * 24, 20), { at: timeOf(22), opened: true, repacked: true });
    expect(lookOf(earlier)).toEqual([34.2, 'weevils']);
  });

  test('that has come due stays as it was until the bed is opened', () => {
    const overdue = keptAt(24 * 20, 28);
    expect(lookOf(overdue)).toEqual([9.8, 'warmth']);
    expect(nextLook(keptAt(24, undefined, overdue))).toEqual(nextLook(overdue));
    const peeked = inspectThermalTime(overdue, { at: timeOf(20), opened: false, repacked: false });
    expect(lookOf(peeked)).toEqual([9.8, 'warmth']);
    const opened = inspectThermalTime(overdue, { at: timeOf(20), opened: true, repacked: false });
    expect(opened.due).toBe(null);
    expect(nextLook(opened).dueAt).toBeGreaterThan(timeOf(20));
  });

  test('a silent probe does not put it off', () => {
    const silent = keptAt(24 * 30, undefined, keptAt(48, 28));
    expect(lookOf(silent)).toEqual([9.8, 'warmth']);
  });

  test('a site may ask for it sooner, not later', () => {
    const weekly = thermalTimeSettings(thresholdsInForce({ inspect_every_days: 7 }));
    expect(nextLook(keptAt(48, 18), weekly)).toEqual({ dueAt: timeOf(7), because: 'two-weeks' });
    for (const inspectEvery_days of [15, 0, Number.NaN])
      expect(() => nextLook(keptAt(48, 18), { ...DEFAULT_SETTINGS, inspectEvery_days })).toThrow(outOfDomain);
  });
});

describe('whatever the weather', () => {
  test('no look comes later than 14 days after the last, and none before it', () => {
    const span = fc.record({
      hours: fc.integer({ min: 1, max: 200 }),
      temperature_C: fc.option(fc.double({ min: -10, max: 45, noNaN: true }), { nil: undefined }),
      opened: fc.boolean(),
      repacked: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(span, { minLength: 1, maxLength: 8 }), (spans) => {
        let state = startThermalTime(FILLED);
        for (const { hours, temperature_C, ...inspection } of spans) {
          state = keptAt(hours, temperature_C, state);
          const { dueAt } = nextLook(state);
          expect(dueAt - state.lookedAt).toBeLessThanOrEqual(14 * DAY_ms);
          expect(dueAt).toBeGreaterThanOrEqual(state.lookedAt);
          state = inspectThermalTime(state, { at: (state.hour ?? FILLED) + HOUR_ms, ...inspection });
        }
      }),
      { seed: SEED, numRuns: 60 },
    );
  });

  test.each([15, 20, 24, 26, 28, 30, 33])(
    'at %d °C looks are at least 2 days apart, and not past 14',
    (t) => {
      const days = [0, ...looksOver(120, t).map(([day]) => day)];
      const spans = days.slice(1).map((day, at) => day - (days[at] ?? 0));
      expect(Math.min(...spans)).toBeGreaterThanOrEqual(2);
      expect(Math.max(...spans)).toBeLessThanOrEqual(14.1);
    },
  );

  test.each([20, 24, 28, 32])('at %d °C one falls in the last half of the time that sprouts need', (t) => {
    const sprouts = 285 / (t - 13.4);
    const looks = looksOver(60, t).map(([day]) => day);
    expect(looks.some((day) => day >= sprouts / 2 && day <= sprouts + 0.1)).toBe(true);
  });
});
