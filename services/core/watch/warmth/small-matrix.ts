/** Small symmetric systems, as of least squares on a few curves. */

export const dot = (one: readonly number[], other: readonly number[]): number =>
  one.reduce((sum, value, index) => sum + value * (other[index] as number), 0);

/** Inverse of a small symmetric positive definite matrix, by Gauss-Jordan elimination. */
export function invert(matrix: readonly (readonly number[])[]): number[][] {
  const size = matrix.length;
  const rows = matrix.map((row, index) => [...row, ...row.map((_, column) => (column === index ? 1 : 0))]);
  for (let column = 0; column < size; column += 1) {
    const pivot = rows[column] as number[];
    const by = pivot[column] as number;
    for (let at = 0; at < 2 * size; at += 1) pivot[at] = (pivot[at] as number) / by;
    for (const row of rows) {
      if (row === pivot) continue;
      const times = row[column] as number;
      for (let at = 0; at < 2 * size; at += 1) row[at] = (row[at] as number) - times * (pivot[at] as number);
    }
  }
  return rows.map((row) => row.slice(size));
}
