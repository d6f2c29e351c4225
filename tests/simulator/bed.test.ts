import { describe, expect, test } from 'vitest';
import { loadScenario } from '../../simulator/built-in.js';
import { simulateDays } from '../../simulator/days.js';
import type { Reading } from '../../simulator/delivery.js';
import { Gateway } from '../../simulator/delivery.js';
import { respiration_W_kg } from '../../simulator/respiration.js';
import { rot_W } from '../../simulator/rot.js';
import type { Scenario } from '../../simulator/scenario.js';

const shortened = (name: string, days: number): Scenario => ({
  ...loadScenario(name),
  days,
  everyMinutes: 60,
  faults: { lost: 0, outageEvery_days: 0, probes: [], outages: [] },
});

/** By probe: readings of the whole season. */
function readingsOf(scenario: Scenario, part: string, seed = 1): Map<string, Reading[]> {
  const readings = new Map<string, Reading[]>();
  for (const sent of simulateDays(scenario, part, seed))
    for (const { probe, readings: some } of sent)
      readings.set(probe, [...(readings.get(probe) ?? []), ...some]);
  return readings;
}

const meanOf = (
  readings: readonly Reading[] | undefined,
  key: 'temperature_C' | 'humidity_RH',
  day: number,
): number => {
  const some = (readings ?? []).filter(({ time_s }) => Math.ceil(time_s / 86_400) === day + 1);
  return some.reduce((sum, reading) => sum + reading[key], 0) / some.length;
};

describe('a sound pit', () => {
  const pit = readingsOf(shortened('sound-pit', 30), 'pit-a');
  const shade = readingsOf(shortened('sound-pit', 30), 'shade');

  test('its middle is some degrees warmer than the shade, as a store of living roots is', () => {
    const excess =
      meanOf(pit.get('p02'), 'temperature_C', 25) - meanOf(shade.get('p91'), 'temperature_C', 25);
    expect(excess).toBeGreaterThan(1);
    expect(excess).toBeLessThan(5);
  });

  test('the day of the shade hardly reaches 35 cm down', () => {
    const range = (readings: readonly Reading[] = []): number => {
      const day = readings
        .filter(({ time_s }) => Math.ceil(time_s / 86_400) === 21)
        .map(({ temperature_C }) => temperature_C);
      return Math.max(...day) - Math.min(...day);
    };
    // Daily swing left at 30 cm in dry sand: 1.6 % (computed from the damping depth); noise and slow drift beside it.
    expect(range(pit.get('p01'))).toBeLessThan(0.06 * range(shade.get('p91')));
  });

  test('its sand is as humid as sound roots make it', () => {
    for (const readings of pit.values()) {
      expect(meanOf(readings, 'humidity_RH', 28)).toBeGreaterThan(78);
      expect(meanOf(readings, 'humidity_RH', 28)).toBeLessThan(94);
    }
  });

  test('the same seed gives the same readings', () => {
    expect(readingsOf(shortened('sound-pit', 2), 'pit-a', 5)).toEqual(
      readingsOf(shortened('sound-pit', 2), 'pit-a', 5),
    );
  });
});

describe('what was planted shows', () => {
  const grown = { startDay: 2, x: 62, y: 52, depth: 38, grown_W: 4, growth_days: 9 };

  test('rot warms the probe beside it, and one further off less', () => {
    const scenario = shortened('rot-pit', 18);
    const [bed] = scenario.beds;
    if (!bed) throw new Error('expected a bed');
    const sound = readingsOf({ ...scenario, beds: [{ ...bed, rots: [] }] }, 'pit-b');
    const rotten = readingsOf({ ...scenario, beds: [{ ...bed, rots: [grown] }] }, 'pit-b');
    const rise = (probe: string): number =>
      meanOf(rotten.get(probe), 'temperature_C', 16) - meanOf(sound.get(probe), 'temperature_C', 16);
    expect(rise('p12')).toBeGreaterThan(2);
    expect(rise('p13')).toBeLessThan(0.5 * rise('p12'));
    expect(rise('p13')).toBeGreaterThan(0.1);
  });

  test('a leak makes the air at a probe humid, and colder swings reach it', () => {
    const scenario = shortened('leak-pit', 14);
    const [bed] = scenario.beds;
    if (!bed?.leak) throw new Error('expected a leak');
    const wet = readingsOf({ ...scenario, beds: [{ ...bed, leak: { ...bed.leak, startDay: 3 } }] }, 'pit-c');
    expect(meanOf(wet.get('p22'), 'humidity_RH', 12)).toBeGreaterThan(97);
    expect(meanOf(wet.get('p22'), 'humidity_RH', 2)).toBeLessThan(93);
  });

  test('a cluster gives off nothing before it starts, and never more than when it is grown', () => {
    expect(rot_W(grown, 2)).toBe(0);
    expect(rot_W(grown, 11)).toBeCloseTo(4 * (1 - Math.exp(-1)), 9);
    expect(rot_W(grown, 500)).toBeLessThanOrEqual(4);
  });
});

test('respiration: 59 W/t of settled roots at 15 °C and twice that at 25 (from memory: handbook tables), more when fresh', () => {
  expect(respiration_W_kg(15, 1000)).toBeCloseTo(0.059, 6);
  expect(respiration_W_kg(25, 1000)).toBeCloseTo(0.118, 6);
  expect(respiration_W_kg(15, 0)).toBeCloseTo(0.059 * 1.6, 6);
});

test('respiration: no bed warms without end, for roots that are too hot die (judgement)', () => {
  expect(respiration_W_kg(40, 1000)).toBeCloseTo(respiration_W_kg(36, 1000), 9);
  expect(respiration_W_kg(44, 1000)).toBeCloseTo(respiration_W_kg(36, 1000) / 2, 9);
  expect(respiration_W_kg(60, 1000)).toBe(0);
});

describe('how readings get out', () => {
  const reading = (time_s: number): Reading => ({ time_s, temperature_C: 20, humidity_RH: 85, battery_V: 3 });
  const run = (lost: number, outageEvery_days: number, days: number) => {
    const gateway = new Gateway('pit', 3, { lost, outageEvery_days });
    return Array.from({ length: days * 144 }, (_, index) =>
      gateway.send(index * 600, [['p01', reading(index * 600)]]),
    ).flat();
  };

  test('without faults each reading leaves at once, alone', () => {
    const sent = run(0, 0, 2);
    expect(sent).toHaveLength(288);
    expect(sent.every(({ at_s, readings }) => readings.length === 1 && readings[0]?.time_s === at_s)).toBe(
      true,
    );
  });

  test('what an outage holds up leaves together, late, and once', () => {
    const sent = run(0, 5, 60);
    const late = sent.filter(({ readings }) => readings.length > 1);
    expect(late.length).toBeGreaterThan(3);
    const times = sent.flatMap(({ readings }) => readings.map(({ time_s }) => time_s));
    expect(new Set(times).size).toBe(times.length);
    expect(times.length).toBeGreaterThan(60 * 144 - 250);
  });

  describe('a long outage that is known beforehand', () => {
    const outages = [
      { part: 'pit', fromDay: 2, days: 5 },
      { part: 'other', fromDay: 8, days: 1 },
    ];
    const gateway = new Gateway('pit', 3, { lost: 0, outageEvery_days: 0, outages });
    const sent = Array.from({ length: 10 * 144 }, (_, index) =>
      gateway.send(index * 600, [['p01', reading(index * 600)]]),
    ).flat();

    test('comes late in one go, with all that was measured meanwhile', () => {
      const late = sent.filter(({ readings }) => readings.length > 1);
      expect(late.map(({ at_s, readings }) => [at_s, readings.length])).toEqual([[7 * 86_400, 5 * 144]]);
      expect(sent.flatMap(({ readings }) => readings)).toHaveLength(10 * 144);
    });

    test('holds up its own bed only', () => {
      expect(sent.filter(({ at_s }) => at_s > 7 * 86_400)).toHaveLength(3 * 144 - 1);
    });
  });

  test('some are lost, about as many as is said', () => {
    expect(run(0.1, 0, 30).length / (30 * 144)).toBeCloseTo(0.9, 1);
  });
});
