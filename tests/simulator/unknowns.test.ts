/** What is drawn for a bed lies where it is said to lie, and is the usual where nothing varies. */
import { describe, expect, test } from 'vitest';
import { blocksOf, holdsPoint } from '../../services/core/model/bed.js';
import { buildBed } from '../../simulator/bed-model.js';
import { loadScenario } from '../../simulator/index.js';
import { GROUND, SAND_WITH_ROOTS, WET_SAND } from '../../simulator/materials.js';
import { randomFor, seedOfSeries } from '../../simulator/random.js';
import { USUAL_RESPIRATION } from '../../simulator/respiration.js';
import { EVEN, unevenDensity } from '../../simulator/roots.js';
import type { Scenario } from '../../simulator/scenario.js';
import { truePlaces } from '../../simulator/true-places.js';
import { type Unknowns, unknownsOf } from '../../simulator/unknowns.js';

const scenario = loadScenario('sound-pit');
const [bed] = scenario.beds as [Scenario['beds'][number]];
const varied = (variation: number): Scenario => ({ ...scenario, variation });
const SEEDS = Array.from({ length: 400 }, (_, seed) => seed);

describe('unknowns of a bed', () => {
  test('are the usual ones where nothing varies', () => {
    expect(unknownsOf(scenario, bed, 7)).toMatchObject({
      sand: SAND_WITH_ROOTS,
      wetSand: WET_SAND,
      ground: GROUND,
      respiration: USUAL_RESPIRATION,
      films: { still: 8, open: 15, boards: 3.1 },
      roof: { sun_C: 2, sunLater_h: 0, hutFollows_h: 5, hutWarmer_C: 1 },
      deepWarmer_C: 0,
      filledWarmer_C: 1.5,
    });
  });

  const drawn = SEEDS.map((seed) => unknownsOf(varied(1), bed, seed));
  test.each<[string, (unknowns: Unknowns) => number, number, number]>([
    ['sand conducts, W/(m K)', ({ sand }) => sand.conductivity, 0.3 * 0.75, 0.3 * 1.25],
    ['sand holds, MJ/(m3 K)', ({ sand }) => sand.capacity / 1e6, 1.8 * 0.75, 1.8 * 1.25],
    ['ground conducts, W/(m K)', ({ ground }) => ground.conductivity, 0.9 * 0.65, 0.9 * 1.35],
    ['ground holds, MJ/(m3 K)', ({ ground }) => ground.capacity / 1e6, 1.7 * 0.65, 1.7 * 1.35],
    ['roots respire', ({ respiration }) => respiration.at15_C_W_kg / 0.059, 0.6, 1.8],
    ['Q10', ({ respiration }) => respiration.q10, 1.8, 2.4],
    ['fresh share', ({ respiration }) => respiration.freshShare, 0.3, 0.9],
    ['settling, days', ({ respiration }) => respiration.settlesIn_days, 7, 20],
    ['still air, W/(m2 K)', ({ films }) => films.still, 6, 10],
    ['sun under the roof, °C', ({ roof }) => roof.sun_C, 0, 4],
    ['hour of that sun, h', ({ roof }) => roof.sunLater_h, -2, 2],
    ['deep ground, °C', ({ deepWarmer_C }) => deepWarmer_C, -1.5, 1.5],
    ['filled sand, °C', ({ filledWarmer_C }) => filledWarmer_C, -1, 6],
    ['damp sand conducts', ({ dampConducts_times }) => dampConducts_times, 2, 5],
  ])('%s: within its range, and up to both ends', (_, of, low, high) => {
    const values = drawn.map(of);
    const margin = 0.03 * (high - low);
    expect(Math.min(...values)).toBeGreaterThanOrEqual(low);
    expect(Math.min(...values)).toBeLessThan(low + margin);
    expect(Math.max(...values)).toBeLessThanOrEqual(high);
    expect(Math.max(...values)).toBeGreaterThan(high - margin);
  });

  test('half as far where half of it varies', () => {
    const [whole, half] = [1, 0.5].map((variation) => unknownsOf(varied(variation), bed, 3).deepWarmer_C);
    expect(half).toBeCloseTo((whole as number) / 2, 12);
  });

  test('are drawn for each bed by itself, and do not move with each other', () => {
    expect(unknownsOf(varied(1), { ...bed, id: 'pit-z' }, 3)).not.toEqual(unknownsOf(varied(1), bed, 3));
    const [one, other] = [drawn.map(({ sand }) => sand.conductivity), drawn.map(({ sand }) => sand.capacity)];
    // Of 400 independent pairs the correlation has a standard deviation of 0.05.
    expect(Math.abs(correlation(one as number[], other as number[]))).toBeLessThan(0.2);
  });
});

function correlation(one: readonly number[], other: readonly number[]): number {
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value) / values.length;
  const [a, b] = [mean(one), mean(other)];
  const product = (f: (at: number) => number): number => mean(one.map((_, at) => f(at)));
  const of = (values: readonly number[], m: number, at: number): number => (values[at] as number) - m;
  return (
    product((at) => of(one, a, at) * of(other, b, at)) /
    Math.sqrt(product((at) => of(one, a, at) ** 2) * product((at) => of(other, b, at) ** 2))
  );
}

describe('true places of probes', () => {
  const nominal = new Map(bed.probes.map(({ id, x, y, depth }) => [id, { x, y, depth }]));

  test('are those written down where nothing varies', () => {
    expect(truePlaces(scenario, bed, 3, 0)).toEqual(nominal);
  });

  test('depart by 2.5 cm each way, and stay in the sand', () => {
    const blocks = blocksOf(bed.steps);
    const departures = SEEDS.flatMap((seed) =>
      Array.from(truePlaces(varied(1), bed, seed, 0), ([id, { x, y, depth }]) => {
        expect(holdsPoint(blocks, x, y, depth)).toBe(true);
        const from = nominal.get(id) as { x: number; y: number; depth: number };
        return [x - from.x, y - from.y, depth - from.depth];
      }),
    );
    for (const way of [0, 1, 2]) {
      const squares = departures.map((departure) => (departure[way] as number) ** 2);
      expect(Math.sqrt(squares.reduce((sum, square) => sum + square) / squares.length)).toBeCloseTo(2.5, 0);
    }
  });

  test('of a probe at the wall are clipped into the bed', () => {
    const atWall = { ...bed, probes: [{ id: 'p01', x: 0, y: 50, depth: 0 }] };
    for (const seed of SEEDS) {
      const place = truePlaces(varied(1), atWall, seed, 0).get('p01');
      expect(place?.x).toBeGreaterThan(0);
      expect(place?.depth).toBeGreaterThan(0);
    }
  });

  test('change with an opening for the probes that were taken out, once it is over', () => {
    const opening = {
      day: 10,
      hours: 3,
      told: false,
      repacked: false,
      sunWarmed_C: 3,
      depth: 30,
      moved_cm: 4,
    };
    const opened = { ...bed, openings: [opening] };
    expect(truePlaces(scenario, opened, 1, 10.1)).toEqual(nominal);
    const after = truePlaces(scenario, opened, 1, 11);
    const moved = bed.probes.filter(({ id }) => after.get(id)?.x !== nominal.get(id)?.x);
    expect(moved.map(({ depth }) => depth)).toEqual([20, 20]);
  });
});

describe('roots lie unevenly', () => {
  test('by 30 % at the most, smoothly, and in all as many', () => {
    const unknowns = unknownsOf(scenario, bed, 1);
    const even = buildBed(bed, unknowns, EVEN).roots_kg;
    const { roots_kg, inBed } = buildBed(bed, unknowns, unevenDensity(randomFor(1, 'roots'), 0.3));
    const total = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0);
    expect(total(roots_kg)).toBeCloseTo(total(even), 9);
    const shares = Array.from(roots_kg, (value, cell) => value / (even[cell] as number)).filter(
      (_, cell) => inBed[cell] === 1,
    );
    expect(Math.max(...shares)).toBeLessThan(1.4);
    expect(Math.min(...shares)).toBeGreaterThan(0.6);
    expect(Math.max(...shares)).toBeGreaterThan(1.1);
    const density = unevenDensity(randomFor(1, 'roots'), 0.3);
    expect(Math.abs(density(0.5, 0.5, 0.3) - density(0.51, 0.5, 0.3))).toBeLessThan(0.05);
  });
});

test('another series has other draws for the same seed, the nameless one the seed itself', () => {
  expect(seedOfSeries(5, '')).toBe(5);
  expect(new Set(['a', 'b', 'c'].map((series) => seedOfSeries(5, series))).size).toBe(3);
  expect(seedOfSeries(5, 'a')).not.toBe(seedOfSeries(6, 'a'));
});
