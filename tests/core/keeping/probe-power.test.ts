import { describe, expect, test } from 'vitest';
import { type Battery, type PowerTask, powerBudget } from '../../../services/core/keeping/probe-power.js';
import { powerInLines } from '../../../services/core/keeping/probe-power-words.js';

/** A battery of which all is there and nothing is lost, as the published examples have it. */
const whole = (capacity_mAh: number): Battery => ({
  ...{ capacity_mAh, voltage_V: 3, usable_percent: 100, atTemperature_percent: 100 },
  selfDischarge_percent_year: 0,
});

const PANEL = Object.freeze({ power_W: 0.5, sun_h_day: 4, gives_percent: 60, charges_percent: 80 });
const TASK: PowerTask = Object.freeze({
  sleep_uA: 12,
  activities: [
    { current_mA: 2, time_s: 1, timesADay: 144 },
    { current_mA: 120, time_s: 4, timesADay: 24 },
  ],
  battery: { ...whole(2400), usable_percent: 80, atTemperature_percent: 90, selfDischarge_percent_year: 5 },
  panel: PANEL,
});

describe('a probe’s battery', () => {
  test('as in the worked example of a temperature sensor: 0.142 mA, 14,101 h of 2000 mAh', () => {
    // iocare.in, "Calculating Sensor battery life": idle 28 mA 0.65 s, sending 31 mA 0.05 s, asleep 0.12 mA 900 s.
    const timesADay = 86_400 / 900.7;
    const { meanCurrent_mA, lasts_days } = powerBudget({
      // Asleep the whole day here, but for the 0.7 s of each round there.
      sleep_uA: 120 * (900 / 900.7),
      activities: [
        { current_mA: 28, time_s: 0.65, timesADay },
        { current_mA: 31, time_s: 0.05, timesADay },
      ],
      battery: whole(2000),
    });
    expect(meanCurrent_mA.toFixed(3)).toBe('0.142');
    expect(Math.round(lasts_days * 24)).toBe(14_101);
  });

  test('as in the worked example of a tank sensor: 1.224 mAh a day, 4902 days of 6000 mAh', () => {
    // iotclass.org, "Sigfox": 40 mA for 3 x 2 s, 18 times a day, 1 µA asleep.
    const { used_mAh_day, lasts_days, sleep_mAh_day } = powerBudget({
      sleep_uA: 1,
      activities: [{ current_mA: 40, time_s: 6, timesADay: 18 }],
      battery: whole(6000),
    });
    expect(sleep_mAh_day).toBeCloseTo(0.024, 12);
    expect(used_mAh_day).toBeCloseTo(1.224, 12);
    expect(Math.round(lasts_days)).toBe(4902);
  });

  test('by hand, with a panel, each step', () => {
    const budget = powerBudget(TASK);
    // 0.012 x 24 = 0.288; 2 x 144 / 3600 = 0.08; 120 x 96 / 3600 = 3.2; together 3.568 mAh a day.
    expect(budget.used_mAh_day).toBeCloseTo(3.568, 9);
    expect(budget.activities.map((one) => one.used_mAh_day)).toEqual([
      expect.closeTo(0.08, 9),
      expect.closeTo(3.2, 9),
    ]);
    // 2400 x 0.8 x 0.9 = 1728 mAh; k = -ln(0.95) / 365.25 = 1.40432e-4 a day; ln(1 + k 1728 / 3.568) / k = 468.5 days.
    expect(budget.usable_mAh).toBeCloseTo(1728, 9);
    expect(budget.lasts_days).toBeCloseTo(468.5, 1);
    // 500 mW x 4 h / 3 V = 666.67 mAh; x 0.6 x 0.8 = 320 mAh a day; 1728 / (320 - 3.568) = 5.46 days.
    expect(budget.solar?.harvest_mAh_day).toBeCloseTo(320, 9);
    expect(budget.solar?.timesUsed).toBeCloseTo(320 / 3.568, 9);
    expect(budget.solar?.fills_days).toBeCloseTo(5.461, 3);
  });

  test('what it loses by itself is less than it would lose unused, and goes to nothing with the rate', () => {
    const lastsAt = (selfDischarge_percent_year: number): number =>
      powerBudget({ ...TASK, battery: { ...TASK.battery, selfDischarge_percent_year } }).lasts_days;
    expect(lastsAt(0)).toBeCloseTo(1728 / 3.568, 9);
    expect(Math.abs(lastsAt(1e-7) - lastsAt(0))).toBeLessThan(1e-4);
    expect(lastsAt(25)).toBeLessThan(lastsAt(5));
    expect(lastsAt(25)).toBeGreaterThan(lastsAt(0) * 0.75);
  });

  test('a panel that gives less than is used never fills it', () => {
    const { solar } = powerBudget({ ...TASK, panel: { ...PANEL, sun_h_day: 0.04 } });
    expect(solar).toMatchObject({ fills_days: null });
    expect(solar?.timesUsed).toBeLessThan(1);
  });

  test.each<[string, Partial<PowerTask>, string]>([
    ['a current below nothing', { sleep_uA: -1 }, 'OUT_OF_DOMAIN'],
    ['no number', { sleep_uA: Number.NaN }, 'OUT_OF_DOMAIN'],
    ['nothing drawn at all', { sleep_uA: 0, activities: [] }, 'OUT_OF_DOMAIN'],
    [
      'more seconds than a day has',
      { activities: [{ current_mA: 1, time_s: 700, timesADay: 144 }] },
      'OUT_OF_DOMAIN',
    ],
    [
      'too many activities',
      { activities: Array.from({ length: 21 }, () => ({ current_mA: 1, time_s: 1, timesADay: 1 })) },
      'LIMIT_EXCEEDED',
    ],
    ['an empty battery', { battery: { ...whole(0) } }, 'OUT_OF_DOMAIN'],
    ['more than all of it', { battery: { ...whole(9), usable_percent: 101 } }, 'OUT_OF_DOMAIN'],
    ['all lost in a year', { battery: { ...whole(9), selfDischarge_percent_year: 100 } }, 'OUT_OF_DOMAIN'],
    ['a panel of nothing', { panel: { ...PANEL, power_W: 0 } }, 'OUT_OF_DOMAIN'],
    ['days of more sun than there is', { panel: { ...PANEL, sun_h_day: 15 } }, 'OUT_OF_DOMAIN'],
    ['no voltage', { battery: { ...whole(9), voltage_V: Number.NaN } }, 'OUT_OF_DOMAIN'],
  ])('%s: refused', (_, change, code) => {
    expect(() => powerBudget({ ...TASK, ...change })).toThrow(expect.objectContaining({ code }));
  });
});

describe('in words', () => {
  const linesOf = (task: PowerTask): string => powerInLines(task, powerBudget(task)).join('\n');

  test('each step can be followed, and lithium and lightning are cautioned of', () => {
    const text = linesOf(TASK);
    expect(text).toMatch(/^Asleep: 12 µA x 24 h = 0\.288 mAh a day$/m);
    expect(text).toMatch(/^Awake: 120 mA x 4 s x 24 a day \/ 3600 = 3\.2 mAh a day$/m);
    expect(text).toMatch(/it lasts 468 days, about 15 months without the panel$/m);
    expect(text).toMatch(/= 320 mAh a day, 89\.7 times what is used: it keeps up$/m);
    expect(text).toMatch(/full after 5\.5 days of sun$/m);
    expect(text).toMatch(/^Caution: lithium cells burn/m);
    expect(text).toMatch(/^Caution: panel .* lightning/m);
  });

  test('what does not last a season, or does not keep up, is said', () => {
    const thirsty = { ...TASK, sleep_uA: 20_000, panel: { ...PANEL, power_W: 0.1 } };
    expect(linesOf({ ...thirsty, panel: undefined })).toMatch(/it lasts 3 days: not a season of 183 days/);
    expect(linesOf({ ...TASK, sleep_uA: 1100, panel: undefined })).toMatch(/it lasts 57 days: not/);
    expect(linesOf(thirsty)).toMatch(/it does not keep up$/m);
    expect(linesOf(thirsty)).toMatch(/lasts 3 days, under the 7 that are asked for \(judgement\)$/m);
    const tight = { ...TASK, panel: { ...PANEL, sun_h_day: 0.06 } };
    expect(linesOf(tight)).toMatch(/keeps up without a margin/);
  });
});
