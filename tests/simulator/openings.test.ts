/** Beds that are opened, and sand that is taken: what the probes are in meanwhile and afterwards. */
import { describe, expect, test } from 'vitest';
import { BedRun } from '../../simulator/bed-run.js';
import { loadScenario } from '../../simulator/index.js';
import type { SandAt } from '../../simulator/probe-points.js';
import type { Scenario } from '../../simulator/scenario.js';
import type { Opening } from '../../simulator/scenario-bed.js';
import { type Hour, madeUpWeather } from '../../simulator/weather.js';

const scenario: Scenario = { ...loadScenario('sound-pit'), days: 14 };
const [pit] = scenario.beds as [Scenario['beds'][number]];
/** Of the pit's probes the first stands 35 cm deep, the second 42, the fourth 20. */
const [UPPER, DEEPEST] = [3, 1] as const;

const opening: Opening = {
  day: 8 + 10 / 24,
  hours: 2.5,
  told: false,
  repacked: false,
  sunWarmed_C: 9,
  depth: 30,
  moved_cm: 0,
};

interface Tick {
  readonly sands: SandAt[];
  /** In the shade at its end, °C. */
  readonly air_C: number;
}

/** The bed tick by tick: six an hour. */
function run(bed: Partial<typeof pit>, faults: Scenario['faults']['probes'] = []): Tick[] {
  const season = { ...scenario, faults: { ...scenario.faults, probes: faults } };
  const weather = madeUpWeather(scenario.weather, 1);
  let from = weather.next().value as Hour;
  const beds = new BedRun(season, { ...pit, ...bed }, from, 1);
  return Array.from({ length: scenario.days * 24 }, () => {
    const to = weather.next().value as Hour;
    const sands = beds.next(from, to);
    const ticks = sands.map((tick, index) => ({
      sands: tick,
      air_C: from.air_C + ((index + 1) / 6) * (to.air_C - from.air_C),
    }));
    from = to;
    return ticks;
  }).flat();
}

const OPENED = (8 * 24 + 10) * 6;
const CLOSED = OPENED + 15;
const at = (ticks: readonly Tick[], tick: number, probe: number): SandAt => {
  const sand = ticks[tick]?.sands[probe];
  if (!sand) throw new Error('expected a probe');
  return sand;
};

describe('an opening', () => {
  const usual = run({});
  const opened = run({ openings: [opening] });

  test('changes nothing before it', () => {
    expect(at(opened, OPENED - 1, UPPER)).toEqual(at(usual, OPENED - 1, UPPER));
  });

  test('leaves the probes above its floor in the air while it lasts, and no others', () => {
    for (const tick of [OPENED, CLOSED - 1]) {
      const { temperature_C, air_RH } = at(opened, tick, UPPER);
      // What the roof adds, up to 2 °C.
      expect(temperature_C - (opened[tick]?.air_C ?? Number.NaN)).toBeGreaterThanOrEqual(0);
      expect(temperature_C - (opened[tick]?.air_C ?? Number.NaN)).toBeLessThan(2.2);
      expect(air_RH).toBeGreaterThan(5);
      expect(air_RH).toBeLessThan(80);
      expect(at(opened, tick, DEEPEST).air_RH).toBeUndefined();
    }
    expect(at(opened, CLOSED, UPPER).air_RH).toBeUndefined();
  });

  test('puts sand back as much warmer than the air as it became in the sun', () => {
    const rise_C = at(opened, CLOSED, UPPER).temperature_C - at(opened, CLOSED - 1, UPPER).temperature_C;
    expect(rise_C).toBeGreaterThan(7.5);
    expect(rise_C).toBeLessThan(9.5);
  });

  test('reaches a deeper probe slowly, and passes', () => {
    const rise_C = (tick: number, probe: number): number =>
      at(opened, tick, probe).temperature_C - at(usual, tick, probe).temperature_C;
    expect(Math.abs(rise_C(CLOSED + 1, DEEPEST))).toBeLessThan(0.2);
    expect(rise_C(CLOSED + 2 * 144, DEEPEST)).toBeGreaterThan(0.3);
    expect(rise_C(CLOSED + 4 * 144, UPPER)).toBeLessThan(rise_C(CLOSED + 144, UPPER));
  });
});

describe('sand taken from the top for good', () => {
  const usual = run({});
  const taken = run({ sandTaken: { day: 8, depth: 10 } });
  const swing_C = (ticks: readonly Tick[], probe: number, day: number): number => {
    const values = ticks
      .slice(day * 144, day * 144 + 144)
      .map(({ sands }) => sands[probe]?.temperature_C ?? 0);
    return Math.max(...values) - Math.min(...values);
  };

  test('brings the surface nearer: the day reaches deeper', () => {
    expect(swing_C(taken, UPPER, 6)).toBeCloseTo(swing_C(usual, UPPER, 6), 9);
    expect(swing_C(taken, UPPER, 12)).toBeGreaterThan(1.5 * swing_C(usual, UPPER, 12));
  });

  test('leaves a probe that lay in it in the air, to the end', () => {
    const probes = [{ id: 'p01', x: 75, y: 50, depth: 6 }];
    const bare = run({ probes, sandTaken: { day: 8, depth: 10 } });
    expect(at(bare, 8 * 144 - 1, 0).air_RH).toBeUndefined();
    expect(at(bare, 8 * 144, 0).air_RH).toBeGreaterThan(5);
    expect(at(bare, 14 * 144 - 1, 0).air_RH).toBeGreaterThan(5);
  });
});

test('a pulled probe is in the air as long as it is pulled', () => {
  const pulled = run({}, [{ kind: 'pulled', probe: 'p02', startDay: 5, days: 2 }]);
  const inAir = pulled.map((_, tick) => at(pulled, tick, DEEPEST).air_RH !== undefined);
  expect([inAir.indexOf(true), inAir.lastIndexOf(true)]).toEqual([5 * 144, 7 * 144 - 1]);
  expect(at(pulled, 6 * 144, UPPER).air_RH).toBeUndefined();
});

test('rot that a repacking reaches gives off nothing after it', () => {
  const rots = [{ startDay: 1, x: 75, y: 50, depth: 25, grown_W: 5, growth_days: 2 }];
  const source_W = (repacked: boolean): number => {
    const weather = madeUpWeather(scenario.weather, 1);
    const hour = weather.next().value as Hour;
    const bed = new BedRun(scenario, { ...pit, rots, openings: [{ ...opening, repacked }] }, hour, 1);
    for (let count = 0; count < 10 * 24; count += 1) bed.next(hour, hour);
    return bed.model.conduction.source_W.reduce((sum, power_W) => sum + power_W, 0);
  };
  expect(source_W(false) - source_W(true)).toBeGreaterThan(4.9);
});
