/** Water that creeps into a bed: it adds up, comes from below and beside, and takes days. */
import { describe, expect, test } from 'vitest';
import { buildBed } from '../../simulator/bed-model.js';
import { DAMP_WATER, dampingOrder, dampness, front_L } from '../../simulator/damping.js';
import { middle } from '../../simulator/grid.js';
import { loadScenario, trueExcessAt } from '../../simulator/index.js';
import { Moisture } from '../../simulator/moisture.js';
import type { Scenario } from '../../simulator/scenario.js';
import { unknownsOf } from '../../simulator/unknowns.js';

const scenario = loadScenario('sound-pit');
const [pit] = scenario.beds as [Scenario['beds'][number]];
const damping = { startDay: 2, litres_per_day: 2 };
const damp = { ...pit, damping };
const unknowns = unknownsOf(scenario, damp, 1);

test.each([0.5, 3, 20])('%d litres of water are in the sand that holds them', (water_L) => {
  const model = buildBed(damp, unknowns);
  const { grid } = model.conduction;
  const { cells, sooner_L, all_L } = dampingOrder(grid, damp, model.inBed);
  const front = front_L(water_L, all_L);
  const held_L = cells.reduce((sum, cell, at) => {
    const dampnessOfCell = dampness(front, sooner_L[at] as number, all_L);
    return sum + 1000 * (grid.volume[cell] as number) * DAMP_WATER * dampnessOfCell;
  }, 0);
  // Cells of 0.3 litres upwards: the front is as fine as they are.
  expect(held_L / water_L).toBeGreaterThan(0.95);
  expect(held_L / water_L).toBeLessThan(1.1);
});

describe('as the days go', () => {
  const model = buildBed(damp, unknowns);
  const { conductivity, grid } = model.conduction;
  const dry = conductivity.slice();
  const moisture = new Moisture(damp, model, unknowns);
  /** A cell of the bed's middle column at a depth, cm. */
  const cellAtDepth = (depth: number): number => {
    const order = dampingOrder(grid, damp, model.inBed).cells;
    const away = (cell: number): number => {
      const [i, j, k] = [
        cell % grid.nx,
        Math.floor(cell / grid.nx) % grid.ny,
        Math.floor(cell / (grid.nx * grid.ny)),
      ];
      return Math.hypot(
        middle(grid.wallsX, i) - 0.75,
        middle(grid.wallsY, j) - 0.5,
        middle(grid.wallsZ, k) - depth / 100,
      );
    };
    return order.reduce((best, cell) => (away(cell) < away(best) ? cell : best));
  };
  const timesAt = (cell: number): number => (conductivity[cell] as number) / (dry[cell] as number);
  const [low, high] = [cellAtDepth(47), cellAtDepth(12)];

  test('nothing before it starts, then the floor first, little by little, two to five times in the end', () => {
    moisture.upTo(2);
    expect(timesAt(low)).toBe(1);
    const courses = [2.5, 3, 4, 6, 10, 20, 60].map((day) => {
      moisture.upTo(day);
      return [timesAt(low), timesAt(high)] as [number, number];
    });
    const lows = courses.map(([first]) => first);
    expect(lows).toEqual([...lows].sort((one, other) => one - other));
    expect(lows[1]).toBeGreaterThan(1.05);
    expect(lows[1]).toBeLessThan(2);
    for (const [first, second] of courses) expect(first).toBeGreaterThanOrEqual(second);
    expect(courses[2]?.[1]).toBe(1);
    expect(courses.at(-1)?.[1]).toBeCloseTo(3.5, 6);
  });
});

test('the air at a probe becomes saturated within days, not hours, the deeper one sooner', () => {
  const probes = [
    { id: 'p01', x: 75, y: 50, depth: 15 },
    { id: 'p02', x: 75, y: 50, depth: 45 },
  ];
  const season = {
    ...scenario,
    days: 24,
    beds: [{ ...pit, probes, damping: { startDay: 8, litres_per_day: 4 } }],
  };
  const hours = trueExcessAt(season, 'pit-a', 1);
  const reaches = (probe: number, limit_RH: number): number =>
    (hours.find(({ sands }) => (sands[probe]?.humidity_RH ?? 0) >= limit_RH)?.hour ?? Number.NaN) / 24;
  expect(reaches(1, 97)).toBeGreaterThan(8.5);
  expect(reaches(1, 97)).toBeLessThan(reaches(0, 97));
  expect(reaches(0, 97)).toBeLessThan(24);
  expect(reaches(1, 98) - reaches(1, 90)).toBeGreaterThan(0.5);
  expect(hours.every(({ sands }) => sands.every(({ wet }) => !wet))).toBe(true);
});
