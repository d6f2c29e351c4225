import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readAirFile, startOf, weatherFrom } from '../../simulator/air-file.js';
import { simulateDays } from '../../simulator/days.js';
import { loadScenario } from '../../simulator/index.js';
import { type Hour, madeUpWeather, saturation_hPa, type WeatherOptions } from '../../simulator/weather.js';
import { temporaryDirectory } from '../support/open.js';

const OPTIONS: WeatherOptions = {
  means: [
    [0, 18],
    [100, 24],
  ],
  swing_C: 12,
  dewPoint_C: 9,
  hotSpells: [{ startDay: 40, days: 5, warmer_C: 6 }],
};

function hours(days: number, seed: number, options = OPTIONS): Hour[] {
  const weather = madeUpWeather(options, seed);
  return Array.from({ length: days * 24 }, () => weather.next().value as Hour);
}

const dayMeans = (all: readonly Hour[]): number[] =>
  Array.from({ length: all.length / 24 }, (_, day) =>
    all.slice(day * 24, day * 24 + 24).reduce((sum, { air_C }) => sum + air_C / 24, 0),
  );

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

describe('made-up weather', () => {
  test('the same seed gives the same season, another seed another', () => {
    expect(hours(20, 7)).toEqual(hours(20, 7));
    expect(hours(20, 7)).not.toEqual(hours(20, 8));
  });

  test('over many seeds the season drifts from its first mean to its last', () => {
    const seasons = Array.from({ length: 40 }, (_, seed) => dayMeans(hours(100, seed)));
    expect(mean(seasons.map((season) => mean(season.slice(0, 10))))).toBeCloseTo(18.3, 0);
    expect(mean(seasons.map((season) => mean(season.slice(90))))).toBeCloseTo(23.7, 0);
  });

  test('a hot spell is as hot as it is said to be', () => {
    const without = dayMeans(hours(60, 3, { ...OPTIONS, hotSpells: [] }));
    const withSpell = dayMeans(hours(60, 3));
    expect((withSpell[42] ?? 0) - (without[42] ?? 0)).toBeCloseTo(6, 6);
    expect(withSpell[50]).toBeCloseTo(without[50] ?? 0, 6);
  });

  test('days resemble the day before', () => {
    const departures = dayMeans(hours(400, 5, { ...OPTIONS, means: [[0, 20]], hotSpells: [] })).map(
      (value) => value - 20,
    );
    const products = departures.slice(1).map((value, index) => value * (departures[index] ?? 0));
    expect(mean(products) / mean(departures.map((value) => value * value))).toBeGreaterThan(0.4);
  });

  test('a day is no sine: it warms faster than it cools', () => {
    const clear = hours(1, 1, { ...OPTIONS, hotSpells: [] }).map(({ air_C }) => air_C);
    const coldest = clear.indexOf(Math.min(...clear));
    const warmest = clear.indexOf(Math.max(...clear));
    expect(warmest - coldest).toBeLessThan(10);
  });

  test('humidity stays between 0 and 100 and falls in the afternoon', () => {
    const all = hours(100, 2);
    expect(all.every(({ air_RH }) => air_RH > 0 && air_RH <= 100.0001)).toBe(true);
    const at = (hour: number): number =>
      mean(all.filter((_, index) => index % 24 === hour).map(({ air_RH }) => air_RH));
    expect(at(14)).toBeLessThan(at(6) - 20);
  });
});

// WMO-No. 8 Magnus over water, hPa, computed from the closed form: 10 °C 12.2603, 25 °C 31.6006, 40 °C 73.6746.
test.each([
  [10, 12.2603],
  [25, 31.6006],
  [40, 73.6746],
])('saturation pressure at %d °C is %d hPa', (air_C, published) => {
  expect(Math.abs(saturation_hPa(air_C) - published)).toBeLessThan(5e-5);
});

describe('hourly air of an open data set: Seattle hourly normals 2010 (NOAA, in vega-datasets 3.2.1)', () => {
  const file = new URL(
    '../../node_modules/vega-datasets/data/seattle-weather-hourly-normals.csv',
    import.meta.url,
  ).pathname;

  test('its published extent is read: 8759 hours, 3.1 to 24.4 °C, mean 11.1276', () => {
    const air = readAirFile(file);
    expect(air).toHaveLength(8759);
    expect([Math.min(...air), Math.max(...air)]).toEqual([3.1, 24.4]);
    expect(mean(air)).toBeCloseTo(11.1276, 4);
  });

  test('it drives a season, warmer where asked, and begins again at its end', () => {
    const air = readAirFile(file, { column: 'temperature', warmer_C: 8 });
    const weather = weatherFrom(air, 9);
    const year = Array.from({ length: 8760 }, () => weather.next().value as Hour);
    expect(year[0]?.air_C).toBe(4 + 8);
    expect(year[8759]?.air_C).toBe(year[0]?.air_C);
  });

  test('under it, sand and ground of a built-in site begin as warm as it is', () => {
    const scenario = loadScenario('sound-pit', { weatherFile: file, weather: { warmer_C: 8 } });
    expect(scenario.airTemperatures_C?.[0]).toBe(4 + 8);
    expect(scenario.deepGround_C).toBeCloseTo(11.1276 + 8, 4);
    const [sent = []] = simulateDays({ ...scenario, days: 1, everyMinutes: 60 }, 'pit-a', 1);
    const first_C = sent.find(({ probe }) => probe === 'p02')?.readings[0]?.temperature_C ?? Number.NaN;
    // Filled 1.5 °C above the mean of the first two weeks, 4.9 to 5.4 °C in early January there; a probe is 0.2 off.
    expect(Math.abs(first_C - (startOf(scenario.airTemperatures_C ?? []) + 1.5))).toBeLessThan(0.8);
    expect(startOf(scenario.airTemperatures_C ?? [])).toBeLessThan(14);
  });

  test('a scenario file keeps the ground that it states', () => {
    const own = join(temporaryDirectory(), 'own.json');
    writeFileSync(own, JSON.stringify(loadScenario('sound-pit')));
    expect(loadScenario(own, { weatherFile: file }).deepGround_C).toBe(21);
  });

  test('a column of another name is found where it is named, and only there', () => {
    const weather = { column: 'wind' };
    expect(loadScenario('sound-pit', { weatherFile: file, weather }).airTemperatures_C?.[0]).toBe(3.8);
    expect(() => loadScenario('sound-pit', { weatherFile: file, weather: { column: 'air' } })).toThrow(
      /expected a column "air"/,
    );
  });
});

describe('a weather file that is none is refused by line', () => {
  const written = (text: string): string => {
    const file = join(temporaryDirectory(), 'air.csv');
    writeFileSync(file, text);
    return file;
  };
  const day = (value: string): string => `temperature\n${'20\n'.repeat(24)}${value}\n`;

  test.each([
    ['no such column', 'time,air\n1,2\n', /expected a column "temperature"/],
    ['too short', 'temperature\n20\n', /expected at least 24 hours, got 1/],
    ['words', day('warm'), /line 26: expected a temperature from -60 to 60 °C, got "warm"/],
    ['a missing value', day('-9999'), /line 26/],
    ['a number in scientific nonsense', day('1e999'), /line 26/],
  ])('%s', (_, text, sentence) => {
    expect(() => readAirFile(written(text))).toThrow(sentence);
  });

  test('a file that is not there', () => {
    expect(() => readAirFile('/nowhere.csv')).toThrow(/can be read at \/nowhere\.csv, got none/);
  });
});
