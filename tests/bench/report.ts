/** The figures in words: a ratio and its spread before anything else, since times of one machine alone say little. */
import type { Comparison, Round } from './compare.js';
import type { Measured } from './measured.js';

const figure = ({ value, note }: Measured, unit: string): string =>
  `${value.toFixed(0)} ${unit}${note === undefined ? '' : ` (${note})`}`;

export function describeRound(
  name: string,
  unit: string,
  number: number,
  { ratio, bare, ours }: Round,
): string {
  return `  ${name}, round ${number}: ratio ${ratio.toFixed(2)}, ours ${figure(ours, unit)}, bare ${figure(bare, unit)}`;
}

export function describeComparison({ name, ratio, spread, wanted, what, bareIs }: Comparison): string {
  const [least, largest] = spread;
  const target =
    wanted === null ? '' : `; wanted ${wanted} or better: ${ratio >= wanted ? 'met' : 'NOT MET'}`;
  return `${name}: ratio ${ratio.toFixed(2)} (${least.toFixed(2)} to ${largest.toFixed(2)})${target}\n  ours: ${what}\n  bare: ${bareIs}`;
}
