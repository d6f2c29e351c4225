/**
 * How well the mean of a series in time is known, where neighbours are alike.
 *
 * Two methods, the larger answer counts. First order: n (1 - r) / (1 + r) independent values, r the correlation of
 * neighbours, at least 0, with its bias of (1 + 4 r) / n put back (M. G. Kendall 1954, from memory). Batches: the
 * means of six stretches of equal length taken as independent, which also sees what swings over hours.
 */
import { mean } from 'simple-statistics';

export interface MeanOfSeries {
  readonly mean: number;
  /** Standard deviation of single values. */
  readonly scatter: number;
  /** Of the mean. */
  readonly standardUncertainty: number;
  /** (scatter / uncertainty of the mean)^2: how many independent values would say as much. 1 or above. */
  readonly independent: number;
}

const BATCHES = 6;

/** @param values at least 24, evenly spaced as far as the probe kept its pace */
export function meanOfSeries(values: readonly number[]): MeanOfSeries {
  const middle = mean([...values]);
  const off = values.map((value) => value - middle);
  const scatter = Math.sqrt(sumOfSquares(off) / (values.length - 1));
  if (scatter === 0) return { mean: middle, scatter, standardUncertainty: 0, independent: values.length };
  const firstOrder = scatter / Math.sqrt(independentOf(off));
  // One value alone says as much as the whole series at the worst.
  const standardUncertainty = Math.min(scatter, Math.max(firstOrder, ofBatches(off)));
  return {
    mean: middle,
    scatter,
    standardUncertainty,
    independent: (scatter / standardUncertainty) ** 2,
  };
}

/** Number of independent values after the correlation of neighbours. */
function independentOf(off: readonly number[]): number {
  const count = off.length;
  let products = 0;
  for (let at = 1; at < count; at += 1) products += (off[at] as number) * (off[at - 1] as number);
  const seen = products / sumOfSquares(off);
  const correlation = Math.max(0, seen + (1 + 4 * seen) / count);
  return correlation < 1 ? Math.max(1, (count * (1 - correlation)) / (1 + correlation)) : 1;
}

/** Standard deviation of the means of the batches over the root of their number; values left over go to the last. */
function ofBatches(off: readonly number[]): number {
  const size = Math.floor(off.length / BATCHES);
  const means = Array.from({ length: BATCHES }, (_, batch) =>
    mean(off.slice(batch * size, batch === BATCHES - 1 ? undefined : (batch + 1) * size)),
  );
  const middle = mean(means);
  return Math.sqrt(sumOfSquares(means.map((value) => value - middle)) / (BATCHES - 1) / BATCHES);
}

function sumOfSquares(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value ** 2, 0);
}
