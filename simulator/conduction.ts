/**
 * Heat conduction in three dimensions in a block of unlike cells: finite volumes, explicit in time.
 *
 * What leaves a cell through a face enters its neighbour, so heat is conserved to rounding. The conductance of a
 * face is that of the two half cells in series, the harmonic mean (S. V. Patankar, Numerical Heat Transfer and
 * Fluid Flow, 1980, section 4.2-3; from memory).
 */
import { SandlarderError } from '../services/core/errors.js';
import { cellAt, eachCell, type Grid, width } from './grid.js';

/** A face of the block that touches something outside it: air or ground kept at a temperature. */
export interface OuterFace {
  readonly cell: number;
  /** From the cell's middle to the outside, W/K. */
  readonly conductance_W_K: number;
  /** Which of the outside temperatures it touches. */
  readonly touches: number;
}

/** Share of the longest stable step that is allowed: the rest is margin for rounding. */
const MARGIN = 0.99;

export class Conduction {
  readonly grid: Grid;
  /** Of each cell, °C. */
  readonly temperature_C: Float64Array;
  /** Of each cell, W/(m K), and J/(m3 K): after a change call `prepare`. */
  readonly conductivity: Float64Array;
  readonly capacity: Float64Array;
  /** Heat released in each cell, W. */
  readonly source_W: Float64Array;
  /** Conductance to the next cell along each axis, W/K; 0 at the end of the block. */
  readonly #toNextX: Float64Array;
  readonly #toNextY: Float64Array;
  readonly #toNextZ: Float64Array;
  readonly #perHeat_K_J: Float64Array;
  readonly #gain_W: Float64Array;
  #outer: readonly OuterFace[] = [];
  #longestStep_s = 0;

  constructor(grid: Grid) {
    this.grid = grid;
    const cells = (): Float64Array => new Float64Array(grid.count);
    this.temperature_C = cells();
    this.conductivity = cells().fill(1);
    this.capacity = cells().fill(1e6);
    this.source_W = cells();
    this.#toNextX = cells();
    this.#toNextY = cells();
    this.#toNextZ = cells();
    this.#perHeat_K_J = cells();
    this.#gain_W = cells();
  }

  /** Longest stable step with the materials and outer faces last prepared, s. */
  get longestStep_s(): number {
    return this.#longestStep_s;
  }

  /** Takes in the materials and outer faces as they are now. */
  prepare(outer: readonly OuterFace[]): void {
    const { grid } = this;
    this.#outer = outer;
    eachCell(grid, (cell, i, j, k) => {
      const [dx, dy, dz] = [width(grid.wallsX, i), width(grid.wallsY, j), width(grid.wallsZ, k)];
      this.#perHeat_K_J[cell] = 1 / ((this.capacity[cell] as number) * (grid.volume[cell] as number));
      if (i + 1 < grid.nx)
        this.#toNextX[cell] = this.#face(
          cell,
          cellAt(grid, i + 1, j, k),
          dx,
          width(grid.wallsX, i + 1),
          dy * dz,
        );
      if (j + 1 < grid.ny)
        this.#toNextY[cell] = this.#face(
          cell,
          cellAt(grid, i, j + 1, k),
          dy,
          width(grid.wallsY, j + 1),
          dx * dz,
        );
      if (k + 1 < grid.nz)
        this.#toNextZ[cell] = this.#face(
          cell,
          cellAt(grid, i, j, k + 1),
          dz,
          width(grid.wallsZ, k + 1),
          dx * dy,
        );
    });
    this.#longestStep_s = MARGIN * this.#stableStep();
  }

  #face(one: number, other: number, widthOne: number, widthOther: number, area: number): number {
    const resistance =
      widthOne / 2 / (this.conductivity[one] as number) +
      widthOther / 2 / (this.conductivity[other] as number);
    return area / resistance;
  }

  /** A step is stable while no cell gives away more than its own difference: dt times its conductances < its heat capacity. */
  #stableStep(): number {
    const { nx, ny, count } = this.grid;
    const sum = new Float64Array(count);
    const add = (toNext: Float64Array, stride: number): void => {
      for (let cell = 0; cell < count; cell += 1) {
        const conductance = toNext[cell] as number;
        if (conductance === 0) continue;
        sum[cell] = (sum[cell] as number) + conductance;
        sum[cell + stride] = (sum[cell + stride] as number) + conductance;
      }
    };
    add(this.#toNextX, 1);
    add(this.#toNextY, nx);
    add(this.#toNextZ, nx * ny);
    for (const { cell, conductance_W_K } of this.#outer) sum[cell] = (sum[cell] as number) + conductance_W_K;
    let longest = Number.POSITIVE_INFINITY;
    for (let cell = 0; cell < count; cell += 1)
      longest = Math.min(longest, 1 / ((sum[cell] as number) * (this.#perHeat_K_J[cell] as number)));
    return longest;
  }

  /**
   * One step.
   *
   * @param step_s no longer than `longestStep_s`
   * @param outside_C temperatures that the outer faces touch, by their number
   * @returns heat that came in through the outer faces, J
   * @throws SandlarderError OUT_OF_DOMAIN for a step that is not stable
   */
  step(step_s: number, outside_C: readonly number[]): number {
    if (!(step_s > 0 && step_s <= this.#longestStep_s))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `step must be in (0, ${this.#longestStep_s}] s, got ${step_s}`,
      );
    const gain = this.#gain_W;
    gain.set(this.source_W);
    let inflow_W = 0;
    for (const { cell, conductance_W_K, touches } of this.#outer) {
      const flow = conductance_W_K * ((outside_C[touches] as number) - (this.temperature_C[cell] as number));
      gain[cell] = (gain[cell] as number) + flow;
      inflow_W += flow;
    }
    const { nx, ny } = this.grid;
    exchange(this.temperature_C, gain, this.#toNextX, 1);
    exchange(this.temperature_C, gain, this.#toNextY, nx);
    exchange(this.temperature_C, gain, this.#toNextZ, nx * ny);
    const { temperature_C } = this;
    const perHeat = this.#perHeat_K_J;
    for (let cell = 0; cell < temperature_C.length; cell += 1)
      temperature_C[cell] =
        (temperature_C[cell] as number) + step_s * (gain[cell] as number) * (perHeat[cell] as number);
    return inflow_W * step_s;
  }

  /** Heat content above 0 °C, J. */
  heat_J(): number {
    return this.temperature_C.reduce(
      (sum, value, cell) => sum + value / (this.#perHeat_K_J[cell] as number),
      0,
    );
  }
}

/** Flow between neighbours along one axis; where the block ends the conductance is 0. */
function exchange(temperature: Float64Array, gain: Float64Array, toNext: Float64Array, stride: number): void {
  const last = temperature.length - stride;
  for (let cell = 0; cell < last; cell += 1) {
    const next = cell + stride;
    const flow = (toNext[cell] as number) * ((temperature[next] as number) - (temperature[cell] as number));
    gain[cell] = (gain[cell] as number) + flow;
    gain[next] = (gain[next] as number) - flow;
  }
}
