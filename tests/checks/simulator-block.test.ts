/**
 * The warmth of a block of roots in sand, its faces kept at one temperature: the simulator's conduction against
 * the series of the closed solution (H. S. Carslaw & J. C. Jaeger, Conduction of Heat in Solids, 2nd ed. 1959,
 * section 6.2; from memory), and against the rises that follow from it for stores of the usual sizes [computed].
 */
import { describe, expect, test } from 'vitest';
import { Conduction, type OuterFace } from '../../simulator/conduction.js';
import { cellAt, eachCell, makeGrid, width } from '../../simulator/grid.js';

const CONDUCTIVITY = 0.35;
const CELL_m = 0.05;

/** Odd terms along each axis; the series alternates, and is cut where its terms are below 1e-6 of the sum. */
const TERMS = 41;

/** Middle of a block above its faces, K: q / k times the triple sine series. */
function seriesCentre_K(power_W_m3: number, [a, b, c]: readonly [number, number, number]): number {
  let sum = 0;
  for (let l = 1; l < 2 * TERMS; l += 2)
    for (let m = 1; m < 2 * TERMS; m += 2)
      for (let n = 1; n < 2 * TERMS; n += 2) {
        const sign = (-1) ** ((l + m + n - 3) / 2);
        sum += sign / (l * m * n * ((l / a) ** 2 + (m / b) ** 2 + (n / c) ** 2));
      }
  return ((64 * power_W_m3) / (CONDUCTIVITY * Math.PI ** 5)) * sum;
}

function simulatedCentre_K(power_W_m3: number, sides_m: readonly [number, number, number]): number {
  const walls = sides_m.map((side) => {
    // An odd number of cells, so that one has its middle in the block's.
    const cells = 2 * Math.round(side / CELL_m / 2) + 1;
    return Float64Array.from({ length: cells + 1 }, (_, at) => (at * side) / cells);
  }) as [Float64Array, Float64Array, Float64Array];
  const grid = makeGrid(...walls);
  const block = new Conduction(grid);
  block.conductivity.fill(CONDUCTIVITY);
  // The steady state does not depend on it; less makes it come sooner.
  block.capacity.fill(1e5);
  const faces: OuterFace[] = [];
  eachCell(grid, (cell, i, j, k) => {
    block.source_W[cell] = power_W_m3 * (grid.volume[cell] as number);
    const [dx, dy, dz] = [width(grid.wallsX, i), width(grid.wallsY, j), width(grid.wallsZ, k)];
    const cold = (area: number, across: number): void => {
      faces.push({ cell, conductance_W_K: (2 * CONDUCTIVITY * area) / across, touches: 0 });
    };
    if (i === 0 || i === grid.nx - 1) cold(dy * dz, dx);
    if (j === 0 || j === grid.ny - 1) cold(dx * dz, dy);
    if (k === 0 || k === grid.nz - 1) cold(dx * dy, dz);
  });
  block.prepare(faces);
  const settled_s = (8 * (Math.min(...sides_m) / Math.PI) ** 2 * 1e5) / CONDUCTIVITY;
  for (let time = 0; time < settled_s; time += block.longestStep_s) block.step(block.longestStep_s, [0]);
  const [i, j, k] = [(grid.nx - 1) / 2, (grid.ny - 1) / 2, (grid.nz - 1) / 2];
  return block.temperature_C[cellAt(grid, i, j, k)] as number;
}

describe('a block with heat spread evenly in it', () => {
  // kg of roots in a m3 of store, W in a kg of roots, rise in the middle, K (to its printed tenth).
  test.each([
    [[1, 1.5, 0.75], 120, 0.09, 1.6],
    [[1, 1.5, 0.75], 120, 0.17, 2.9],
    [[1, 1.5, 0.75], 200, 0.09, 2.6],
    [[1, 1.5, 0.75], 200, 0.17, 4.9],
    [[1, 1.5, 0.6], 120, 0.09, 1.2],
    [[1, 1.5, 0.6], 120, 0.17, 2.2],
    [[1, 1.5, 0.6], 200, 0.09, 1.9],
    [[1, 1.5, 0.6], 200, 0.17, 3.6],
  ] as const)('of %j m, %d kg/m3 at %d W/kg: %d K warmer in the middle', (sides, kg_m3, W_kg, rise_K) => {
    const power_W_m3 = kg_m3 * W_kg;
    const series_K = seriesCentre_K(power_W_m3, sides);
    // Printed to a tenth, from inputs rounded themselves.
    expect(Math.abs(series_K - rise_K)).toBeLessThan(0.11);
    // Second order in the cell; with about 5 cm the middle comes out 0.2 to 0.4 % warm.
    expect(Math.abs(simulatedCentre_K(power_W_m3, sides) / series_K - 1)).toBeLessThan(0.006);
  });
});
