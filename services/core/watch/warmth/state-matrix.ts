/** Mean and covariance of the filter's state, with the few things that are done to them besides measuring. */

export class StateMatrix {
  readonly size: number;
  readonly x: Float64Array;
  /** Row by row, symmetric. */
  readonly P: Float64Array;

  constructor(size: number) {
    this.size = size;
    this.x = new Float64Array(size);
    this.P = new Float64Array(size * size);
  }

  /** Forgets what is known of an unknown. */
  set(at: number, mean: number, deviation: number): void {
    this.x[at] = mean;
    for (let i = 0; i < this.size; i += 1) {
      this.P[at * this.size + i] = 0;
      this.P[i * this.size + at] = 0;
    }
    this.P[at * this.size + at] = deviation * deviation;
  }

  /** Lets an unknown be otherwise by a deviation. */
  widen(at: number, deviation: number): void {
    const on = at * this.size + at;
    this.P[on] = (this.P[on] as number) + deviation * deviation;
  }

  mean(at: number): number {
    return this.x[at] as number;
  }

  variance(at: number): number {
    return this.P[at * this.size + at] as number;
  }

  /** Variance of a sum of the unknowns. */
  varianceOf(row: Float64Array): number {
    let total = 0;
    for (let i = 0; i < this.size; i += 1) {
      const weight = row[i] as number;
      if (weight === 0) continue;
      let sum = 0;
      for (let k = 0; k < this.size; k += 1)
        sum += (this.P[i * this.size + k] as number) * (row[k] as number);
      total += weight * sum;
    }
    return Math.max(0, total);
  }

  /** Upper triangle, row by row. */
  packed(): Float64Array {
    const packed = new Float64Array((this.size * (this.size + 1)) / 2);
    let at = 0;
    for (let i = 0; i < this.size; i += 1)
      for (let k = i; k < this.size; k += 1) packed[at++] = this.P[i * this.size + k] as number;
    return packed;
  }

  unpack(x: Float64Array, packed: Float64Array): void {
    this.x.set(x);
    let at = 0;
    for (let i = 0; i < this.size; i += 1)
      for (let k = i; k < this.size; k += 1) {
        const value = packed[at++] as number;
        this.P[i * this.size + k] = value;
        this.P[k * this.size + i] = value;
      }
  }
}
