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

describe('samples for the watch', () => {
  test('are raw and in order of time, whatever the order in which they came', () => {
    const { archive } = openStores();
    for (const minute of [20, 0, 10])
      archive.readings.put(1, NOON + minute * 60_000, { temperature: 20 + minute / 7, humidity: 80 });
    expect(archive.readings.samples(1, NOON, NOON + 3_600_000)).toEqual([
      { at: NOON, temperature: 20, humidity: 80 },
      { at: NOON + 600_000, temperature: 20 + 10 / 7, humidity: 80 },
      { at: NOON + 1_200_000, temperature: 20 + 20 / 7, humidity: 80 },
    ]);
  });

  test('lack what was not measured, and zero is a value', () => {
    const { archive } = openStores();
    archive.readings.put(1, NOON, { temperature: 0 });
    archive.readings.put(1, NOON + 1, { humidity: 0 });
    archive.readings.put(1, NOON + 2, { battery: 3 });
    expect(archive.readings.samples(1, NOON, NOON + 10)).toEqual([
      { at: NOON, temperature: 0 },
      { at: NOON + 1, humidity: 0 },
    ]);
  });

  test('of the span and the probe alone: its start belongs to it, its end does not', () => {
    const { archive } = openStores();
    for (const time of [NOON - 1, NOON, NOON + 9, NOON + 10])
      archive.readings.put(1, time, { temperature: 1 });
    archive.readings.put(2, NOON, { temperature: 2 });
    expect(archive.readings.samples(1, NOON, NOON + 10).map(({ at }) => at)).toEqual([NOON, NOON + 9]);
  });

  // DS18B20 data sheet: +85 is its power-on value; common drivers give -127 for a sensor that does not answer.
  test.each([85, -127, 1000, -273.15])('a temperature of %d is given as it came', (temperature) => {
    const { archive } = openStores();
    archive.readings.put(1, NOON, { temperature });
    expect(archive.readings.samples(1, NOON, NOON + 1)).toEqual([{ at: NOON, temperature }]);
  });
});

describe('series for a plot', () => {
  test('a short series is given whole', () => {
    const { archive } = openStores();
    for (let index = 0; index < 10; index += 1) archive.readings.put(1, NOON + index, { temperature: index });
    expect(archive.series.read(1, NOON, NOON + 10, 10)).toMatchObject({
      ...{ thinned: false, rows: { length: 10 } },
    });
  });

  test('a long series keeps its coldest and warmest reading and its bound', () => {
    const { archive, database } = openStores();
    database.transaction(() => {
      for (let index = 0; index < 5_000; index += 1)
        archive.readings.put(1, NOON + index * 60_000, {
          temperature: index === 1234 ? 55 : index === 4321 ? -5 : 20 + (index % 7),
        });
    })();
    const { rows } = archive.series.read(1, NOON, NOON + 5_000 * 60_000, 100);
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
    expect(archive.series.read(1, NOON - 10, NOON, 10).rows).toEqual([]);
  });
});
