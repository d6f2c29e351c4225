import { describe, expect, test } from 'vitest';
import { HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { openStores } from '../support/open.js';

const START = Date.UTC(2026, 4, 4, 8);
const EVERY_ms = 10 * MINUTE_ms;
const HOURS = 48;
const END = START + HOURS * HOUR_ms;

/** Readings of two days of probe 1; the first day may go into its hours. */
function filled() {
  const stores = openStores();
  const { readings, fullRate } = stores.archive;
  stores.database.transaction(() => {
    for (let at = 0; at < HOURS * 6; at += 1)
      readings.put(1, START + at * EVERY_ms, { temperature: 20 + (at % 6) / 10, humidity: 80 + (at % 6) });
  })();
  fullRate.set(1, { ...fullRate.mark(1), goal: START + 24 * HOUR_ms });
  const rows = () =>
    stores.database.prepare('SELECT * FROM reading WHERE probe = 1 ORDER BY time').all() as {
      time: number;
      temperature: number | null;
      humidity: number | null;
    }[];
  const foldAll = stores.database.transaction((most?: number) => {
    let steps = 0;
    while (stores.archive.folding.waits(1)) {
      stores.archive.folding.step(1, most);
      steps += 1;
    }
    return steps;
  });
  return { ...stores, ...stores.archive, rows, foldAll };
}

describe('an hour', () => {
  test('has the count, the least, the mean and the greatest of each quantity', () => {
    const { hours, foldAll, fullRate, rows } = filled();
    foldAll();
    expect(hours.read(1, START, END)).toHaveLength(24);
    const { values } = hours.get(1, START) ?? {};
    expect(values?.temperature).toMatchObject({ count: 6, least: 20, greatest: 20.5 });
    expect(values?.temperature?.mean).toBeCloseTo(20.25, 10);
    expect(values?.humidity).toMatchObject({ count: 6, least: 80, mean: 82.5, greatest: 85 });
    expect(values?.battery).toBeUndefined();
    expect(fullRate.since(1)).toBe(START + 24 * HOUR_ms);
    expect(rows()[0]?.time).toBe(START + 24 * HOUR_ms);
  });

  test('is the same in steps of any size, also where a step ends within it', () => {
    const one = filled();
    one.foldAll();
    const many = filled();
    expect(many.foldAll(7)).toBeGreaterThan(20);
    const whole = one.hours.read(1, START, END);
    many.hours.read(1, START, END).forEach((hour, at) => {
      expect(hour.values.temperature?.mean).toBeCloseTo(whole[at]?.values.temperature?.mean as number, 10);
      expect(hour.values.humidity?.count).toBe(6);
      expect(hour.times).toEqual(whole[at]?.times);
    });
    expect(many.rows()).toEqual(one.rows());
  });

  test('and its readings change together or not at all', () => {
    const { database, folding, hours, rows } = filled();
    const cut = database.transaction(() => {
      folding.step(1, 20);
      throw new Error('power cut');
    });
    expect(cut).toThrow('power cut');
    expect(hours.read(1, START, END)).toEqual([]);
    expect(rows()).toHaveLength(HOURS * 6);
  });
});

describe('what stays one by one', () => {
  test('is what a watch has flagged, with its value', () => {
    const { archive, foldAll, flags, hours, rows } = filled();
    archive.flags.put('pit-a', 1, START, [{ at: START, quantity: 'temperature', reason: 'spike' }]);
    foldAll();
    expect(rows()[0]).toMatchObject({ time: START, temperature: 20, humidity: null });
    expect(hours.get(1, START)?.values).toMatchObject({
      temperature: { count: 5, least: 20.1 },
      humidity: { count: 6 },
    });
    expect(flags.shown('pit-a', 1, { from: START, to: END }, 10)).toMatchObject([{ at: START, value: 20 }]);
  });

  test('is what no sand or air shows', () => {
    const { readings, foldAll, hours, rows } = filled();
    readings.put(1, START + 1, { temperature: -127, humidity: 101 });
    readings.put(1, START + 2, { temperature: 85 });
    foldAll();
    expect(rows().slice(0, 2)).toMatchObject([{ temperature: -127, humidity: null }, { temperature: 85 }]);
    expect(hours.get(1, START)?.values.humidity?.greatest).toBe(101);
  });

  test('is what waits to be forwarded', () => {
    const { spool, readings, fullRate, folding, foldAll, rows } = filled();
    spool.setActive(true);
    readings.put(1, START + 3 * HOUR_ms + 1, { temperature: 20 });
    foldAll();
    expect(fullRate.since(1)).toBe(START + 3 * HOUR_ms + 1);
    expect(rows()[0]?.time).toBe(START + 3 * HOUR_ms + 1);
    spool.forget(0, Number.MAX_SAFE_INTEGER);
    expect(folding.waits(1)).toBe(true);
  });

  test('is everything where nothing may go', () => {
    const { folding, fullRate, rows } = filled();
    fullRate.set(1, { since: 0, goal: 0, foldedTo: 0 });
    expect(folding.waits(1)).toBe(false);
    expect(folding.step(1)).toBe(0);
    expect(folding.step(2)).toBe(0);
    expect(rows()).toHaveLength(HOURS * 6);
  });
});

describe('a reading of a time that is folded', () => {
  const NEW = START + 5 * MINUTE_ms;

  test('that comes late goes into its hour, once', () => {
    const { readings, foldAll, folding, hours } = filled();
    foldAll();
    expect(readings.put(1, NEW, { temperature: 30 })).toMatchObject({ kept: 1, duplicates: 0 });
    expect(readings.put(1, NEW, { temperature: 30 })).toMatchObject({ kept: 0, duplicates: 1 });
    expect(folding.waits(1)).toBe(true);
    foldAll();
    expect(hours.get(1, START)?.values.temperature).toMatchObject({ count: 7, greatest: 30 });
    expect(readings.put(1, NEW, { temperature: 30 })).toMatchObject({ kept: 0, duplicates: 1 });
    expect(folding.waits(1)).toBe(false);
    expect(hours.get(1, START)?.values.temperature?.mean).toBeCloseTo((6 * 20.25 + 30) / 7, 10);
  });

  test('that is sent again is a duplicate, with another value too', () => {
    const { readings, foldAll, folding, rows } = filled();
    foldAll();
    const before = rows();
    expect(readings.put(1, START, { temperature: 20, humidity: 80 })).toEqual({
      kept: 0,
      duplicates: 2,
      conflicts: [],
    });
    expect(readings.put(1, START, { temperature: 33 })).toEqual({ kept: 0, duplicates: 1, conflicts: [] });
    expect(folding.waits(1)).toBe(false);
    expect(rows()).toEqual(before);
  });

  test('that gains a quantity has only that one added', () => {
    const { readings, foldAll, hours } = filled();
    foldAll();
    expect(readings.put(1, START, { temperature: 20, battery: 3 })).toMatchObject({ kept: 1, duplicates: 1 });
    foldAll();
    expect(hours.get(1, START)?.values).toMatchObject({
      temperature: { count: 6 },
      battery: { count: 1, mean: 3 },
    });
    expect(readings.put(1, START, { battery: 3 })).toMatchObject({ kept: 0, duplicates: 1 });
  });

  test('that was flagged and is sent again with another value is told apart still', () => {
    const { archive, readings, foldAll } = filled();
    archive.flags.put('pit-a', 1, START, [{ at: START, quantity: 'temperature', reason: 'spike' }]);
    foldAll();
    expect(readings.put(1, START, { temperature: 9 }).conflicts).toEqual([
      { quantity: 'temperature', kept: 20, refused: 9 },
    ]);
  });

  test('of an hour in which nothing was measured makes that hour', () => {
    const { readings, foldAll, hours } = filled();
    foldAll();
    readings.put(1, START - 3 * HOUR_ms, { humidity: 70 });
    foldAll();
    expect(hours.get(1, START - 3 * HOUR_ms)?.values).toEqual({
      humidity: { count: 1, least: 70, mean: 70, greatest: 70 },
    });
    expect(readings.firstTime(1, 0)).toBe(START - 3 * HOUR_ms);
  });
});

describe('over the mark', () => {
  test('first and last times are those that were measured', () => {
    const { readings, foldAll } = filled();
    foldAll();
    expect(readings.firstTime(1, 0)).toBe(START);
    expect(readings.firstTime(1, START + 1)).toBe(START + EVERY_ms);
    expect(readings.lastTime(1, START + HOUR_ms)).toBe(START + 50 * MINUTE_ms);
    expect(readings.lastTime(1, START)).toBeUndefined();
    expect(readings.firstTime(2, 0)).toBeUndefined();
    expect(readings.latest(1)?.time).toBe(END - EVERY_ms);
  });

  test('means of days and hours are what they were', () => {
    const { means, foldAll } = filled();
    const [span, range] = [
      { from: START, to: END },
      { least: -10, greatest: 60 },
    ];
    const before = { daily: means.daily(1, span, range), hourly: means.hourly(1, 'pit-a', span, range) };
    foldAll();
    const daily = means.daily(1, span, range);
    expect(daily.map(({ at }) => at)).toEqual(before.daily.map(({ at }) => at));
    for (const [at, { mean }] of daily.entries())
      expect(mean).toBeCloseTo(before.daily[at]?.mean as number, 10);
    const hourly = means.hourly(1, 'pit-a', span, range);
    expect(hourly).toHaveLength(HOURS);
    for (const [at, [, mean]] of hourly.entries())
      expect(mean).toBeCloseTo(before.hourly[at]?.[1] as number, 10);
  });

  test('samples go on from means of hours to readings, in order', () => {
    const { readings, foldAll } = filled();
    foldAll();
    const samples = readings.samples(1, START, END);
    expect(samples).toHaveLength(24 + 24 * 6);
    expect(samples[0]).toMatchObject({ at: START + HOUR_ms / 2, humidity: 82.5 });
    const times = samples.map(({ at }) => at);
    expect(times).toEqual([...times].sort((one, other) => one - other));
    expect(readings.samples(1, START + 1, START + HOUR_ms)).toEqual([]);
  });

  test('a series keeps the least and the greatest, whole and in parts', () => {
    const { series, readings, foldAll } = filled();
    readings.put(1, START + 7, { temperature: 12, humidity: 99 });
    const least = (points: number) => {
      const { rows, thinned } = series.read(1, START, END, points);
      const [temperatures, moist] = [
        rows.map(({ temperature }) => temperature ?? 20),
        rows.map(({ humidity }) => humidity ?? 0),
      ];
      return {
        thinned,
        length: rows.length <= points,
        least: Math.min(...temperatures),
        greatest: Math.max(...temperatures),
        moist: Math.max(...moist),
      };
    };
    const before = least(100);
    foldAll();
    expect(least(100)).toEqual(before);
    expect(least(1000)).toMatchObject({ thinned: true, least: 12, greatest: 20.5, moist: 99 });
    const { rows } = series.read(1, START, END, 100);
    const times = rows.map(({ time }) => time);
    expect(times).toEqual([...times].sort((one, other) => one - other));
  });
});
