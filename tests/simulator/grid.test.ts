import { describe, expect, test } from 'vitest';
import { eachCell, interpolation, makeGrid, middle, wallsAround } from '../../simulator/grid.js';

describe('walls', () => {
  test('are even inside the span, and end where they were asked to', () => {
    const walls = wallsAround(0, 1.5, 0.075, [0.9, 0.9]);
    expect(walls[0]).toBeCloseTo(-0.9, 12);
    expect(walls.at(-1)).toBeCloseTo(2.4, 12);
    const inside = [...walls].filter((wall) => wall >= 0 && wall <= 1.5 + 1e-12);
    inside.forEach((wall, index) => {
      expect(wall).toBeCloseTo(index * 0.075, 12);
    });
  });

  test('stop at the span where nothing is looked at outside it', () => {
    expect([...wallsAround(0, 0.2, 0.1, [0, 0])]).toEqual([0, 0.1, 0.2]);
  });

  test.each([
    [0, 0, 0.1],
    [1, 0, 0.1],
    [0, 1, 0],
    [0, 1, -0.1],
    [0, Number.NaN, 0.1],
    [0, 1, Number.NaN],
  ])('from %d to %d by %d are refused', (from, to, step) => {
    expect(() => wallsAround(from, to, step, [0.9, 0.9])).toThrow(/of some width/);
  });

  test('that do not ascend make no grid', () => {
    const good = Float64Array.of(0, 1);
    expect(() => makeGrid(good, Float64Array.of(0, 1, 1), good)).toThrow(/cell walls must ascend/);
    expect(() => makeGrid(good, good, Float64Array.of(0, Number.NaN))).toThrow(/cell walls must ascend/);
  });
});

describe('a value at a point', () => {
  const grid = makeGrid(
    wallsAround(0, 1, 0.2, [0.5, 0.5]),
    wallsAround(0, 0.6, 0.2, [0, 0.5]),
    wallsAround(0, 0.5, 0.1, [0, 0.8]),
  );
  const field = new Float64Array(grid.count);
  eachCell(grid, (cell, i, j, k) => {
    field[cell] = 3 + 2 * middle(grid.wallsX, i) - middle(grid.wallsY, j) + 5 * middle(grid.wallsZ, k);
  });
  const at = (x: number, y: number, z: number): number =>
    interpolation(grid, x, y, z).reduce((sum, { cell, weight }) => sum + weight * (field[cell] as number), 0);

  test.each([
    [0.4, 0.3, 0.25],
    [0.93, 0.17, 0.44],
    [0.1, 0.1, 0.05],
  ])('is exact for a field that is linear: %d, %d, %d m', (x, y, z) => {
    expect(at(x, y, z)).toBeCloseTo(3 + 2 * x - y + 5 * z, 10);
  });

  test('has weights that add up to one, also outside the outermost middles', () => {
    for (const [x, y, z] of [
      [0.4, 0.3, 0.25],
      [0, 0, 0],
      [99, 99, 99],
    ] as const)
      expect(interpolation(grid, x, y, z).reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
  });
});
