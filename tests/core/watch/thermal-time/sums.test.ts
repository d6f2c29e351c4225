import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { thresholdsInForce } from '../../../../services/core/model/threshold.js';
import { DAY_ms, HOUR_ms } from '../../../../services/core/model/time.js';
import {
  BRIDGE_h,
  DEFAULT_SETTINGS,
  type Development,
  type DevelopmentName,
  daysToCome,
  degreesAbove,
  inspectThermalTime,
  type Outlook,
  outlook,
  startThermalTime,
  stepThermalTime,
  type ThermalTimeState,
  thermalTimeSettings,
  thermalTimeStateSchema,
} from '../../../../services/core/watch/thermal-time/index.js';
import { dayOf, FILLED, keptAt, timeOf } from './warm-bed.js';

const SEED = 20260504;
const outOfDomain = expect.objectContaining({ code: 'OUT_OF_DOMAIN' });
const named = (name: DevelopmentName): Development =>
  DEFAULT_SETTINGS.developments.find((each) => each.name === name) as Development;
const seen = (state: ThermalTimeState, name: DevelopmentName): Outlook =>
  outlook(state, DEFAULT_SETTINGS).find(({ development }) => development.name === name) as Outlook;

describe('degree-days', () => {
  test('ten days at 23.4 °C, by hand: sprouting 100, C. puncticollis 124, C. formicarius 94', () => {
    const { sums } = keptAt(240, 23.4);
    expect(sums.sprouting.sum_C_days).toBeCloseTo(100, 9);
    expect(sums['cylas-puncticollis'].sum_C_days).toBeCloseTo(124, 9);
    expect(sums['cylas-formicarius'].sum_C_days).toBeCloseTo(94, 9);
  });

  test('hours are counted, not daily means: a day half at 10 and half at 20 °C gives 3.3 of sprouting', () => {
    const halves = (hour: number): number => ((hour - FILLED) / HOUR_ms < 12 ? 10 : 20);
    expect(keptAt(24, halves).sums.sprouting.sum_C_days).toBeCloseTo(3.3, 9);
  });

  test('nothing develops at or below the base', () => {
    expect(keptAt(240, 11).sums['cylas-brunneus'].sum_C_days).toBe(0);
    expect(keptAt(240, -5).sums.sprouting.sum_C_days).toBe(0);
  });

  test('C. brunneus does not develop at or above 35 °C, just below it does', () => {
    expect(degreesAbove(named('cylas-brunneus'), 35)).toBe(0);
    expect(degreesAbove(named('cylas-brunneus'), 34.9)).toBeCloseTo(23.9, 12);
    expect(keptAt(48, 36).sums['cylas-brunneus'].sum_C_days).toBe(0);
    expect(keptAt(48, 36).sums['cylas-puncticollis'].sum_C_days).toBeCloseTo(50, 9);
  });

  test('sums never fall', () => {
    const temperature = fc.option(fc.double({ min: -10, max: 45, noNaN: true }), { nil: undefined });
    fc.assert(
      fc.property(fc.array(temperature, { maxLength: 150 }), (hours) => {
        let state = startThermalTime(FILLED);
        hours.forEach((temperature_C, at) => {
          const next = stepThermalTime(state, temperature_C, FILLED + at * HOUR_ms);
          for (const { name } of DEFAULT_SETTINGS.developments)
            expect(next.sums[name].sum_C_days).toBeGreaterThanOrEqual(state.sums[name].sum_C_days);
          state = next;
        });
      }),
      { seed: SEED },
    );
  });
});

describe('a gap', () => {
  test('is bridged by the last daily mean, not by the last hour', () => {
    // The last day then holds 22 hours at 23.4 and one at 40 °C.
    const warm = keptAt(24, 23.4);
    const spike = keptAt(1, 40, warm);
    const bridged = keptAt(1, undefined, spike).sums.sprouting.sum_C_days;
    expect(bridged - spike.sums.sprouting.sum_C_days).toBeCloseTo(((22 * 23.4 + 40) / 23 - 13.4) / 24, 4);
  });

  test('of 72 hours is as good as measured; longer it goes on, counted apart and uncertain', () => {
    const warm = keptAt(240, 23.4);
    const bridged = keptAt(BRIDGE_h, undefined, warm);
    expect(seen(bridged, 'sprouting')).toMatchObject({ uncertain: false, sum: { assumed_C_days: 0 } });
    const longer = keptAt(24, undefined, bridged);
    expect(longer.sums.sprouting.sum_C_days).toBeCloseTo(140, 9);
    expect(longer.sums.sprouting.assumed_C_days).toBeCloseTo(10, 9);
    expect(seen(longer, 'sprouting').uncertain).toBe(true);
  });

  test('that has ended leaves the sum uncertain only where it was a tenth of it', () => {
    const short = keptAt(48, 23.4, keptAt(BRIDGE_h + 12, undefined, keptAt(240, 23.4)));
    const long = keptAt(48, 23.4, keptAt(BRIDGE_h + 120, undefined, keptAt(240, 23.4)));
    expect(seen(short, 'sprouting').uncertain).toBe(false);
    expect(seen(long, 'sprouting').uncertain).toBe(true);
  });

  test('before the first daily mean is in no sum, and said', () => {
    const silent = keptAt(BRIDGE_h + 1, undefined);
    expect(silent.sums.sprouting).toMatchObject({ sum_C_days: 0, unknown_h: 73 });
    expect(seen(silent, 'sprouting')).toMatchObject({ expectedAt: null, uncertain: true });
  });

  test('between the filling and the first hour is in no sum, and said', () => {
    const late = stepThermalTime(startThermalTime(FILLED), 25, FILLED + 100 * HOUR_ms);
    expect(seen(late, 'sprouting')).toMatchObject({ uncertain: true, sum: { unknown_h: 100 } });
  });
});

describe('outlook', () => {
  test('at 27 °C sprouts are to be looked for on day 20.96, adults of C. puncticollis on day 24.06', () => {
    const state = keptAt(240, 27);
    expect(dayOf(seen(state, 'sprouting').expectedAt ?? 0)).toBeCloseTo(285 / 13.6, 6);
    expect(dayOf(seen(state, 'cylas-puncticollis').expectedAt ?? 0)).toBeCloseTo(385 / 16, 6);
    expect(seen(state, 'sprouting').reached).toBe(false);
  });

  test('follows the recent mean, not the mean since filling', () => {
    const cooled = keptAt(48, 20, keptAt(240, 27));
    const missing = 285 - 136 - 2 * 6.6;
    expect(dayOf(seen(cooled, 'sprouting').expectedAt ?? 0)).toBeCloseTo(12 + missing / 6.6, 6);
  });

  test('a sum that was reached keeps its hour', () => {
    const reached = keptAt(24 * 30, 27);
    const { expectedAt } = seen(reached, 'sprouting');
    expect(seen(reached, 'sprouting').reached).toBe(true);
    // 285 / 13.6 days are 502.9 hours: the 503rd.
    expect(expectedAt).toBe(FILLED + 503 * HOUR_ms);
    expect(seen(keptAt(24 * 20, 15, reached), 'sprouting').expectedAt).toBe(expectedAt);
  });

  test('is unknown in a bed too cold, too hot, or for more than a year', () => {
    expect(seen(keptAt(48, 13), 'sprouting').expectedAt).toBe(null);
    expect(seen(keptAt(48, 35.5), 'cylas-brunneus').expectedAt).toBe(null);
    expect(daysToCome(285, named('sprouting'), 14)).toBeUndefined();
    expect(daysToCome(285, named('sprouting'), undefined)).toBeUndefined();
    expect(daysToCome(0, named('sprouting'), undefined)).toBe(0);
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY])('%d is refused', (bad) => {
    expect(() => daysToCome(bad, named('sprouting'), 20)).toThrow(outOfDomain);
    expect(() => daysToCome(10, named('sprouting'), bad)).toThrow(outOfDomain);
  });
});

describe('inspections', () => {
  const look = { at: timeOf(10), opened: true, repacked: false };
  const before = keptAt(240, 27);

  test('repacking begins the sprouting sum anew, not the weevils: they are inside the roots', () => {
    const repacked = inspectThermalTime(before, { ...look, repacked: true });
    expect(repacked.sums.sprouting).toMatchObject({ sum_C_days: 0, atLook_C_days: 0, reachedAt: null });
    for (const name of ['cylas-puncticollis', 'cylas-brunneus', 'cylas-formicarius'] as const)
      expect(repacked.sums[name].sum_C_days).toBe(before.sums[name].sum_C_days);
    expect(repacked.sums['cylas-brunneus'].sum_C_days).toBeGreaterThan(100);
  });

  test('opening keeps every sum', () => {
    const opened = inspectThermalTime(before, look);
    expect(opened.lookedAt).toBe(look.at);
    expect(opened.sums.sprouting.sum_C_days).toBe(before.sums.sprouting.sum_C_days);
  });

  test.each([
    ['not opened', { ...look, opened: false }],
    ['before the filling', { ...look, at: FILLED - DAY_ms, repacked: true }],
  ])('%s changes nothing', (_, inspection) => {
    expect(inspectThermalTime(before, inspection)).toBe(before);
  });

  test('one before the last look changes nothing', () => {
    const opened = inspectThermalTime(before, look);
    expect(inspectThermalTime(opened, { ...look, at: timeOf(9), repacked: true })).toBe(opened);
  });

  test.each([Number.NaN, -1, Number.POSITIVE_INFINITY])('at %d is refused', (at) => {
    expect(() => inspectThermalTime(before, { ...look, at })).toThrow(outOfDomain);
  });
});

describe('the state', () => {
  test('carried in a checkpoint goes on as if it had never stopped', () => {
    const wave = (hour: number): number | undefined =>
      dayOf(hour) % 7 > 6 ? undefined : 24 + 4 * Math.sin(dayOf(hour));
    for (const cut of [0, 1, 17, 30, 400, 700]) {
      const carried = thermalTimeStateSchema.parse(JSON.parse(JSON.stringify(keptAt(cut, wave))));
      expect(keptAt(720 - cut, wave, carried)).toEqual(keptAt(720, wave));
    }
  });

  test('is small, and frozen', () => {
    const state = keptAt(720, 25.123456789);
    expect(JSON.stringify(state).length).toBeLessThan(1500);
    expect([state, state.sums, state.sums.sprouting, state.warmth].every(Object.isFrozen)).toBe(true);
  });

  const begun = keptAt(2, 20);
  test.each([
    ['the same hour', () => stepThermalTime(begun, 20, FILLED + HOUR_ms)],
    ['an hour left out', () => stepThermalTime(begun, 20, FILLED + 3 * HOUR_ms)],
    ['no whole hour', () => stepThermalTime(startThermalTime(FILLED), 20, FILLED + 1)],
    ['before the filling', () => stepThermalTime(startThermalTime(FILLED), 20, FILLED - HOUR_ms)],
    ['no hour', () => stepThermalTime(begun, 20, Number.NaN)],
    ['no temperature', () => stepThermalTime(begun, Number.NaN, FILLED + 2 * HOUR_ms)],
    ['a broken temperature', () => stepThermalTime(begun, -127, FILLED + 2 * HOUR_ms)],
    ['an endless temperature', () => stepThermalTime(begun, Number.POSITIVE_INFINITY, FILLED + 2 * HOUR_ms)],
    ['no filling', () => startThermalTime(Number.NaN)],
    ['a filling before 2000', () => startThermalTime(0)],
  ])('%s is refused', (_, call) => {
    expect(call).toThrow(outOfDomain);
  });

  test('a bed filled in the middle of an hour begins with that hour', () => {
    const state = stepThermalTime(startThermalTime(FILLED + HOUR_ms / 2), 20, FILLED);
    expect(state).toMatchObject({ hour: FILLED, sums: { sprouting: { unknown_h: 0 } } });
  });
});

describe('settings', () => {
  test('a site sets sums and base of its own', () => {
    const own = { sprouting_base_C: 12, sprouting_sum_C_days: 400, weevil_brunneus_sum_C_days: 600 };
    const { developments } = thermalTimeSettings(thresholdsInForce(own));
    expect(developments[0]).toMatchObject({ base_C: 12, sum_C_days: 400 });
    expect(developments[2]).toMatchObject({
      name: 'cylas-brunneus',
      base_C: 11,
      upper_C: 35,
      sum_C_days: 600,
    });
  });

  test('every development says where its figures come from, and that they are computed', () => {
    for (const { source } of DEFAULT_SETTINGS.developments) expect(source).toMatch(/^(weak, )?computed/);
    expect(named('cylas-formicarius').source).toMatch(/^weak/);
  });

  test.each([
    { inspect_every_days: 15 },
    { inspect_every_days: 0 },
    { sprouting_sum_C_days: Number.NaN },
    { weevil_puncticollis_sum_C_days: -1 },
    { sprouting_base_C: Number.POSITIVE_INFINITY },
  ])('%j is refused', (part) => {
    expect(() => thermalTimeSettings({ ...thresholdsInForce(), ...part })).toThrow(outOfDomain);
  });
});
