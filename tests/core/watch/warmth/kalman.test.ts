import { describe, expect, test } from 'vitest';
import { Bank } from '../../../../services/core/watch/warmth/bank.js';
import {
  cholesky,
  solveLower,
  solveUpper,
  stretchesOf,
  update,
} from '../../../../services/core/watch/warmth/kalman.js';
import { PARTS, Passing, TOGETHER } from '../../../../services/core/watch/warmth/passing.js';

describe('a measurement step', () => {
  test('of one number: the mean weighted by precision, by hand', () => {
    const x = Float64Array.of(20);
    const P = Float64Array.of(4);
    // prior 20 +- 2, measured 23 +- 1: 20 + 4/5 * 3 = 22.4, variance 4/5 [C]
    update(x, P, [Float64Array.of(1)], [23], [1]);
    expect(x[0]).toBeCloseTo(22.4, 12);
    expect(P[0]).toBeCloseTo(0.8, 12);
  });

  test('of two at once gives what one after the other gives', () => {
    const start = () => ({ x: Float64Array.of(1, -2), P: Float64Array.of(2, 0.5, 0.5, 1) });
    const rows = [Float64Array.of(1, 0.3), Float64Array.of(-0.2, 1)];
    const together = start();
    update(together.x, together.P, rows, [1.5, -1], [0.1, 0.4]);
    const apart = start();
    update(apart.x, apart.P, rows.slice(0, 1), [1.5], [0.1]);
    update(apart.x, apart.P, rows.slice(1), [-1], [0.4]);
    together.x.forEach((value, index) => {
      expect(value).toBeCloseTo(apart.x[index] as number, 12);
    });
    together.P.forEach((value, index) => {
      expect(value).toBeCloseTo(apart.P[index] as number, 12);
    });
  });

  test('is refused where the covariance is none', () => {
    expect(update(Float64Array.of(0), Float64Array.of(-1), [Float64Array.of(1)], [1], [0.5])).toBeUndefined();
  });
});

test('a matrix is its factor times its transpose, and solving undoes it', () => {
  const matrix = Float64Array.of(4, 2, 1, 2, 5, 3, 1, 3, 6);
  const factor = cholesky(matrix, 3) as Float64Array;
  const right = Float64Array.of(1, 2, 3);
  const solved = right.slice();
  solveLower(factor, 3, solved);
  solveUpper(factor, 3, solved);
  for (let row = 0; row < 3; row += 1) {
    const sum = [0, 1, 2].reduce(
      (total, k) => total + (matrix[row * 3 + k] as number) * (solved[k] as number),
      0,
    );
    expect(sum).toBeCloseTo(right[row] as number, 12);
  }
});

test('evidence of the bank is the likelihood ratio of a signal that was really there', () => {
  const shapes = [0, 1, 2, 3].map((late) =>
    Float64Array.from({ length: 40 }, (_, age) => Math.max(0, age - late) / 10),
  );
  const bank = new Bank(shapes, 1, 1);
  bank.turn(0);
  const x = Float64Array.of(0);
  const P = Float64Array.of(1);
  // One unknown level, noise 0.1, and 2 W times the first shape from step 0 on.
  for (let step = 0; step < 20; step += 1) {
    const gain = update(x, P, [Float64Array.of(1)], [2 * (shapes[0]?.[step] as number)], [0.01]);
    if (gain) bank.take(step, gain, [0], [1]);
  }
  const [onset] = bank.onsets;
  const found = onset?.evidence[0] as number;
  const information = onset?.gram[0] as number;
  expect(found / information).toBeCloseTo(2, 2);
});

test.each([
  [
    [0, 1, 2, 0, 3, 0],
    [1, 3, 4, 5],
  ],
  [
    [1, 0, 2],
    [0, 1, 2, 3],
  ],
  [[0, 0], []],
])('a row %j says something in the stretches %j', (row, bounds) => {
  expect([...stretchesOf(Float64Array.from(row))]).toEqual(bounds);
});

test('a signal is sent through the filter as what it makes of readings with it less those without', () => {
  const size = 4;
  const start = () =>
    Float64Array.from({ length: size * size }, (_, at) => (at % (size + 1) === 0 ? 2 : 0.3));
  const rows = [Float64Array.of(1, 0, 0.5, -1), Float64Array.of(0, 1, 2, 0)];
  const added = [1, 2.5, -0.7];
  const states = { parts: new Int16Array(TOGETHER * size), scales: new Float32Array(TOGETHER) };
  const without = { x: new Float64Array(size), P: start() };
  const withIt = added.map(() => ({ x: new Float64Array(size), P: start() }));
  const passing = new Passing(size);
  const left = new Float64Array(TOGETHER * rows.length);
  for (const measured of [
    [0.4, -1],
    [0.2, 0.9],
    [3, 0.1],
  ] as const) {
    const gain = update(without.x, without.P, rows, measured, [0.1, 0.2]);
    if (!gain) throw new Error('the covariance is one');
    passing.send(states, 0, gain, 1, Float64Array.from(added), left);
    added.forEach((size_C, one) => {
      const { x, P } = withIt[one] as (typeof withIt)[number];
      const other = update(x, P, rows, [measured[0], measured[1] + size_C], [0.1, 0.2]);
      for (const j of [0, 1])
        expect(left[one * 2 + j]).toBeCloseTo(
          (other?.whitened[j] as number) - (gain.whitened[j] as number),
          3,
        );
    });
  }
  withIt.forEach(({ x }, one) => {
    const by = (states.scales[one] as number) / PARTS;
    x.forEach((value, i) => {
      const difference = value - (without.x[i] as number);
      expect(by * (states.parts[one * size + i] as number)).toBeCloseTo(difference, 3);
    });
  });
});
