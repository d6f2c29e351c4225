import { describe, expect, test } from 'vitest';
import { DAY_ms, HOUR_ms } from '../../../services/core/model/time.js';
import {
  humidityLookedAfter,
  newHumidityDrift,
  takeHumidityHour,
} from '../../../services/core/watch/humidity-drift.js';
import { randomFor } from '../../../simulator/random.js';

const START = Date.UTC(2026, 4, 4);
const PROBES = ['p01', 'p02', 'p03', 'p04'];

/** %RH at an hour since filling. */
type Humidity = (probe: string, day: number) => number | undefined;

const noise = randomFor(1, 'humidity');
const sound: Humidity = (probe, day) =>
  85 + PROBES.indexOf(probe) + 0.6 * Math.sin(day / 3 + PROBES.indexOf(probe)) + 0.4 * (noise() - 0.5);
const also =
  (probe: string, more_RH: (day: number) => number): Humidity =>
  (id, day) => {
    const value = sound(id, day);
    return value === undefined || id !== probe ? value : value + more_RH(day);
  };
const since = (day: number, begin: number): number => Math.max(0, day - begin);

/** Days on which a probe was told, by probe. */
function toldIn(days: number, humidity: Humidity, probes = PROBES, packed_day = 0) {
  const state = newHumidityDrift();
  const told = new Map<string, number[]>();
  for (let at = 0; at < days * 24; at += 1) {
    const means = new Map(
      probes.flatMap((id) => {
        const value = humidity(id, at / 24);
        return value === undefined ? [] : [[id, value] as const];
      }),
    );
    const hour = START + at * HOUR_ms;
    for (const id of takeHumidityHour(state, { hour, means, packedAt: START + packed_day * DAY_ms }).keys())
      told.set(id, [...(told.get(id) ?? []), at / 24]);
  }
  return told;
}

describe('one humidity', () => {
  test.each([0.4, 0.7, 1.5, -0.7])(
    'that leaves the others by %d %RH a day is told within two weeks',
    (rate) => {
      const told = toldIn(
        50,
        also('p02', (day) => rate * since(day, 20)),
      );
      expect([...told.keys()]).toEqual(['p02']);
      expect(told.get('p02')?.[0]).toBeGreaterThanOrEqual(22);
      expect(told.get('p02')?.[0]).toBeLessThan(36);
    },
  );

  test('that comes back is told no more', () => {
    const told = toldIn(
      60,
      also('p02', (day) => (day > 40 ? 0 : since(day, 20))),
    );
    expect(told.get('p02')?.at(-1)).toBeLessThan(43);
  });

  test('that stays with the others is let be, however they go together', () => {
    expect(toldIn(120, sound).size).toBe(0);
    const together: Humidity = (probe, day) => (sound(probe, day) ?? 0) + 0.4 * since(day, 15);
    expect(toldIn(60, together).size).toBe(0);
  });

  test('that jumps, as where a wet front comes to it, is not one that drifts', () => {
    expect(
      toldIn(
        60,
        also('p02', (day) => (day > 20 ? 8 : 0)),
      ).size,
    ).toBe(0);
  });

  test('is not judged in the days in which roots wet the sand, nor where it is alone', () => {
    const drift = also('p02', (day) => since(day, 20));
    expect(toldIn(29, drift, PROBES, 20).size).toBe(0);
    expect(toldIn(50, drift, ['p02']).size).toBe(0);
  });

  test('is the one of two that moves', () => {
    expect([
      ...toldIn(
        50,
        also('p02', (day) => since(day, 20)),
        ['p01', 'p02'],
      ).keys(),
    ]).toEqual(['p02']);
  });

  test('that measures nothing is not judged', () => {
    const silent: Humidity = (probe, day) => (probe === 'p02' ? undefined : sound(probe, day));
    expect(toldIn(50, silent).size).toBe(0);
  });
});

test('whoever looks ends it', () => {
  const state = newHumidityDrift();
  const drift = also('p02', (day) => since(day, 20));
  const take = (at: number): number =>
    takeHumidityHour(state, {
      hour: START + at * HOUR_ms,
      means: new Map(PROBES.map((id) => [id, drift(id, at / 24) ?? 0])),
      packedAt: START,
    }).size;
  for (let at = 0; at < 28 * 24; at += 1) take(at);
  expect(take(28 * 24)).toBe(1);
  humidityLookedAfter(state);
  expect(take(28 * 24 + 1)).toBe(0);
});
