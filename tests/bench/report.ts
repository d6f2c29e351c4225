/** The figures in words: a ratio and its spread before anything else, since times of one machine alone say little. */
import type { Comparison, Round } from './compare.js';
import { type Figure, isMet } from './figures.js';
import type { Measured } from './measured.js';

/** Messages and MiB are whole, seconds and ratios are not. */
const number = (value: number, unit: string): string =>
  unit === 's' || unit === 'ms' || unit === '' ? value.toFixed(2) : `${value.toFixed(0)}`;

const amount = (value: number, unit: string): string => `${number(value, unit)} ${unit}`.trim();

const side = ({ value, note }: Measured, unit: string): string =>
  `${amount(value, unit)}${note === undefined ? '' : ` (${note})`}`;

export function describeRound(
  name: string,
  unit: string,
  number: number,
  { ratio, bare, ours }: Round,
): string {
  return `  ${name}, round ${number}: ratio ${ratio.toFixed(2)}, ours ${side(ours, unit)}, bare ${side(bare, unit)}`;
}

/** A figure beside what is asked for. */
export const describeFigure = (figure: Figure): string =>
  `${figure.name}: ${amount(figure.value, figure.unit)}; wanted ${amount(figure.goal, figure.unit)} at the most: ${isMet(figure) ? 'met' : 'NOT MET'}`;

export function describeComparison({
  name,
  ratio,
  spread,
  wanted,
  what,
  bareIs,
  figures,
}: Comparison): string {
  const [least, largest] = spread;
  const target =
    wanted === null ? '' : `; wanted ${wanted} or better: ${ratio >= wanted ? 'met' : 'NOT MET'}`;
  const lines = [
    `${name}: ratio ${ratio.toFixed(2)} (${least.toFixed(2)} to ${largest.toFixed(2)})${target}`,
    ...figures.map(describeFigure),
    `ours: ${what}`,
    `bare: ${bareIs}`,
  ];
  return lines.join('\n  ');
}
