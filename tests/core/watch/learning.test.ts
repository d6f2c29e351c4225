/** The small parts that learn what a sound bed looks like. */
import { describe, expect, test } from 'vitest';
import { addHour, type Hours, meanOf, toKept } from '../../../services/core/watch/hourly-mean.js';
import { countingDays, type Dated, learnDay } from '../../../services/core/watch/learned-days.js';
import { carriedOn, levelOf } from '../../../services/core/watch/level.js';
import { PARAMETERS } from '../../../services/core/watch/parameters.js';
import { expectedFrom, type Pair, responseOf } from '../../../services/core/watch/response.js';
import { MEMORIES_days, newSlowMeans, shadeNow, takeShade } from '../../../services/core/watch/slow-mean.js';
import { randomFrom } from './season.js';

const daysOf = <Value>(count: number, value: (day: number) => Value): Dated<Value>[] =>
  Array.from({ length: count }, (_, day) => [day, value(day)]);

describe('the mean of the last hours', () => {
  test('needs 18 of 24 hours', () => {
    const hours: Hours = [];
    for (let hour = 0; hour < 24; hour += 1) addHour(hours, hour < 17 ? 20 : undefined, 24);
    expect(meanOf(hours, 18)).toBeUndefined();
    addHour(hours, 20, 25);
    expect(meanOf(hours, 18)).toBe(20);
  });
  test('forgets what is older', () => {
    const hours: Hours = [];
    for (let hour = 0; hour < 24; hour += 1) addHour(hours, 100, 24);
    for (let hour = 0; hour < 24; hour += 1) addHour(hours, 20, 24);
    expect(meanOf(hours, 18)).toBe(20);
    expect(hours).toHaveLength(24);
  });
  test('keeps 0.0001 and no negative zero, which JSON would not give back', () => {
    expect(toKept(21.123449)).toBe(21.1234);
    expect(Object.is(toKept(-0.00001), 0)).toBe(true);
  });
});

describe('slow means of the shade', () => {
  const meansAfter = (temperatures: readonly (number | undefined)[]): number[] | undefined => {
    const means = newSlowMeans();
    for (const temperature_C of temperatures) takeShade(means, temperature_C);
    return shadeNow(means);
  };
  const hours = (count: number, value: number | undefined): (number | undefined)[] =>
    Array.from({ length: count }, () => value);

  test('need three days of daily means', () => {
    expect(meansAfter(hours(71 + 17, 20))).toBeUndefined();
    expect(meansAfter(hours(72 + 17, 20))).toEqual(MEMORIES_days.map(() => 20));
  });
  test('after a step, a memory has taken up 1 - 1/e of it in its own time and half a day more [C]', () => {
    const index = PARAMETERS.shadeMemories_days.indexOf(4.5);
    const stepped = meansAfter([...hours(2400, 20), ...hours(4.5 * 24 + 12, 30)])?.[index];
    expect(stepped).toBeCloseTo(20 + 10 * (1 - Math.exp(-1)), 1);
  });
  test('the daily wave is not in them: less than 0.05 °C of 8 °C', () => {
    const waves = Array.from({ length: 1000 }, (_, hour) => 20 + 8 * Math.sin((2 * Math.PI * hour) / 24));
    for (const mean of meansAfter(waves)?.slice(1) ?? [0]) expect(Math.abs(mean - 20)).toBeLessThan(0.05);
  });
  test('a gap leaves them as they are', () => {
    expect(meansAfter([...hours(500, 20), ...hours(40, undefined)])).toEqual(MEMORIES_days.map(() => 20));
  });
  test('what was before a gap weighs less, the longer the gap', () => {
    const afterGap = (gap_h: number): number =>
      meansAfter([...hours(500, 20), ...hours(gap_h, undefined), ...hours(24, 30)])?.[1] ?? Number.NaN;
    expect(afterGap(36)).toBeGreaterThan(afterGap(30));
  });
  test('after two days without a daily mean they begin anew', () => {
    expect(meansAfter([...hours(500, 20), ...hours(60, undefined), ...hours(48, 30)])).toBeUndefined();
    expect(meansAfter([...hours(500, 20), ...hours(60, undefined), ...hours(120, 30)])?.[0]).toBe(30);
  });
});

describe('days that count', () => {
  test('fewer than five are none', () => {
    expect(
      countingDays(
        daysOf(4, () => 20),
        4,
      ),
    ).toBeUndefined();
  });
  test('the first five count while there are too few that lie back', () => {
    expect(
      countingDays(
        daysOf(8, (day) => day),
        8,
      )?.map(([, value]) => value),
    ).toEqual([0, 1, 2, 3, 4]);
  });
  test('the last five do not count later', () => {
    expect(
      countingDays(
        daysOf(30, (day) => day),
        30,
      )?.at(-1),
    ).toEqual([25, 25]);
  });
  test('days of two months ago do not count', () => {
    expect(
      countingDays(
        daysOf(10, () => 20),
        200,
      ),
    ).toBeUndefined();
  });
  test('no more are kept than are used', () => {
    const days: [number, number][] = [];
    for (let day = 0; day < 200; day += 1) learnDay(days, day, 20);
    expect(days).toHaveLength(PARAMETERS.learnedMost_days);
    expect(days.at(-1)?.[0]).toBe(199);
  });
});

describe('levels', () => {
  test('the middle of the last weeks and the robust spread of all', () => {
    expect(levelOf([1, 2, 3, 4, 100])).toEqual({ middle: 3, deviation: 1.4826 });
  });
  test('one odd day moves neither far', () => {
    const { middle, deviation } = levelOf([...Array.from({ length: 20 }, (_, day) => day % 2), 50]);
    expect(middle).toBeLessThanOrEqual(1);
    expect(deviation).toBeLessThan(2);
  });
  test('a trend is carried on to today where the days are enough', () => {
    const days = daysOf(35, (day) => 20 + 0.1 * day);
    expect(carriedOn(days, 40).middle).toBeCloseTo(24, 9);
    expect(carriedOn(days, 40).deviation).toBeCloseTo(0, 9);
    expect(carriedOn(days.slice(0, 10), 10).middle).toBeCloseTo(20.45, 9);
  });
});

describe('how a probe follows the shade', () => {
  const random = randomFrom(3);
  const shadeDays = daysOf(40, () => MEMORIES_days.map(() => 20 + 6 * random()));
  const following = (make: (shade_C: readonly number[]) => number): Dated<Pair>[] =>
    shadeDays.map(([day, shade_C]) => [day, { shade_C, probe_C: make(shade_C) }]);

  test.each([0, 2, 5])('memory %i is found, with what is left', (memory) => {
    const response = responseOf(
      following((shade_C) => 2.5 + (shade_C[memory] ?? Number.NaN)),
      45,
    );
    expect(response).toMatchObject({ memory, share: 1 });
    expect(response?.middle).toBeCloseTo(2.5, 9);
    expect(response?.deviation).toBeCloseTo(0, 9);
  });

  test('a share is found, the rest being the ground', () => {
    const ground = MEMORIES_days.length - 1;
    const make = (shade_C: readonly number[]): number =>
      1 + 0.6 * (shade_C[1] ?? Number.NaN) + 0.4 * (shade_C[ground] ?? Number.NaN);
    const response = responseOf(following(make), 45);
    expect(response).toMatchObject({ memory: 1, share: 0.6 });
    const now = MEMORIES_days.map((_, index) => 30 + index);
    expect(response && expectedFrom(response, now)).toBeCloseTo(make(now), 9);
  });

  test('too few days are no response', () => {
    expect(responseOf(following(() => 20).slice(0, 4), 45)).toBeUndefined();
  });
});
