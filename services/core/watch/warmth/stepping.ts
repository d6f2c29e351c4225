/**
 * Heat conduction through a grid in long explicit steps: the second-order Runge-Kutta-Legendre scheme of Meyer,
 * Balsara & Aslam, J. Comput. Phys. 257 (2014) 594-626 (coefficients from memory; checked against closed solutions).
 * A step of s stages is stable for (s^2 + s - 2) / 4 times the longest explicit step.
 */
import type { Grid } from './grid.js';

/** What drives the block, constant while it is stepped. */
export interface Drive {
  /** Temperature of each of `OUTER`, °C. */
  readonly outer_C: readonly [number, number, number];
  /** Heat released in each cell, W; absent for none. */
  readonly source_W?: Float64Array;
}

export class Stepping {
  readonly #grid: Grid;
  readonly #diagonal: Float64Array;
  readonly #longest_s: number;
  readonly #scratch: Float64Array[];

  constructor(grid: Grid) {
    this.#grid = grid;
    this.#diagonal = diagonalOf(grid);
    let fastest = 0;
    for (let cell = 0; cell < grid.count; cell += 1)
      fastest = Math.max(fastest, (this.#diagonal[cell] as number) / (grid.capacity[cell] as number));
    this.#longest_s = 1 / fastest;
    this.#scratch = Array.from({ length: 4 }, () => new Float64Array(grid.count));
  }

  /** Goes on by some seconds, in place. */
  advance(temperature_C: Float64Array, seconds: number, drive: Drive): void {
    const ratio = seconds / this.#longest_s;
    const stages = Math.max(3, Math.ceil((Math.sqrt(9 + 16 * ratio) - 1) / 2) | 1);
    const [first, rates, one, two] = this.#scratch as [
      Float64Array,
      Float64Array,
      Float64Array,
      Float64Array,
    ];
    first.set(temperature_C);
    const w = 4 / (stages * stages + stages - 2);
    const b = (j: number): number => (j < 2 ? 1 / 3 : (j * j + j - 2) / (2 * j * (j + 1)));
    this.#rates(temperature_C, drive, rates);
    const count = this.#grid.count;
    let before = one;
    let now = two;
    before.set(first);
    const tau = seconds * w;
    for (let i = 0; i < count; i += 1) now[i] = (first[i] as number) + (tau / 3) * (rates[i] as number);
    const rate = temperature_C;
    for (let j = 2; j <= stages; j += 1) {
      const mu = (((2 * j - 1) / j) * b(j)) / b(j - 1);
      const nu = ((-(j - 1) / j) * b(j)) / b(j - 2);
      const gamma = -(1 - b(j - 1)) * mu * tau;
      this.#rates(now, drive, rate);
      const rest = 1 - mu - nu;
      const by = mu * tau;
      for (let i = 0; i < count; i += 1)
        before[i] =
          mu * (now[i] as number) +
          nu * (before[i] as number) +
          rest * (first[i] as number) +
          by * (rate[i] as number) +
          gamma * (rates[i] as number);
      [before, now] = [now, before];
    }
    temperature_C.set(now);
  }

  /** Rate of change of each cell, °C/s. */
  #rates(temperature: Float64Array, { outer_C, source_W }: Drive, into: Float64Array): void {
    const { count, capacity, toX, toY, toZ, toOuter, x, y } = this.#grid;
    const alongY = x.length - 1;
    const alongZ = alongY * (y.length - 1);
    const diagonal = this.#diagonal;
    for (let i = 0; i < count; i += 1) into[i] = -(diagonal[i] as number) * (temperature[i] as number);
    for (let i = 0; i < count; i += 1) {
      const own = temperature[i] as number;
      const gx = toX[i] as number;
      const gy = toY[i] as number;
      const gz = toZ[i] as number;
      let sum = into[i] as number;
      if (gx > 0) {
        sum += gx * (temperature[i + 1] as number);
        into[i + 1] = (into[i + 1] as number) + gx * own;
      }
      if (gy > 0) {
        sum += gy * (temperature[i + alongY] as number);
        into[i + alongY] = (into[i + alongY] as number) + gy * own;
      }
      if (gz > 0) {
        sum += gz * (temperature[i + alongZ] as number);
        into[i + alongZ] = (into[i + alongZ] as number) + gz * own;
      }
      into[i] = sum;
    }
    for (let outer = 0; outer < 3; outer += 1) {
      const outside_C = outer_C[outer] as number;
      const to = toOuter[outer] as Float64Array;
      if (outside_C !== 0)
        for (let i = 0; i < count; i += 1) into[i] = (into[i] as number) + (to[i] as number) * outside_C;
    }
    if (source_W) for (let i = 0; i < count; i += 1) into[i] = (into[i] as number) + (source_W[i] as number);
    for (let i = 0; i < count; i += 1) into[i] = (into[i] as number) / (capacity[i] as number);
  }
}

function diagonalOf({ count, toX, toY, toZ, toOuter, x, y }: Grid): Float64Array {
  const diagonal = new Float64Array(count);
  const add = (cell: number, conductance: number): void => {
    diagonal[cell] = (diagonal[cell] as number) + conductance;
  };
  const alongY = x.length - 1;
  const alongZ = alongY * (y.length - 1);
  for (let i = 0; i < count; i += 1) {
    for (const [conductance, next] of [
      [toX[i] as number, i + 1],
      [toY[i] as number, i + alongY],
      [toZ[i] as number, i + alongZ],
    ] as const)
      if (conductance > 0) {
        add(i, conductance);
        add(next, conductance);
      }
    for (const to of toOuter) add(i, to[i] as number);
  }
  return diagonal;
}
