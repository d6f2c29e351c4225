/**
 * One step of a Kalman filter for several measurements at once, and the same step for signals that might have been
 * in them.
 *
 * State x (n), covariance P (n by n, row by row), measurements z = H x + noise. All arrays are plain; nothing is
 * kept between calls.
 */

/** What a measurement step did, to carry other signals through it. */
export interface Gain {
  /** Rows of H that were used, m by n, and where they are not zero. */
  readonly rows: readonly Float64Array[];
  readonly stretches: readonly Stretches[];
  /** Lower Cholesky factor of the innovation covariance, m by m. */
  readonly factor: Float64Array;
  /** P H^T L^-T: what each whitened innovation adds to the state, a column for each. */
  readonly columns: readonly Float64Array[];
  /** Innovations, whitened: L^-1 (z - H x). */
  readonly whitened: Float64Array;
  readonly innovation: Float64Array;
}

/** Where a row is not zero: beginning and end (the first after it) of each stretch, one after the other. */
export type Stretches = Int32Array;

/** A row says nothing of most unknowns of other probes: products with it need not look at them. */
export function stretchesOf(row: Float64Array): Stretches {
  const bounds: number[] = [];
  for (let i = 0; i < row.length; i += 1) {
    const begins = row[i] !== 0 && (i === 0 || row[i - 1] === 0);
    const ends = row[i] === 0 && i > 0 && row[i - 1] !== 0;
    if (begins || ends) bounds.push(i);
  }
  if (bounds.length % 2 === 1) bounds.push(row.length);
  return Int32Array.from(bounds);
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
  const m = rows.length;
  const stretches = rows.map(stretchesOf);
  const columns = rows.map((row, j) => timesRow(P, row, stretches[j] as Stretches));
  const S = new Float64Array(m * m);
  for (let a = 0; a < m; a += 1)
    for (let b = 0; b <= a; b += 1) {
      const own = a === b ? (noise[a] as number) : 0;
      S[a * m + b] = own + product(rows[a] as Float64Array, columns[b] as Float64Array);
    }
  const factor = cholesky(S, m);
  if (!factor) return undefined;
  const innovation = Float64Array.from(rows, (row, j) => (measured[j] as number) - product(row, x));
  const whitened = innovation.slice();
  solveLower(factor, m, whitened);
  whitenColumns(columns, factor);
  columns.forEach((column, j) => {
    addTimes(x, column, whitened[j] as number);
  });
  loseProducts(P, columns);
  return { rows, stretches, factor, columns, whitened, innovation };
}

/** P times a row. */
function timesRow(P: Float64Array, row: Float64Array, stretches: Stretches): Float64Array {
  const n = row.length;
  const into = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    const at = i * n;
    let sum = 0;
    for (let s = 0; s < stretches.length; s += 2) {
      const end = stretches[s + 1] as number;
      for (let k = stretches[s] as number; k < end; k += 1) sum += (P[at + k] as number) * (row[k] as number);
    }
    into[i] = sum;
  }
  return into;
}

function addTimes(into: Float64Array, column: Float64Array, times: number): void {
  for (let i = 0; i < into.length; i += 1) into[i] = (into[i] as number) + times * (column[i] as number);
}

/** P H^T becomes W = P H^T L^-T in place, so that P loses W W^T and the gain is W L^-1. */
function whitenColumns(columns: readonly Float64Array[], factor: Float64Array): void {
  const m = columns.length;
  columns.forEach((column, j) => {
    for (let k = 0; k < j; k += 1)
      addTimes(column, columns[k] as Float64Array, -(factor[j * m + k] as number));
    const diagonal = factor[j * m + j] as number;
    for (let i = 0; i < column.length; i += 1) column[i] = (column[i] as number) / diagonal;
  });
}

/** P - W W^T in place: the upper triangle, then its mirror image. */
function loseProducts(P: Float64Array, columns: readonly Float64Array[]): void {
  const n = columns[0]?.length ?? 0;
  for (const column of columns)
    for (let i = 0; i < n; i += 1) {
      const own = column[i] as number;
      const at = i * n;
      for (let k = i; k < n; k += 1) P[at + k] = (P[at + k] as number) - own * (column[k] as number);
    }
  for (let i = 0; i < n; i += 1) for (let k = i + 1; k < n; k += 1) P[k * n + i] = P[i * n + k] as number;
}
