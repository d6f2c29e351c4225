/** A small dense system of linear equations. */
import { SandlarderError } from '../../errors.js';

/**
 * Solves matrix x = right by elimination with row pivoting. Both arguments are overwritten.
 *
 * @param matrix by rows, `right.length` squared numbers
 * @returns x, in the place of `right`
 * @throws SandlarderError OUT_OF_DOMAIN where the sizes do not fit or the matrix has no inverse
 */
export function solveLinear(matrix: Float64Array, right: Float64Array): Float64Array {
  const size = right.length;
  if (matrix.length !== size * size)
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `matrix: expected ${size * size} numbers, got ${matrix.length}`,
    );
  for (let column = 0; column < size; column += 1) {
    swapRows(matrix, right, column, pivotRow(matrix, size, column));
    for (let row = column + 1; row < size; row += 1) eliminate(matrix, right, row, column);
  }
  return substitute(matrix, right);
}

function pivotRow(matrix: Float64Array, size: number, column: number): number {
  const sizeAt = (row: number): number => Math.abs(matrix[row * size + column] as number);
  let best = column;
  for (let row = column + 1; row < size; row += 1) if (sizeAt(row) > sizeAt(best)) best = row;
  if (!(sizeAt(best) > 0)) throw new SandlarderError('OUT_OF_DOMAIN', 'matrix: expected one with an inverse');
  return best;
}

function swapRows(matrix: Float64Array, right: Float64Array, one: number, other: number): void {
  if (one === other) return;
  const size = right.length;
  const kept = matrix.slice(one * size, (one + 1) * size);
  matrix.copyWithin(one * size, other * size, (other + 1) * size);
  matrix.set(kept, other * size);
  const value = right[one] as number;
  right[one] = right[other] as number;
  right[other] = value;
}

function eliminate(matrix: Float64Array, right: Float64Array, row: number, column: number): void {
  const size = right.length;
  const factor = (matrix[row * size + column] as number) / (matrix[column * size + column] as number);
  for (let at = column; at < size; at += 1)
    matrix[row * size + at] =
      (matrix[row * size + at] as number) - factor * (matrix[column * size + at] as number);
  right[row] = (right[row] as number) - factor * (right[column] as number);
}

function substitute(matrix: Float64Array, right: Float64Array): Float64Array {
  const size = right.length;
  for (let row = size - 1; row >= 0; row -= 1) {
    let value = right[row] as number;
    for (let at = row + 1; at < size; at += 1)
      value -= (matrix[row * size + at] as number) * (right[at] as number);
    right[row] = value / (matrix[row * size + row] as number);
  }
  return right;
}
