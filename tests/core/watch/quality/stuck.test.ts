/** The same value for long: stuck, or a quiet place and a coarse probe. */
import { describe, expect, test } from 'vitest';
import type { Sample } from '../../../../services/core/watch/watch.js';
import { changed, countFlags, faultsIn, flagsIn, runQuality, START, soundProbe } from './a-probe.js';

const frozen =
  (quantity: 'temperature' | 'humidity') =>
  (value: number) =>
  (sample: Sample): Sample => ({ ...sample, [quantity]: value });

describe('a probe that stays at one value', () => {
  test.each([
    ['temperature', 10, 20.27],
    ['temperature', 30, 20.27],
    ['humidity', 10, 86.1],
  ] as const)('%s every %d minutes is stuck within little more than a day', (quantity, every_min, value) => {
    const bad = changed(soundProbe({ days: 12, every_min }), 5, 8, frozen(quantity)(value));
    const { results } = runQuality(bad);
    const [fault, ...others] = faultsIn(results);
    expect(others).toEqual([]);
    expect(fault).toMatchObject({ fault: `stuck ${quantity}`, since: 5 });
    expect((fault?.toldOn ?? 99) - 5).toBeLessThan(1.1);
    expect(fault?.overOn).toBe(8.5);
    expect(new Set(flagsIn(results))).toEqual(new Set([`${quantity} stuck`]));
  });

  test('gives no usable hour while it is', () => {
    const { results } = runQuality(changed(soundProbe({ days: 12 }), 5, 8, frozen('temperature')(20.27)));
    expect(results[7 * 24]?.hour.temperature).toBeUndefined();
    expect(results[7 * 24]?.hour.humidity?.count).toBe(6);
  });

  test('from the first is told where its value cannot be of coarse steps', () => {
    const { results } = runQuality(changed(soundProbe({ days: 20 }), 0, 99, frozen('temperature')(21.37)));
    expect(faultsIn(results).map(({ fault }) => fault)).toEqual(['stuck temperature']);
  });

  test('in the shade it is told within little more than 36 h, even in half degrees', () => {
    const bad = changed(soundProbe({ days: 9, noise_C: 0.3, step_C: 0.5 }), 5, 99, frozen('temperature')(21));
    const [fault] = faultsIn(runQuality(bad, { place: 'shade' }).results);
    expect(fault).toMatchObject({ fault: 'stuck temperature', since: 5 });
    expect((fault?.toldOn ?? 99) - 5).toBeLessThan(1.6);
  });
});

describe('a quiet place is not stuck', () => {
  /** Without any noise: the turn of the season, and what is left of the day 40 cm down in dry sand (0.3 %, computed). */
  const still = (step: number): Sample[] =>
    Array.from({ length: 40 * 144 }, (_, index) => {
      const day = index / 144;
      const value = 20 - 0.002 * (day - 20) ** 2 + 0.02 * Math.sin(2 * Math.PI * day);
      return {
        at: START + index * 600_000,
        temperature: Number((Math.round(value / step) * step).toFixed(4)),
      };
    });
  test.each([0.5, 0.125, 0.1, 0.0625, 0.01])('without noise, in steps of %d °C', (step) => {
    expect(flagsIn(runQuality(still(step)).results)).toEqual([]);
  });
  test.each([1, 0.5])('a humidity without noise in steps of %d percent', (step) => {
    const samples = soundProbe({ days: 40, noise_RH: 0, step_RH: step });
    expect(flagsIn(runQuality(samples).results)).toEqual([]);
  });
  test('a DS18B20 at its coarsest, with noise', () => {
    expect(flagsIn(runQuality(soundProbe({ days: 40, step_C: 0.5 })).results)).toEqual([]);
  });
  test('wet sand at exactly 100 %RH for weeks', () => {
    const wet = changed(soundProbe({ days: 40 }), 5, 99, (sample, index) => ({
      ...sample,
      humidity: Math.min(100, 86 + index),
    }));
    expect(countFlags(runQuality(wet).results)).toEqual({});
  });
});

describe('what is needed to call it stuck', () => {
  test('other values between begin it anew', () => {
    const bad = changed(soundProbe({ days: 8 }), 5, 7, (sample, index) => ({
      ...sample,
      temperature: index % 60 === 0 ? 20.28 : 20.27,
    }));
    expect(flagsIn(runQuality(bad).results)).toEqual([]);
  });
  test('few samples over long prove nothing', () => {
    const rare = soundProbe({ days: 5, every_min: 720 }).map((sample) => ({ ...sample, temperature: 21.37 }));
    expect(flagsIn(runQuality(rare.slice(0, 5)).results)).toEqual([]);
  });
});
