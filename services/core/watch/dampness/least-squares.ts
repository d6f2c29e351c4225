/** Least squares by orthogonal columns (modified Gram-Schmidt). */

export interface Column {
  readonly values: Float64Array;
  readonly square: number;
  /** How many times the column before it was taken off. */
  readonly ofLast: number;
}

export function dot(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < one.length; at += 1) sum += (one[at] as number) * (other[at] as number);
  return sum;
}

/** Takes a column off as far as it goes; how many times that was. */
export function takeOff(from: Float64Array, { values, square }: Column): number {
  const times = dot(from, values) / square;
  for (let at = 0; at < from.length; at += 1)
    from[at] = (from[at] as number) - times * (values[at] as number);
  return times;
}

/** What each column has beyond those before it. The columns given are overwritten. */
export function orthogonalColumns(given: readonly Float64Array[]): Column[] {
  const columns: Column[] = [];
  for (const values of given) {
    let ofLast = 0;
    for (const column of columns) ofLast = takeOff(values, column);
    columns.push({ values, square: dot(values, values), ofLast });
  }
  return columns;
}
