/** Figures of many times. */
import { median, quantileSorted } from 'simple-statistics';

/** Median and 99th percentile of times, ms. @throws Error where there are none */
export function spreadOf(times_ms: readonly number[]): { median_ms: number; p99_ms: number } {
  const sorted = [...times_ms].sort((one, other) => one - other);
  if (sorted.length === 0) throw new Error('expected times, got none');
  return { median_ms: median(sorted), p99_ms: quantileSorted(sorted, 0.99) };
}

export const inWords = ({ median_ms, p99_ms }: ReturnType<typeof spreadOf>): string =>
  `median ${median_ms.toFixed(1)} ms, 99th percentile ${p99_ms.toFixed(1)} ms`;
