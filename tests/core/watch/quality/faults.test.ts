/** Noise and silence; how long a fault stands. */
import { describe, expect, test } from 'vitest';
import { changed, dayOf, faultsIn, flagsIn, normal, randomFrom, runQuality, soundProbe } from './a-probe.js';

describe('scatter', () => {
  test.each([
    ['temperature', 5, 10],
    ['temperature', 5, 30],
    ['temperature', 30, 10],
    ['humidity', 5, 10],
    ['humidity', 5, 30],
  ] as const)(
    'of %s %d times its own is told within two days, every %d minutes',
    (quantity, times, every_min) => {
      const own = quantity === 'temperature' ? 0.03 : 0.25;
      const random = randomFrom(11);
      const samples = changed(soundProbe({ days: 14, every_min }), 7, 99, (sample) => ({
        ...sample,
        [quantity]: (sample[quantity] ?? 0) + times * own * normal(random),
      }));
      const [fault, ...others] = faultsIn(runQuality(samples).results);
      expect(others).toEqual([]);
      expect(fault?.fault).toBe(`noisy ${quantity}`);
      expect(fault?.toldOn).toBeGreaterThan(7);
      expect(fault?.toldOn).toBeLessThan(9);
    },
  );

  test('that stays is not learned to be its own in a month', () => {
    const random = randomFrom(15);
    const samples = changed(soundProbe({ days: 37, every_min: 30 }), 7, 99, (sample) => ({
      ...sample,
      temperature: (sample.temperature ?? 0) + 0.15 * normal(random),
    }));
    const faults = faultsIn(runQuality(samples).results);
    expect(faults.map(({ fault, overOn }) => [fault, overOn])).toEqual([['noisy temperature', undefined]]);
  });

  test('of twice its own is not told', () => {
    const random = randomFrom(12);
    const samples = changed(soundProbe({ days: 20 }), 7, 99, (sample) => ({
      ...sample,
      temperature: (sample.temperature ?? 0) + Math.sqrt(3) * 0.03 * normal(random),
    }));
    expect(faultsIn(runQuality(samples).results)).toEqual([]);
  });

  test('of a probe that always was as noisy is not told', () => {
    expect(faultsIn(runQuality(soundProbe({ days: 20, noise_C: 0.15 })).results)).toEqual([]);
  });

  test('that grew for two hours is not told', () => {
    const random = randomFrom(13);
    const samples = changed(soundProbe({ days: 14 }), 7, 7.09, (sample) => ({
      ...sample,
      temperature: (sample.temperature ?? 0) + 0.3 * normal(random),
    }));
    expect(faultsIn(runQuality(samples).results)).toEqual([]);
  });

  test('that is back to its own is over within five days', () => {
    const random = randomFrom(14);
    const samples = changed(soundProbe({ days: 16 }), 7, 9, (sample) => ({
      ...sample,
      temperature: (sample.temperature ?? 0) + 0.3 * normal(random),
    }));
    const [fault, ...others] = faultsIn(runQuality(samples).results);
    expect(others).toEqual([]);
    expect(fault?.overOn).toBeGreaterThan(12);
    expect(fault?.overOn).toBeLessThan(14);
  });
});

describe('silence', () => {
  const gone = soundProbe({ days: 12 }).filter(({ at }) => dayOf(at) < 5 || dayOf(at) >= 8);

  test('is told after a day while others speak, and over three hours after it ended', () => {
    const faults = faultsIn(runQuality(gone).results);
    expect(faults.map(({ fault }) => fault)).toEqual(['silent']);
    expect(faults[0]?.since).toBeCloseTo(5 - 1 / 144, 6);
    expect(faults[0]?.toldOn).toBeCloseTo(6, 6);
    // The first hour back is not yet settled and does not count.
    expect(faults[0]?.overOn).toBeCloseTo(8 + 4 / 24, 6);
  });

  test('of all is not the probe’s', () => {
    expect(faultsIn(runQuality(gone, { allSilent: true }).results)).toEqual([]);
  });

  test('of 23 hours is not told', () => {
    const short = soundProbe({ days: 8 }).filter(({ at }) => dayOf(at) < 5 || dayOf(at) >= 5 + 23 / 24);
    expect(faultsIn(runQuality(short).results)).toEqual([]);
    expect(flagsIn(runQuality(short).results)).toEqual([]);
  });

  test('of a probe that never spoke counts from its placing', () => {
    const faults = faultsIn(runQuality([], { toDay: 3 }).results);
    expect(faults).toMatchObject([{ fault: 'silent', since: 0, toldOn: 1 }]);
  });
});

test('a fault of one sensor is not over because the other is well', () => {
  const samples = soundProbe({ days: 12 }).map((sample) => {
    const day = dayOf(sample.at);
    if (day < 5) return sample;
    return day < 7 ? { ...sample, temperature: 85 } : { at: sample.at, humidity: sample.humidity ?? 0 };
  });
  const [fault, ...others] = faultsIn(runQuality(samples).results);
  expect(others).toEqual([]);
  expect(fault?.fault).toBe('sensor-code temperature');
  expect(fault?.overOn).toBeUndefined();
});
