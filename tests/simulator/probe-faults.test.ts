/** Probes that are not in order, and a shade that is none. */
import { describe, expect, test } from 'vitest';
import { simulateDays } from '../../simulator/days.js';
import type { Reading } from '../../simulator/delivery.js';
import { loadScenario } from '../../simulator/index.js';
import { ProbeFaults } from '../../simulator/probe-faults.js';
import type { Scenario } from '../../simulator/scenario.js';
import type { ProbeFault } from '../../simulator/scenario-faults.js';
import { Sunlit } from '../../simulator/sunlit.js';

const scenario = loadScenario('sound-pit');
const DAY_s = 86_400;

/** Hourly readings of ten days, 20 °C and 85 %RH give or take a little, as a probe with a fault tells them. */
function told(...probes: ProbeFault[]): (Reading | undefined)[] {
  const faults = new ProbeFaults({ ...scenario, faults: { ...scenario.faults, probes } }, 'p01', 1);
  return Array.from({ length: 240 }, (_, hour) => faults.told(measured(hour)));
}

const measured = (hour: number): Reading => ({
  time_s: hour * 3600,
  temperature_C: 20 + (hour % 7) / 100,
  humidity_RH: 85 + (hour % 5) / 10,
  battery_V: 3,
});

/** From the middle of the season on, for two days. */
const span = { probe: 'p01', startDay: 5, days: 2 };
const FROM = 5 * 24;
const TO = 7 * 24;

const departures = (readings: readonly (Reading | undefined)[]): number[] =>
  readings.map((reading, hour) => (reading?.temperature_C ?? Number.NaN) - measured(hour).temperature_C);

test.each<ProbeFault>([
  { kind: 'drift', ...span, C_per_day: 1 },
  { kind: 'offset-step', ...span, C: 3 },
  { kind: 'stuck', ...span },
  { kind: 'spikes', ...span, share: 1, size_C: 9 },
  { kind: 'sensor-code', ...span, code: 85, share: 1 },
  { kind: 'noisy', ...span, sd_C: 1 },
  { kind: 'silent', ...span },
  { kind: 'humidity-stuck-100', ...span },
  { kind: 'humidity-creep', ...span, RH_per_day: 2 },
  { kind: 'clock-jump', ...span, seconds: 7200 },
])('$kind: as measured before and after, and not meanwhile', (fault) => {
  const readings = told(fault);
  const asMeasured = readings.map(
    (reading, hour) => JSON.stringify(reading) === JSON.stringify(measured(hour)),
  );
  expect(asMeasured.slice(0, FROM).every(Boolean)).toBe(true);
  expect(asMeasured.slice(FROM, TO).some((same) => !same)).toBe(true);
  expect(asMeasured.slice(TO).every(Boolean)).toBe(true);
});

describe('what is told', () => {
  test('a drift goes on to the end where no end is given', () => {
    const courses = departures(told({ kind: 'drift', probe: 'p01', startDay: 5, C_per_day: 0.1 }));
    expect(courses[FROM]).toBeCloseTo(0, 2);
    expect(courses[FROM + 48]).toBeCloseTo(0.2, 2);
    expect(courses[239]).toBeCloseTo(0.1 * (239 / 24 - 5), 1);
  });

  test('a stuck probe repeats its last word', () => {
    const readings = told({ kind: 'stuck', ...span });
    for (const reading of readings.slice(FROM, TO))
      expect([reading?.temperature_C, reading?.humidity_RH]).toEqual([
        measured(FROM - 1).temperature_C,
        measured(FROM - 1).humidity_RH,
      ]);
  });

  test('spikes are as many and as large as is said, to either side', () => {
    const sizes = departures(
      told({ kind: 'spikes', probe: 'p01', startDay: 0, share: 0.2, size_C: 9 }),
    ).filter((size) => Math.abs(size) > 1e-6);
    expect(sizes.length / 240).toBeCloseTo(0.2, 1);
    expect(new Set(sizes.map((size) => size.toFixed(6)))).toEqual(new Set(['9.000000', '-9.000000']));
  });

  test('a sensor code comes now and then', () => {
    const codes = told({ kind: 'sensor-code', ...span, days: 5, code: -127, share: 0.3 }).filter(
      (reading) => reading?.temperature_C === -127,
    );
    expect(codes.length / 120).toBeGreaterThan(0.15);
    expect(codes.length / 120).toBeLessThan(0.45);
  });

  test('a noisy probe scatters as much as is said', () => {
    const sizes = departures(told({ kind: 'noisy', probe: 'p01', startDay: 0, sd_C: 1 }));
    expect(Math.sqrt(sizes.reduce((sum, size) => sum + size * size, 0) / sizes.length)).toBeCloseTo(1, 0);
  });

  test('nothing comes of a silent one, and humidity ends at 100', () => {
    expect(
      told({ kind: 'silent', ...span })
        .slice(FROM, TO)
        .every((reading) => reading === undefined),
    ).toBe(true);
    const humidities = told({ kind: 'humidity-creep', probe: 'p01', startDay: 1, RH_per_day: 3 });
    expect(humidities.at(-1)?.humidity_RH).toBe(100);
    expect(humidities[48]?.humidity_RH).toBeCloseTo(measured(48).humidity_RH + 3, 1);
  });

  test('a clock that jumps changes times only', () => {
    const readings = told({ kind: 'clock-jump', ...span, seconds: -1800 });
    expect(readings[FROM]).toEqual({ ...measured(FROM), time_s: FROM * 3600 - 1800 });
  });

  test('two faults at once both show', () => {
    const both = departures(
      told({ kind: 'offset-step', ...span, C: 3 }, { kind: 'drift', ...span, C_per_day: 1 }),
    );
    expect(both[FROM + 24]).toBeCloseTo(4, 2);
  });

  test('of another probe nothing is changed', () => {
    expect(told({ kind: 'silent', ...span, probe: 'p02' }).every((reading) => reading !== undefined)).toBe(
      true,
    );
  });
});

/** By probe, all that is sent. */
function sent(change: Partial<Scenario>, part: string): Map<string, Reading[]> {
  const season = { ...scenario, days: 6, ...change };
  const readings = new Map<string, Reading[]>();
  for (const day of simulateDays(season, part, 1))
    for (const { probe, readings: some } of day)
      readings.set(probe, [...(readings.get(probe) ?? []), ...some]);
  return readings;
}

describe('in a season', () => {
  test('a probe in the shade can fall silent, and none be there at all', () => {
    const probes: ProbeFault[] = [{ kind: 'silent', probe: 'p91', startDay: 2 }];
    const times = (sent({ faults: { ...scenario.faults, probes } }, 'shade').get('p91') ?? []).map(
      ({ time_s }) => time_s / DAY_s,
    );
    expect(Math.max(...times)).toBeLessThan(2);
    expect(Math.max(...times)).toBeGreaterThan(1.9);
    expect(sent({ shade: [] }, 'shade').size).toBe(0);
  });

  test('sun reaches a shade probe for some hours, by so much at the most', () => {
    const [shaded, sunlit] = [0, 6].map((shadeSunlit_C) => sent({ shadeSunlit_C }, 'shade').get('p91') ?? []);
    const warmer = (sunlit ?? []).map(({ temperature_C, time_s }, at) => ({
      by_C: temperature_C - (shaded?.[at]?.temperature_C ?? Number.NaN),
      hour: (time_s % DAY_s) / 3600,
    }));
    const reached = warmer.filter(({ by_C }) => by_C > 0.02);
    expect(Math.max(...warmer.map(({ by_C }) => by_C))).toBeGreaterThan(3);
    expect(Math.max(...warmer.map(({ by_C }) => by_C))).toBeLessThanOrEqual(6.01);
    expect(reached.length / warmer.length).toBeLessThan(4 / 24);
    expect(reached.every(({ hour }) => hour > 6 && hour < 18)).toBe(true);
  });

  test('which hours depends on the probe: of the morning or of the afternoon', () => {
    const noon = { air_C: 20, air_RH: 50, sun: 1 };
    const mornings = Array.from({ length: 60 }, (_, seed) => new Sunlit(5, 'p91', seed)).filter(
      (sunlit) => sunlit.warmer_C(8.5, noon) > 0,
    );
    expect(mornings.length).toBeGreaterThan(15);
    expect(mornings.length).toBeLessThan(45);
  });
});
