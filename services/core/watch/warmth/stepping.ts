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

/** What a stage is made of, as the scheme names it; `by` in s. */
interface Shares {
  readonly mu: number;
  readonly nu: number;
  readonly rest: number;
  readonly by: number;
  readonly gamma: number;
}

const ONLY_RATES: Shares = { mu: 0, nu: 0, rest: 0, by: 1, gamma: 0 };

/** Numbers that each cell keeps side by side: its links to six neighbours, and the sum of all its links. */
const LINKS = 7;

/**
 * The block is worked on with a layer of cells before and behind it that nothing is linked to, so that each cell is
 * summed up from its neighbours without asking whether it has them.
 */
export class Stepping {
  readonly #grid: Grid;
  /** Cells from one to the next along y and z; the block begins one layer along z in. */
  readonly #alongY: number;
  readonly #alongZ: number;
  /** By cell, 1/s: conductances over its capacity. */
  readonly #links: Float64Array;
  /** What comes in from outside and is released, °C/s in each cell. */
  readonly #driven: Float64Array;
  readonly #longest_s: number;
  /** °C and °C/s at the beginning; °C after the last two stages. */
  readonly #first: Float64Array;
  readonly #rates: Float64Array;
  #before: Float64Array;
  #now: Float64Array;

  /** @param like the block whose stages are made: that of which `grid` is a part, so that both are stepped alike */
  constructor(grid: Grid, like = grid) {
    this.#grid = grid;
    this.#alongY = grid.x.length - 1;
    this.#alongZ = this.#alongY * (grid.y.length - 1);
    this.#links = linksOf(grid, this.#alongY, this.#alongZ);
    this.#longest_s = longestOf(like);
    const padded = (): Float64Array => new Float64Array(grid.count + 2 * this.#alongZ);
    this.#driven = padded();
    this.#first = padded();
    this.#rates = padded();
    this.#before = padded();
    this.#now = padded();
  }

  /** Goes on by some seconds, in place. */
  advance(temperature_C: Float64Array, seconds: number, drive: Drive): void {
    const ratio = seconds / this.#longest_s;
    const stages = Math.max(3, Math.ceil((Math.sqrt(9 + 16 * ratio) - 1) / 2) | 1);
    const [first, rates] = [this.#first, this.#rates];
    first.set(temperature_C, this.#alongZ);
    this.#drive(drive);
    const w = 4 / (stages * stages + stages - 2);
    const b = (j: number): number => (j < 2 ? 1 / 3 : (j * j + j - 2) / (2 * j * (j + 1)));
    const tau = seconds * w;
    rates.fill(0);
    this.#stage(first, rates, ONLY_RATES);
    this.#before.set(first);
    for (let i = 0; i < first.length; i += 1)
      this.#now[i] = (first[i] as number) + (tau / 3) * (rates[i] as number);
    for (let j = 2; j <= stages; j += 1) {
      const mu = (((2 * j - 1) / j) * b(j)) / b(j - 1);
      const nu = ((-(j - 1) / j) * b(j)) / b(j - 2);
      const gamma = -(1 - b(j - 1)) * mu * tau;
      this.#stage(this.#now, this.#before, { mu, nu, rest: 1 - mu - nu, by: mu * tau, gamma });
      [this.#before, this.#now] = [this.#now, this.#before];
    }
    temperature_C.set(this.#now.subarray(this.#alongZ, this.#alongZ + this.#grid.count));
  }

  #drive({ outer_C, source_W }: Drive): void {
    const { count, capacity, toOuter } = this.#grid;
    for (let cell = 0; cell < count; cell += 1) {
      let driven_W = source_W?.[cell] ?? 0;
      for (const outer of [0, 1, 2] as const) driven_W += (toOuter[outer][cell] as number) * outer_C[outer];
      this.#driven[cell + this.#alongZ] = driven_W / (capacity[cell] as number);
    }
  }

  /** `before` becomes its own share, and shares of `now`, its rates, the beginning and the rates then. */
  #stage(now: Float64Array, before: Float64Array, { mu, nu, rest, by, gamma }: Shares): void {
    const [links, driven, first, rates] = [this.#links, this.#driven, this.#first, this.#rates];
    const [alongY, alongZ] = [this.#alongY, this.#alongZ];
    const end = alongZ + this.#grid.count;
    for (let i = alongZ, link = 0; i < end; i += 1, link += LINKS) {
      const own = now[i] as number;
      const rate =
        (driven[i] as number) +
        (links[link] as number) * (now[i - 1] as number) +
        (links[link + 1] as number) * (now[i + 1] as number) +
        (links[link + 2] as number) * (now[i - alongY] as number) +
        (links[link + 3] as number) * (now[i + alongY] as number) +
        (links[link + 4] as number) * (now[i - alongZ] as number) +
        (links[link + 5] as number) * (now[i + alongZ] as number) -
        (links[link + 6] as number) * own;
      before[i] =
        mu * own +
        nu * (before[i] as number) +
        rest * (first[i] as number) +
        by * rate +
        gamma * (rates[i] as number);
    }
  }
}

/** The longest explicit step, s. */
function longestOf(grid: Grid): number {
  const alongY = grid.x.length - 1;
  const links = linksOf(grid, alongY, alongY * (grid.y.length - 1));
  let fastest = 0;
  for (let at = LINKS - 1; at < links.length; at += LINKS) fastest = Math.max(fastest, links[at] as number);
  return 1 / fastest;
}

/** Cell by cell: to the cells before and after it along x, y and z, then all of them with what is outside, 1/s. */
function linksOf(
  { count, capacity, toX, toY, toZ, toOuter }: Grid,
  alongY: number,
  alongZ: number,
): Float64Array {
  const links = new Float64Array(count * LINKS);
  for (let cell = 0; cell < count; cell += 1) {
    const own = [
      ...[toX[cell - 1] ?? 0, toX[cell] as number],
      ...[toY[cell - alongY] ?? 0, toY[cell] as number],
      ...[toZ[cell - alongZ] ?? 0, toZ[cell] as number],
    ];
    const outside = toOuter.reduce((sum, to) => sum + (to[cell] as number), 0);
    const all = own.reduce((sum, conductance) => sum + conductance, outside);
    [...own, all].forEach((conductance, at) => {
      links[cell * LINKS + at] = conductance / (capacity[cell] as number);
    });
  }
  return links;
}
