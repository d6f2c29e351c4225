/** Spikes, steps and what is quicker than sand allows. */
import { describe, expect, test } from 'vitest';
import { HOUR_ms, MINUTE_ms } from '../../../../services/core/model/time.js';
import { type Departure, judgeDeparture } from '../../../../services/core/watch/quality/departure.js';
import { newQuality, type QualityPlace } from '../../../../services/core/watch/quality/index.js';
import { LIMITS } from '../../../../services/core/watch/quality/limits.js';
import {
  changed,
  countFlags,
  dayOf,
  faultsIn,
  flagsIn,
  longestFlagged_min,
  normal,
  randomFrom,
  runQuality,
  START,
  soundProbe,
} from './a-probe.js';

/** What the last of some temperatures is, after those before it. */
function lastOf(temperatures: readonly number[], every_min: number, place: QualityPlace = 'bed'): Departure {
  const { temperature } = newQuality(place, START);
  let last: Departure = 'usual';
  temperatures.forEach((value, index) => {
    last = judgeDeparture(
      temperature,
      START + index * every_min * MINUTE_ms,
      value,
      LIMITS[place].temperature,
    );
  });
  return last;
}

describe('Hampel, by hand', () => {
  // Still, every 10 minutes: floor 0.6 and 1 °C/h for the half hour to the middle one: 1.1.
  test.each([
    [21.08, 'usual'],
    [18.92, 'usual'],
    [21.12, 'far'],
    [18.88, 'far'],
  ])('after 20 five times, %d is %s', (value, departure) => {
    expect(lastOf([20, 20, 20, 20, 20, value], 10)).toBe(departure);
  });

  // Every hour: median 20.2 of the three in 3 h, deviation 0.2: 0.6 + 2 h * 1 + 4 * 1.4826 * 0.2 = 3.786.
  test.each([
    [23.96, 'usual'],
    [24.01, 'far'],
    [16.74, 'usual'],
    [16.39, 'fast'],
  ])('after 20, 20.2, 20.4 by the hour, %d is %s', (value, departure) => {
    expect(lastOf([20, 20.2, 20.4, value], 60)).toBe(departure);
  });
});

describe('rate, by hand', () => {
  // 1.5 °C in 10 minutes, in an hour sqrt(6) times that: 3.674.
  test.each([
    [10, 21.49, 'far'],
    [10, 21.51, 'fast'],
    [60, 23.66, 'far'],
    [60, 23.69, 'fast'],
  ])('after %d minutes of stillness %d is %s', (every_min, value, departure) => {
    expect(lastOf([20, 20, 20, 20, 20, 20, value], every_min)).toBe(departure);
  });
  test('in the shade 6 °C in an hour is usual', () => {
    expect(lastOf([12, 13, 14, 15, 16, 17, 18], 10, 'shade')).toBe('usual');
  });
  test('what is not measured for half a day is believed', () => {
    expect(lastOf([20, 26], 12 * 60 + 1)).toBe('usual');
    expect(lastOf([20, 36], 11 * 60)).toBe('fast');
  });
});

describe('a single spike', () => {
  const sound = soundProbe({ days: 10 });
  test.each([1.4, 3, 20, -3])('of %d °C is flagged as one and does not move its hour', (size) => {
    const { results } = runQuality(
      changed(sound, 5, 5.005, (sample) => ({ ...sample, temperature: (sample.temperature ?? 0) + size })),
    );
    expect(flagsIn(results)).toEqual(['temperature spike']);
    expect(results[120]?.hour.temperature?.count).toBe(5);
    expect(results.flatMap(({ steps }) => steps)).toEqual([]);
    expect(faultsIn(results)).toEqual([]);
  });

  test('of humidity too', () => {
    const bad = changed(sound, 5, 5.005, (sample) => ({ ...sample, humidity: 60 }));
    expect(flagsIn(runQuality(bad).results)).toEqual(['humidity spike']);
  });

  test('again and again is a noisy probe, told within two days and over three days after', () => {
    const random = randomFrom(3);
    const bad = changed(soundProbe({ days: 20 }), 5, 12, (sample) =>
      random() < 0.03 ? { ...sample, temperature: (sample.temperature ?? 0) + 4 } : sample,
    );
    const faults = faultsIn(runQuality(bad).results);
    expect(faults.map(({ fault }) => fault)).toEqual(['noisy temperature']);
    expect(faults[0]?.toldOn).toBeLessThan(7);
    expect(faults[0]?.overOn).toBeGreaterThan(12);
    expect(faults[0]?.overOn).toBeLessThan(15.1);
  });
});

describe('two spikes, a day apart,', () => {
  const spiked = [5, 6].reduce(
    (samples, day) =>
      changed(samples, day, day + 0.005, (sample) => ({
        ...sample,
        temperature: (sample.temperature ?? 0) + 9,
      })),
    soundProbe({ days: 10 }),
  );

  test('are a noisy probe in still sand', () => {
    const faults = faultsIn(runQuality(spiked).results);
    expect(faults.map(({ fault }) => fault)).toEqual(['noisy temperature']);
    expect(faults[0]?.toldOn).toBeLessThan(6.1);
  });

  test('are none in the shade, where there are gusts', () => {
    expect(faultsIn(runQuality(spiked, { place: 'shade' }).results)).toEqual([]);
  });
});

describe('a step that lasts', () => {
  const sound = soundProbe({ days: 10 });
  test.each([10, 30, 60])('is believed within two hours and told, every %d minutes', (every_min) => {
    const samples = changed(soundProbe({ days: 10, every_min }), 5, 99, (sample) => ({
      ...sample,
      temperature: (sample.temperature ?? 0) + 5,
    }));
    const { results } = runQuality(samples);
    expect(longestFlagged_min(samples, results)).toBeLessThanOrEqual(60);
    const steps = results.flatMap(({ steps }) => steps);
    expect(steps.map(({ at, quantity }) => [dayOf(at), quantity])).toEqual([[5, 'temperature']]);
    expect(steps[0]?.size).toBeCloseTo(5, 0);
    expect(faultsIn(results)).toEqual([]);
  });

  test('keeps the name of a rate that cannot be', () => {
    const samples = changed(sound, 5, 99, (sample) => ({
      ...sample,
      temperature: (sample.temperature ?? 0) + 5,
    }));
    expect(countFlags(runQuality(samples).results)).toEqual({ 'temperature impossible-rate': 3 });
  });

  test('an open bed in sun and wind is not flagged away for more than two hours, nor is the probe at fault', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const random = randomFrom(seed);
      const samples = changed(sound, 5.4, 5.55, (sample) => ({
        ...sample,
        temperature: 31 + 3 * normal(random),
      }));
      const { results } = runQuality(samples);
      expect(longestFlagged_min(samples, results)).toBeLessThanOrEqual(120);
      expect(faultsIn(results)).toEqual([]);
    }
  });
});

describe('what is real', () => {
  test('a rot of 4 °C a day is never flagged', () => {
    const rotten = changed(soundProbe({ days: 15 }), 5, 99, (sample) => ({
      ...sample,
      temperature: (sample.temperature ?? 0) + Math.min(16, 4 * (dayOf(sample.at) - 5)),
    }));
    const { results } = runQuality(rotten);
    expect(flagsIn(results)).toEqual([]);
    expect(results.at(-1)?.hour.temperature?.mean).toBeGreaterThan(35);
  });

  test('a gap does not make what follows a spike', () => {
    const gap = soundProbe({ days: 10 })
      .filter(({ at }) => dayOf(at) < 4 || dayOf(at) >= 4.7)
      .map((sample) =>
        sample.at > START + 4.5 * 24 * HOUR_ms
          ? { ...sample, temperature: (sample.temperature ?? 0) + 4 }
          : sample,
      );
    expect(flagsIn(runQuality(gap).results)).toEqual([]);
  });
});
