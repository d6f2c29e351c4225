/** Codes: data sheets of DS18B20, SHT3x, SHT2x and DHT22 [V, SHT2x M]. */
import { describe, expect, test } from 'vitest';
import { newQuality, stepQuality } from '../../../../services/core/watch/quality/index.js';
import { isHumidityCode, isTemperatureCode } from '../../../../services/core/watch/quality/sensor-codes.js';
import { changed, countFlags, faultsIn, runQuality, START, soundProbe } from './a-probe.js';

describe('a temperature is a code', () => {
  test.each([
    ['DS18B20 after power-on, raw 0550', 85],
    ['DS18B20 disconnected, driver', -127],
    ['DS18B20, raw 07FF', 127.9375],
    ['the same with two decimals', 127.94],
    ['SHT3x, raw 0000: -45 + 175 * 0', -45],
    ['SHT3x, raw FFFF: -45 + 175', 130],
    ['SHT2x, raw 0000', -46.85],
    ['SHT2x, raw FFFF', 128.87],
  ])('%s', (_, temperature) => {
    expect(isTemperatureCode({ at: START, temperature }, undefined)).toBe(true);
    expect(isTemperatureCode({ at: START, temperature }, temperature)).toBe(true);
  });

  test.each([0, -0.0625])('%d only where it jumped there', (temperature) => {
    const sample = { at: START, temperature };
    expect(isTemperatureCode(sample, 20)).toBe(true);
    expect(isTemperatureCode(sample, 2)).toBe(false);
    expect(isTemperatureCode(sample, undefined)).toBe(false);
  });

  test('0 where humidity is 0 too: DHT22', () => {
    expect(isTemperatureCode({ at: START, temperature: 0, humidity: 0 }, undefined)).toBe(true);
  });

  test.each([84.98, 25, -0.5, 45, 10.125])('%d is none', (temperature) => {
    expect(isTemperatureCode({ at: START, temperature, humidity: 80 }, 20)).toBe(false);
  });
});

describe('a humidity is a code', () => {
  test.each([0, -6, 119])('%d', (humidity) => {
    expect(isHumidityCode({ at: START, humidity })).toBe(true);
  });
  test('100 beside 130 °C: SHT3x, raw FFFF', () => {
    expect(isHumidityCode({ at: START, temperature: 130, humidity: 100 })).toBe(true);
  });
  test.each([100, 99.9, 1.5, 86])('%d beside 22 °C is none', (humidity) => {
    expect(isHumidityCode({ at: START, temperature: 22, humidity })).toBe(false);
  });
  test('nothing measured is none', () => {
    expect(isHumidityCode({ at: START, temperature: 85 })).toBe(false);
    expect(isTemperatureCode({ at: START, humidity: 0 }, 20)).toBe(false);
  });
});

describe('in a season', () => {
  const sound = soundProbe({ days: 20 });

  test('a power-on value is flagged, does no harm to its hour, and is no fault', () => {
    const bad = changed(sound, 5, 5.005, (sample) => ({ ...sample, temperature: 85 }));
    const { results } = runQuality(bad);
    expect(countFlags(results)).toEqual({ 'temperature sensor-code': 1 });
    expect(results[120]?.hour.temperature?.count).toBe(5);
    expect(results[120]?.hour.temperature?.max).toBeLessThan(21);
    expect(faultsIn(results)).toEqual([]);
  });

  test('nothing but codes are never believed, and are a fault within 7 h that ends 2 days after the last', () => {
    const bad = changed(sound, 5, 9, (sample) => ({ ...sample, temperature: -127 }));
    const { results } = runQuality(bad);
    expect(countFlags(results)).toEqual({ 'temperature sensor-code': 4 * 144 });
    const [fault, ...others] = faultsIn(results);
    expect(others).toEqual([]);
    expect(fault).toMatchObject({ fault: 'sensor-code temperature', since: 5 });
    expect((fault?.toldOn ?? 99) - 5).toBeLessThan(7.1 / 24);
    expect(fault?.overOn).toBe(11);
  });

  test('0 °C in turns with the truth is flagged for as long as it lasts', () => {
    const bad = changed(sound, 5, 8, (sample, index) => (index % 3 ? sample : { ...sample, temperature: 0 }));
    expect(countFlags(runQuality(bad).results)).toEqual({ 'temperature sensor-code': 144 });
  });

  test('a humidity of nothing but 0 is dead within 6 h, and told under that name only', () => {
    const bad = changed(sound, 5, 9, (sample) => ({ ...sample, humidity: 0 }));
    const faults = faultsIn(runQuality(bad).results);
    expect(faults.map(({ fault, since }) => [fault, since])).toEqual([['dead-humidity humidity', 5]]);
    expect((faults[0]?.toldOn ?? 99) - 5).toBeLessThan(6.1 / 24);
  });
});

describe('values that no sand has', () => {
  test.each([
    ['temperature', 61],
    ['temperature', -11],
    ['temperature', Number.NaN],
    ['temperature', Number.POSITIVE_INFINITY],
    ['humidity', 0.5],
    ['humidity', 106],
    ['humidity', Number.NaN],
  ] as const)('%s %d is out of range', (quantity, value) => {
    const state = newQuality('bed', START);
    const { hour, flags } = stepQuality(state, START, [{ at: START, [quantity]: value }], true);
    expect(flags).toEqual([{ at: START, quantity, reason: 'out-of-range' }]);
    expect(hour[quantity]).toBeUndefined();
  });
});
