/**
 * One step of a Kalman filter for several measurements at once, and the same step for signals that might have been
 * in them.
 *
 * State x (n), covariance P (n by n, row by row), measurements z = H x + noise. All arrays are plain; nothing is
 * kept between calls.
 */

/** What a measurement step did, to carry other signals through it. */
export interface Gain {
  /** Rows of H that were used, m by n. */
  readonly rows: readonly Float64Array[];
  /** Lower Cholesky factor of the innovation covariance, m by m. */
  readonly factor: Float64Array;
  /** Gain, n by m: `gain[i * m + j]`. */
  readonly gain: Float64Array;
  /** Innovations, whitened: L^-1 (z - H x). */
  readonly whitened: Float64Array;
  readonly innovation: Float64Array;
}

/** Lower Cholesky factor in place of a symmetric positive definite matrix; undefined where it is none. */
export function cholesky(matrix: Float64Array, size: number): Float64Array | undefined {
  const factor = new Float64Array(size * size);
  for (let i = 0; i < size; i += 1)
    for (let j = 0; j <= i; j += 1) {
      let sum = matrix[i * size + j] as number;
      for (let k = 0; k < j; k += 1)
        sum -= (factor[i * size + k] as number) * (factor[j * size + k] as number);
      if (i === j) {
        if (!(sum > 0)) return undefined;
        factor[i * size + i] = Math.sqrt(sum);
      } else factor[i * size + j] = sum / (factor[j * size + j] as number);
    }
  return factor;
}

/** Solves L v = right in place. */
export function solveLower(factor: Float64Array, size: number, right: Float64Array): void {
  for (let i = 0; i < size; i += 1) {
    let sum = right[i] as number;
    for (let k = 0; k < i; k += 1) sum -= (factor[i * size + k] as number) * (right[k] as number);
    right[i] = sum / (factor[i * size + i] as number);
  }
}

/** Solves L^T v = right in place. */
export function solveUpper(factor: Float64Array, size: number, right: Float64Array): void {
  for (let i = size - 1; i >= 0; i -= 1) {
    let sum = right[i] as number;
    for (let k = i + 1; k < size; k += 1) sum -= (factor[k * size + i] as number) * (right[k] as number);
    right[i] = sum / (factor[i * size + i] as number);
  }
}

export const product = (row: Float64Array, state: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < row.length; i += 1) sum += (row[i] as number) * (state[i] as number);
  return sum;
};

/**
 * Takes measurements in.
 *
 * @param x state, changed in place
 * @param P covariance, changed in place
 * @param rows H, one row for each measurement
 * @param measured z less what is known of it without the state
 * @param noise variance of each measurement
 */
export function update(
  x: Float64Array,
  P: Float64Array,
  rows: readonly Float64Array[],
  measured: readonly number[],
  noise: readonly number[],
): Gain | undefined {
  const n = x.length;
  const m = rows.length;
  const PH = new Float64Array(n * m);
  for (let j = 0; j < m; j += 1) {
    const row = rows[j] as Float64Array;
    for (let i = 0; i < n; i += 1) {
      let sum = 0;
      const at = i * n;
      for (let k = 0; k < n; k += 1) sum += (P[at + k] as number) * (row[k] as number);
      PH[i * m + j] = sum;
    }
  }
  const S = new Float64Array(m * m);
  for (let a = 0; a < m; a += 1) {
    const row = rows[a] as Float64Array;
    for (let b = 0; b < m; b += 1) {
      let sum = a === b ? (noise[a] as number) : 0;
      for (let i = 0; i < n; i += 1) sum += (row[i] as number) * (PH[i * m + b] as number);
      S[a * m + b] = sum;
    }
  }
  const factor = cholesky(S, m);
  if (!factor) return undefined;
  const innovation = Float64Array.from(rows, (row, j) => (measured[j] as number) - product(row, x));
  const whitened = innovation.slice();
  solveLower(factor, m, whitened);
  // W = P H^T L^-T, so that P loses W W^T and the gain is W L^-1.
  const W = new Float64Array(n * m);
  for (let i = 0; i < n; i += 1)
    for (let j = 0; j < m; j += 1) {
      let sum = PH[i * m + j] as number;
      for (let k = 0; k < j; k += 1) sum -= (factor[j * m + k] as number) * (W[i * m + k] as number);
      W[i * m + j] = sum / (factor[j * m + j] as number);
    }
  for (let i = 0; i < n; i += 1) {
    let change = 0;
    for (let j = 0; j < m; j += 1) change += (W[i * m + j] as number) * (whitened[j] as number);
    x[i] = (x[i] as number) + change;
    for (let k = i; k < n; k += 1) {
      let loss = 0;
      for (let j = 0; j < m; j += 1) loss += (W[i * m + j] as number) * (W[k * m + j] as number);
      const value = (P[i * n + k] as number) - loss;
      P[i * n + k] = value;
      P[k * n + i] = value;
    }
  }
  return { rows, factor, gain: W, whitened, innovation };
}
