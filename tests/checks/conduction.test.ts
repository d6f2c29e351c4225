/**
 * The simulator's heat conduction against closed solutions (H. S. Carslaw & J. C. Jaeger, Conduction of Heat in
 * Solids, 2nd ed. 1959: 2.6 periodic surface, 10.4 continuous point source, 9.8 sphere with uniform heat; clauses
 * from memory, the numbers computed from the closed forms).
 */
import { describe, expect, test } from 'vitest';
import { Conduction, type OuterFace } from '../../simulator/conduction.js';
import { cellAt, eachCell, makeGrid, middle } from '../../simulator/grid.js';

const even = (cells: number, length_m: number): Float64Array =>
  Float64Array.from({ length: cells + 1 }, (_, at) => (at * length_m) / cells);

const DAY_s = 86_400;

describe('a periodic surface over a deep column', () => {
  // kappa 0.234375e-6 m2/s, omega 2 pi / day: amplitude exp(-z/d), lag z/(d omega), d = 0.0802856 m [computed].
  const PUBLISHED = [
    { depth_m: 0.05, amplitude: 0.536453, lag_h: 2.37883 },
    { depth_m: 0.1, amplitude: 0.287782, lag_h: 4.75766 },
    { depth_m: 0.2, amplitude: 0.0828182, lag_h: 9.51533 },
    { depth_m: 0.3, amplitude: 0.0238336, lag_h: 14.273 },
  ];
  const CELL_m = 0.01;
  /** Second order in the cell: (CELL / d)^2 / 24 times the depth in damping depths, and the first days' start. */
  const AMPLITUDE_TOLERANCE = 0.01;
  const LAG_TOLERANCE_h = 0.1;

  const found = columnAmplitudes(PUBLISHED.map(({ depth_m }) => depth_m));

  test.each(PUBLISHED.map((row, index) => ({ ...row, index })))(
    'at $depth_m m: amplitude $amplitude, lag $lag_h h',
    ({ amplitude, lag_h, index }) => {
      const row = found[index];
      expect(Math.abs((row?.amplitude ?? Number.NaN) / amplitude - 1)).toBeLessThan(AMPLITUDE_TOLERANCE);
      expect(Math.abs((row?.lag_h ?? Number.NaN) - lag_h)).toBeLessThan(LAG_TOLERANCE_h);
    },
  );

  /** Amplitude and lag from the sine and cosine parts of the last day. */
  function columnAmplitudes(depths_m: readonly number[]): { amplitude: number; lag_h: number }[] {
    const grid = makeGrid(even(1, 1), even(1, 1), even(100, 1));
    const column = new Conduction(grid);
    column.conductivity.fill(0.3);
    column.capacity.fill(1.28e6);
    column.prepare([{ cell: 0, conductance_W_K: 0.3 / (CELL_m / 2), touches: 0 }]);
    const step_s = 100;
    const omega = (2 * Math.PI) / DAY_s;
    const parts = depths_m.map(() => ({ sine: 0, cosine: 0 }));
    const days = 12;
    for (let step = 0; step < (days * DAY_s) / step_s; step += 1) {
      const time_s = step * step_s;
      column.step(step_s, [Math.sin(omega * (time_s + step_s / 2))]);
      if (time_s < (days - 1) * DAY_s) continue;
      depths_m.forEach((depth_m, index) => {
        const cell = Math.round(depth_m / CELL_m);
        const value =
          ((column.temperature_C[cell - 1] as number) + (column.temperature_C[cell] as number)) / 2;
        const part = parts[index] as { sine: number; cosine: number };
        part.sine += (value * Math.sin(omega * (time_s + step_s)) * 2 * step_s) / DAY_s;
        part.cosine += (value * Math.cos(omega * (time_s + step_s)) * 2 * step_s) / DAY_s;
      });
    }
    return parts.map(({ sine, cosine }) => ({
      amplitude: Math.hypot(sine, cosine),
      lag_h: ((Math.atan2(-cosine, sine) + 2 * Math.PI) % (2 * Math.PI)) / omega / 3600,
    }));
  }
});

/** Complementary error function: Abramowitz & Stegun 7.1.26, |error| <= 1.5e-7. */
function erfc(x: number): number {
  const t = 1 / (1 + 0.3275911 * x);
  const series =
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return series * Math.exp(-x * x);
}

describe('a point source in a large block', () => {
  test('the error function used here agrees with published values', () => {
    // erf: 0.25 0.276326, 0.5 0.520500, 1 0.842701, 1.5 0.966105 (tabulated; recomputed with scipy).
    for (const [x, erf] of [
      [0.25, 0.276326],
      [0.5, 0.5205],
      [1, 0.842701],
      [1.5, 0.966105],
    ] as const)
      expect(Math.abs(1 - erfc(x) - erf)).toBeLessThan(1e-6);
  });

  // Rise Q/(4 pi k r) erfc(r / (2 sqrt(alpha t))): 1 W in dry sand, k 0.25 W/(m K), C 1.25e6 J/(m3 K).
  const SOURCE_W = 1;
  const CONDUCTIVITY = 0.25;
  const CAPACITY = 1.25e6;
  const SIDE_m = 1.625;
  const CELLS = 65;
  /** By distance in cells of 2.5 cm: a cell is no point, and seven-point differences are some per cent off close to it. */
  const TOLERANCE: Readonly<Record<number, number>> = { 4: 0.04, 8: 0.015, 12: 0.015 };

  test.each([1, 3])('after %d days, at 10, 20 and 30 cm', (days) => {
    const block = new Conduction(makeGrid(even(CELLS, SIDE_m), even(CELLS, SIDE_m), even(CELLS, SIDE_m)));
    block.conductivity.fill(CONDUCTIVITY);
    block.capacity.fill(CAPACITY);
    block.prepare([]);
    const centre = (CELLS - 1) / 2;
    block.source_W[cellAt(block.grid, centre, centre, centre)] = SOURCE_W;
    for (let step = 0; step < days * 180; step += 1) block.step(480, []);
    const alpha = CONDUCTIVITY / CAPACITY;
    for (const [cells, tolerance] of Object.entries(TOLERANCE)) {
      const r = (Number(cells) * SIDE_m) / CELLS;
      const exact =
        (SOURCE_W / (4 * Math.PI * CONDUCTIVITY * r)) * erfc(r / (2 * Math.sqrt(alpha * days * DAY_s)));
      const found = block.temperature_C[cellAt(block.grid, centre + Number(cells), centre, centre)] as number;
      expect(Math.abs(found / exact - 1)).toBeLessThan(tolerance);
    }
  });
});

describe('a sphere with uniform heat, its surface kept cold', () => {
  // Centre above surface: q R^2 / (6 k). q 20 W/m3, k 0.3 W/(m K): R 0.1 m 0.111111 K, R 0.25 m 0.694444 K [computed].
  test.each([
    [0.1, 0.111111],
    [0.25, 0.694444],
  ])('R %d m: %d K', (radius_m, published_K) => {
    const cells = 25;
    const side_m = 2.2 * radius_m;
    const grid = makeGrid(even(cells, side_m), even(cells, side_m), even(cells, side_m));
    const inside = (i: number, j: number, k: number): boolean =>
      Math.hypot(
        middle(grid.wallsX, i) - side_m / 2,
        middle(grid.wallsY, j) - side_m / 2,
        middle(grid.wallsZ, k) - side_m / 2,
      ) < radius_m;
    const sphere = new Conduction(grid);
    sphere.capacity.fill(1e5);
    const dx = side_m / cells;
    const faces: OuterFace[] = [];
    eachCell(grid, (cell, i, j, k) => {
      sphere.conductivity[cell] = inside(i, j, k) ? 0.3 : 1e-9;
      if (!inside(i, j, k)) return;
      sphere.source_W[cell] = 20 * dx ** 3;
      for (const [a, b, c] of [
        [1, 0, 0],
        [-1, 0, 0],
        [0, 1, 0],
        [0, -1, 0],
        [0, 0, 1],
        [0, 0, -1],
      ] as const)
        if (!inside(i + a, j + b, k + c)) faces.push({ cell, conductance_W_K: 0.3 * dx * 2, touches: 0 });
    });
    sphere.prepare(faces);
    const step_s = sphere.longestStep_s;
    const settled_s = (4 * radius_m ** 2 * 1e5) / 0.3;
    for (let time = 0; time < settled_s; time += step_s) sphere.step(step_s, [0]);
    const centre = sphere.temperature_C[cellAt(grid, 12, 12, 12)] as number;
    // The staircase of cells stands for the round surface, its cold faces on either side of it.
    expect(Math.abs(centre / published_K - 1)).toBeLessThan(0.015);
  });
});

test('heat is conserved: what came in and was released is what is there', () => {
  const grid = makeGrid(Float64Array.of(0, 0.1, 0.25, 0.3), Float64Array.of(0, 0.2, 0.3), even(4, 0.6));
  const block = new Conduction(grid);
  eachCell(grid, (cell) => {
    block.conductivity[cell] = 0.2 + (cell % 5) * 0.4;
    block.capacity[cell] = 1e6 + (cell % 3) * 4e5;
    block.temperature_C[cell] = 15 + (cell % 7);
    block.source_W[cell] = 0.01 * (cell % 4);
  });
  block.prepare([
    { cell: 0, conductance_W_K: 0.5, touches: 0 },
    { cell: 5, conductance_W_K: 0.2, touches: 1 },
  ]);
  const before = block.heat_J();
  const released_W = block.source_W.reduce((sum, power) => sum + power, 0);
  let inflow_J = 0;
  for (let step = 0; step < 500; step += 1) inflow_J += block.step(300, [30, 10]);
  const balance = block.heat_J() - before - inflow_J - released_W * 500 * 300;
  expect(Math.abs(balance / before)).toBeLessThan(1e-12);
});

test('a step that would not be stable is refused', () => {
  const block = new Conduction(makeGrid(even(2, 0.1), even(2, 0.1), even(2, 0.1)));
  block.prepare([]);
  expect(() => block.step(block.longestStep_s * 1.1, [])).toThrow(/step must be in/);
  expect(() => block.step(Number.NaN, [])).toThrow(/step must be in/);
});
