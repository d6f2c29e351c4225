/**
 * Least squares of a tall system by Householder reflections: the columns are turned into an upper triangle without
 * ever forming their squares, which would halve the digits. Source: A. Björck, Numerical Methods for Least Squares
 * Problems, SIAM 1996, section 2.3 (from memory).
 */
import { SandlarderError } from '../errors.js';

export interface Triangle {
  /** Upper triangle by rows. */
  readonly upper: readonly (readonly number[])[];
  /** Its inverse, by rows. */
  readonly inverse: readonly (readonly number[])[];
  /** The right-hand side in the same turned axes, as many as there are columns. */
  readonly turned: readonly number[];
}

/** A column that keeps less than this share of its length beside those before it says nothing of its own. */
const DEPENDENT = 1e-10;

const dotFrom = (start: number, one: Float64Array, other: Float64Array): number => {
  let sum = 0;
  for (let row = start; row < one.length; row += 1) sum += (one[row] as number) * (other[row] as number);
  return sum;
};

/** Takes off `target`, from row `start` on, twice its part along `mirror`. */
function reflect(target: Float64Array, mirror: Float64Array, start: number): void {
  const times = (2 * dotFrom(start, mirror, target)) / dotFrom(start, mirror, mirror);
  for (let row = start; row < target.length; row += 1)
    target[row] = (target[row] as number) - times * (mirror[row] as number);
}

/**
 * Turns columns and right-hand side.
 *
 * @param columns of equal length, at least as long as there are columns; left as they are
 * @throws SandlarderError TOO_FEW_SAMPLES where a column is made up of those before it
 */
export function triangleOf(columns: readonly Float64Array[], right: Float64Array): Triangle {
  const turned = columns.map((column) => column.slice());
  const rightTurned = right.slice();
  turned.forEach((column, at) => {
    const length = Math.sqrt(dotFrom(0, column, column));
    const left = Math.sqrt(dotFrom(at, column, column));
    if (!(left > DEPENDENT * length))
      throw new SandlarderError(
        'TOO_FEW_SAMPLES',
        `polynomial: expected at least ${at + 1} different abscissas, got fewer`,
      );
    const mirror = column.slice();
    mirror[at] = (column[at] as number) + ((column[at] as number) >= 0 ? left : -left);
    for (const other of turned.slice(at)) reflect(other, mirror, at);
    reflect(rightTurned, mirror, at);
  });
  const upper = turned.map((_, row) => turned.map((column, at) => (at >= row ? (column[row] as number) : 0)));
  return { upper, inverse: inverseOf(upper), turned: [...rightTurned.slice(0, turned.length)] };
}

/** Inverse of an upper triangle, column by column from the diagonal up. */
function inverseOf(upper: readonly (readonly number[])[]): number[][] {
  const inverse = upper.map((row) => row.map(() => 0));
  const at = (rows: readonly (readonly number[])[], row: number, column: number): number =>
    rows[row]?.[column] as number;
  for (let column = 0; column < upper.length; column += 1)
    for (let row = column; row >= 0; row -= 1) {
      let value = row === column ? 1 : 0;
      for (let to = row + 1; to <= column; to += 1) value -= at(upper, row, to) * at(inverse, to, column);
      (inverse[row] as number[])[column] = value / at(upper, row, row);
    }
  return inverse;
}
