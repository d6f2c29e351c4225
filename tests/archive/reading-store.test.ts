import { describe, expect, test } from 'vitest';
import { openStores } from '../support/open.js';

const NOON = Date.UTC(2026, 5, 1, 12);

describe('a reading is stored once, and its first value stands', () => {
  test('new values are kept', () => {
    const { archive } = openStores();
    expect(archive.readings.put(1, NOON, { temperature: 21.5, humidity: 88 })).toEqual({
      kept: 2,
      duplicates: 0,
      conflicts: [],
    });
    expect(archive.readings.latest(1)).toMatchObject({
      time: NOON,
      temperature: 21.5,
      humidity: 88,
      battery: null,
    });
  });

  test('the same again is a duplicate', () => {
    const { archive } = openStores();
    archive.readings.put(1, NOON, { temperature: 21.5, humidity: 88 });
    expect(archive.readings.put(1, NOON, { humidity: 88, temperature: 21.5 })).toMatchObject({
      kept: 0,
      duplicates: 2,
    });
  });

  test('another value is refused, the first kept', () => {
    const { archive } = openStores();
    archive.readings.put(1, NOON, { temperature: 21.5 });
    expect(archive.readings.put(1, NOON, { temperature: 21.6 }).conflicts).toEqual([
      { quantity: 'temperature', kept: 21.5, refused: 21.6 },
    ]);
    expect(archive.readings.latest(1)?.temperature).toBe(21.5);
  });

  test('a quantity that comes later joins its row', () => {
    const { archive } = openStores();
    archive.readings.put(1, NOON, { temperature: 21.5 });
    expect(archive.readings.put(1, NOON, { temperature: 9, humidity: 90, battery: 3.1 })).toEqual({
      kept: 2,
      duplicates: 0,
      conflicts: [{ quantity: 'temperature', kept: 21.5, refused: 9 }],
    });
    expect(archive.readings.latest(1)).toMatchObject({ temperature: 21.5, humidity: 90, battery: 3.1 });
  });

  test('the latest has the newest value of each quantity', () => {
    const { archive } = openStores();
    archive.readings.put(1, NOON, { temperature: 21.5, battery: 3 });
    archive.readings.put(1, NOON + 1000, { humidity: 90 });
    expect(archive.readings.latest(1)).toMatchObject({
      time: NOON + 1000,
      temperature: 21.5,
      humidity: 90,
      battery: 3,
    });
    expect(archive.readings.latest(2)).toBeUndefined();
  });

  test('zero is a value', () => {
    const { archive } = openStores();
    archive.readings.put(1, NOON, { temperature: 0 });
    expect(archive.readings.put(1, NOON, { temperature: 0 }).duplicates).toBe(1);
    expect(archive.readings.put(1, NOON, { temperature: 1 }).conflicts).toHaveLength(1);
  });

  test('text where a number belongs is refused by the table', () => {
    const { archive } = openStores();
    expect(() => archive.readings.put(1, NOON, { temperature: 'warm' as unknown as number })).toThrow(/REAL/);
  });
});

describe('hours of readings', () => {
  test('sums are exact whatever the order', () => {
    const values = Array.from({ length: 60 }, (_, minute) => 20 + minute * 0.0137);
    const sumsOf = (order: number[]) => {
      const { archive } = openStores();
      for (const minute of order)
        archive.readings.put(1, NOON + minute * 60_000, { temperature: values[minute] ?? 0 });
      return archive.hours.sums(1, NOON, NOON + 3_600_000);
    };
    const minutes = values.map((_, minute) => minute);
    expect(sumsOf(minutes)).toEqual(sumsOf([...minutes].reverse()));
  });

  test('mean, least and most of an hour, by hand', () => {
    const { archive } = openStores();
    archive.readings.put(1, NOON, { temperature: 20, humidity: 80 });
    archive.readings.put(1, NOON + 600_000, { temperature: 20.5 });
    archive.readings.put(1, NOON + 3_600_000, { temperature: 99 });
    expect(archive.hours.sums(1, NOON, NOON + 3_600_000)).toEqual([
      {
        hour: NOON,
        temperature: { count: 2, sum: 405_000, min: 20, max: 20.5 },
        humidity: { count: 1, sum: 800_000, min: 80, max: 80 },
      },
    ]);
  });

  // DS18B20 data sheet: +85 is its power-on value; common drivers give -127 for a sensor that does not answer.
  test.each([85, -127, 60.01, -40.01])('a temperature of %d is stored but not summed', (temperature) => {
    const { archive } = openStores();
    archive.readings.put(1, NOON, { temperature, humidity: 50 });
    expect(archive.readings.latest(1)?.temperature).toBe(temperature);
    expect(archive.hours.sums(1, NOON, NOON + 3_600_000)[0]?.temperature.count).toBe(0);
  });
});

describe('series for a plot', () => {
  test('a short series is given whole', () => {
    const { archive } = openStores();
    for (let index = 0; index < 10; index += 1) archive.readings.put(1, NOON + index, { temperature: index });
    expect(archive.series.read(1, NOON, NOON + 10, 10)).toHaveLength(10);
  });

  test('a long series keeps its coldest and warmest reading and its bound', () => {
    const { archive, database } = openStores();
    database.transaction(() => {
      for (let index = 0; index < 5_000; index += 1)
        archive.readings.put(1, NOON + index * 60_000, {
          temperature: index === 1234 ? 55 : index === 4321 ? -5 : 20 + (index % 7),
        });
    })();
    const rows = archive.series.read(1, NOON, NOON + 5_000 * 60_000, 100);
    expect(rows.length).toBeLessThanOrEqual(100);
    expect(rows.length).toBeGreaterThan(80);
    const temperatures = rows.map((row) => row.temperature ?? Number.NaN);
    expect(Math.max(...temperatures)).toBe(55);
    expect(Math.min(...temperatures)).toBe(-5);
    expect(rows.map((row) => row.time)).toEqual(
      rows.map((row) => row.time).sort((one, other) => one - other),
    );
  });

  test('the end of the span does not belong to it', () => {
    const { archive } = openStores();
    archive.readings.put(1, NOON, { temperature: 1 });
    expect(archive.series.read(1, NOON - 10, NOON, 10)).toEqual([]);
  });
});
