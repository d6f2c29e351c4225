/** A wet front told from a humidity sensor that fails at the end of its range. */
import { describe, expect, test } from 'vitest';
import type { Sample } from '../../../../services/core/watch/watch.js';
import { changed, countFlags, dayOf, faultsIn, runQuality, soundProbe } from './a-probe.js';

const at100 = (sample: Sample): Sample => ({ ...sample, humidity: 100 });
const hoursAfter = (at: number): number => (dayOf(at) - 5) * 24;
const unsureHours = (samples: readonly Sample[]): number =>
  runQuality(samples).results.filter(({ hour }) => hour.wetOrBroken).length;

describe('a sensor that fails at 100', () => {
  test.each([10, 30])('is dead within 8 h and not used from then on, every %d minutes', (every_min) => {
    const { results } = runQuality(changed(soundProbe({ days: 9, every_min }), 5, 99, at100));
    const [fault, ...others] = faultsIn(results);
    expect(others).toEqual([]);
    expect(fault).toMatchObject({ fault: 'dead-humidity humidity', since: 5 });
    expect((fault?.toldOn ?? 99) - 5).toBeLessThanOrEqual(8 / 24);
    expect(results.at(-1)?.hour.humidity).toBeUndefined();
    expect(results.at(-1)?.hour.temperature).toBeDefined();
  });

  test('is said to be wet or broken until then', () => {
    const { results } = runQuality(changed(soundProbe({ days: 9 }), 5, 99, at100));
    const unsure = results.map(({ hour }) => hour.wetOrBroken);
    expect(unsure.slice(120, 126)).toEqual(Array(6).fill(true));
    expect(unsure[119]).toBe(false);
    expect(unsure.slice(128)).not.toContain(true);
  });

  test('is dead all the same where it sends no numbers now and then', () => {
    const bad = changed(soundProbe({ days: 7 }), 5, 99, (sample, index) =>
      index % 10 === 7 ? { ...sample, humidity: Number.NaN } : at100(sample),
    );
    expect(faultsIn(runQuality(bad).results).map(({ fault }) => fault)).toContain('dead-humidity humidity');
  });

  test('is over half a day after it measures again, and nothing else is told', () => {
    const { results } = runQuality(changed(soundProbe({ days: 9 }), 5, 7, at100));
    expect(faultsIn(results)).toMatchObject([{ fault: 'dead-humidity humidity', overOn: 7.5 }]);
  });

  test('cannot be told from water where samples are an hour apart, and it is said so', () => {
    const samples = changed(soundProbe({ days: 7, every_min: 60 }), 5, 99, at100);
    expect(faultsIn(runQuality(samples).results)).toEqual([]);
    expect(unsureHours(samples)).toBe(48);
  });

  test('cannot be told from water after a gap of 50 minutes', () => {
    const gap = changed(soundProbe({ days: 7 }), 5, 99, at100).filter(
      ({ at }) => dayOf(at) < 5 - 45 / 1440 || dayOf(at) >= 5,
    );
    expect(faultsIn(runQuality(gap).results)).toEqual([]);
    expect(unsureHours(gap)).toBe(48);
  });

  test('cannot be told from water without a temperature', () => {
    const samples = changed(soundProbe({ days: 7 }), 5, 99, at100).map(({ at, humidity }) => ({
      at,
      ...(humidity !== undefined && { humidity }),
    }));
    expect(faultsIn(runQuality(samples).results)).toEqual([]);
    expect(unsureHours(samples)).toBe(48);
  });
});

describe('a wet front', () => {
  const sound = soundProbe({ days: 9 });

  test('that takes an hour and a half, clipped at 100, is used all the way and in no doubt', () => {
    const wet = changed(sound, 5, 99, (sample) => {
      const kept = Math.exp(-hoursAfter(sample.at) / 0.7);
      return { ...sample, humidity: Math.min(100, Math.round(10 * (101.5 - 15.5 * kept)) / 10) };
    });
    expect(unsureHours(wet)).toBe(0);
    expect(countFlags(runQuality(wet).results)).toEqual({});
  });

  test('that is there at once but cools the sand is no fault, and humid within the hour', () => {
    const wet = changed(sound, 5, 99, (sample) => ({
      ...sample,
      humidity: 100,
      temperature: (sample.temperature ?? 0) - 1.5 * (1 - Math.exp(-hoursAfter(sample.at) / 0.3)),
    }));
    const { results } = runQuality(wet);
    expect(faultsIn(results)).toEqual([]);
    expect(results[120]?.hour.humidity?.mean).toBe(100);
    expect(results.slice(121).some(({ hour }) => hour.wetOrBroken)).toBe(false);
  });

  test('whose sensor still scatters is no fault', () => {
    const wet = changed(sound, 5, 99, (sample, index) => ({
      ...sample,
      humidity: index % 9 === 4 ? 99.8 : 100,
    }));
    expect(faultsIn(runQuality(wet).results)).toEqual([]);
    expect(unsureHours(wet)).toBeLessThanOrEqual(1);
  });

  test('that was on its way for two samples is in no doubt, though it then stays at 100', () => {
    const wet = changed(sound, 5, 99, (sample, index) => ({ ...sample, humidity: [90, 94.5][index] ?? 100 }));
    expect(unsureHours(wet)).toBe(0);
    expect(faultsIn(runQuality(wet).results)).toEqual([]);
  });

  test('a spike to 100 leaves no doubt behind', () => {
    expect(unsureHours(changed(sound, 5, 5.005, at100))).toBe(0);
  });
});
