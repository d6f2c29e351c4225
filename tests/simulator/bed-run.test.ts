/** A bed as the simulation has it, before any probe: heat is kept, and weather arrives damped and late. */
import { describe, expect, test } from 'vitest';
import { BedRun } from '../../simulator/bed-run.js';
import { loadScenario } from '../../simulator/index.js';
import type { SandAt } from '../../simulator/probe-points.js';
import type { Scenario } from '../../simulator/scenario.js';
import { type Hour, madeUpWeather } from '../../simulator/weather.js';

function* hoursOf(scenario: Scenario, seed = 1): Generator<[Hour, Hour]> {
  const weather = madeUpWeather(scenario.weather, seed);
  let from = weather.next().value as Hour;
  for (let hour = 0; hour < scenario.days * 24; hour += 1) {
    const to = weather.next().value as Hour;
    yield [from, to];
    from = to;
  }
}

function bedOf(scenario: Scenario): BedRun {
  const [bed] = scenario.beds;
  const first = hoursOf(scenario).next().value?.[0];
  if (!bed || !first) throw new Error('expected a bed and weather');
  return new BedRun(scenario, bed, first, 1);
}

/** What each probe is in at the end of each hour. */
function run(scenario: Scenario): SandAt[][] {
  const bed = bedOf(scenario);
  return Array.from(hoursOf(scenario), ([from, to]) => bed.next(from, to).at(-1) ?? []);
}

/** Daily means at the probe of a number, °C. */
function daysAt(hours: readonly SandAt[][], probe: number): number[] {
  return Array.from({ length: hours.length / 24 }, (_, day) =>
    hours
      .slice(day * 24, day * 24 + 24)
      .reduce((sum, sands) => sum + (sands[probe]?.temperature_C ?? Number.NaN) / 24, 0),
  );
}

test.each(['rot-pit', 'sound-box'])('%s: heat released and let in is the heat that is there', (name) => {
  const scenario = { ...loadScenario(name), days: 25 };
  const bed = bedOf(scenario);
  const { conduction } = bed.model;
  const step = conduction.step.bind(conduction);
  let given_J = 0;
  conduction.step = (step_s, outside_C) => {
    given_J += step_s * conduction.source_W.reduce((sum, power_W) => sum + power_W, 0);
    const inflow_J = step(step_s, outside_C);
    given_J += inflow_J;
    return inflow_J;
  };
  const before_J = conduction.heat_J();
  for (const [from, to] of hoursOf(scenario)) bed.next(from, to);
  const balance_J = conduction.heat_J() - before_J - given_J;
  // Rounding of some 4,000 steps over 10,000 cells.
  expect(Math.abs(balance_J / before_J)).toBeLessThan(1e-11);
});

test('a cluster gives off all of its heat in the bed: five watts are five watts', () => {
  const sound = { ...loadScenario('rot-pit'), days: 25 };
  const released = (scenario: Scenario): number => {
    const bed = bedOf(scenario);
    const [hour] = hoursOf(scenario);
    if (!hour) throw new Error('expected an hour');
    bed.next(...hour);
    return bed.model.conduction.source_W.reduce((sum, power_W) => sum + power_W, 0);
  };
  const [bed] = sound.beds;
  if (!bed) throw new Error('expected a bed');
  const grown = { startDay: -1000, x: 62, y: 52, depth: 38, grown_W: 5, growth_days: 6 };
  const rise_W =
    released({ ...sound, beds: [{ ...bed, rots: [grown] }] }) -
    released({ ...sound, beds: [{ ...bed, rots: [] }] });
  expect(rise_W).toBeCloseTo(5, 9);
});

describe('a week five degrees hotter, from day 12', () => {
  const base = { ...loadScenario('sound-pit'), days: 34 };
  const withSpells = (hotSpells: Scenario['weather']['hotSpells']): SandAt[][] =>
    run({ ...base, weather: { ...base.weather, hotSpells } });
  const usual = withSpells([]);
  const hot = withSpells([{ startDay: 12, days: 7, warmer_C: 5 }]);
  const riseAt = (probe: number): number[] =>
    daysAt(hot, probe).map((value, day) => value - (daysAt(usual, probe)[day] ?? Number.NaN));
  const warmest = (rises: readonly number[]): number => rises.indexOf(Math.max(...rises));

  // Of the pit's probes the first stands 35 cm deep, the second 42, the fourth 20.
  test('reaches the sand damped, the deeper the more', () => {
    const [upper, deep, deepest] = [riseAt(3), riseAt(0), riseAt(1)].map((rises) => Math.max(...rises));
    expect(upper).toBeGreaterThan(deep as number);
    expect(deep).toBeGreaterThan(deepest as number);
    expect(upper).toBeLessThan(5 * 0.85);
    expect(deepest).toBeGreaterThan(5 * 0.15);
    expect(deepest).toBeLessThan(5 * 0.5);
  });

  test('and late: the deepest is warmest after the air has cooled again', () => {
    expect(warmest(riseAt(3))).toBeLessThanOrEqual(18);
    expect(warmest(riseAt(1))).toBeGreaterThanOrEqual(19);
  });

  test('and passes', () => {
    expect(riseAt(3).at(-1)).toBeLessThan(0.6);
    expect(riseAt(3)[11]).toBeCloseTo(0, 9);
  });
});
