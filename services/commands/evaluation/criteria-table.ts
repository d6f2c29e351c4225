/** What is asked for as lines for people: plain ASCII. */
import type { Criterion, Unit } from './criteria.js';
import { wrap } from './wrap.js';

const NAME_width = 46;
const WIDTH = 9;

function text(value: number | null | undefined, unit: Unit): string {
  if (value === undefined) return '';
  if (value === null) return '-';
  if (value === Number.POSITIVE_INFINITY) return 'never';
  if (unit === 'share') return `${(value * 100).toFixed(0)} %`;
  if (unit === 'in 100 months') return value.toFixed(1);
  return unit === 'number' ? `${value}` : `${value.toFixed(0)} ${unit}`;
}

const askedText = ({ asked, unit }: Criterion): string =>
  'atLeast' in asked ? `>= ${text(asked.atLeast, unit)}` : `<= ${text(asked.atMost, unit)}`;

const metText = ({ met }: Criterion): string => (met === null ? '-' : met ? 'yes' : 'no');

const line = (name: string, cells: readonly string[]): string =>
  `${name.padEnd(NAME_width)}${cells.map((cell) => cell.padStart(WIDTH)).join('')}`;

const LEGEND = wrap(
  '(a) without seasons whose readings came late or whose shade probe was missing; (b) in beds with four probes or more; "in all": with them.',
);

export const criteriaLines = (criteria: readonly Criterion[]): string[] => [
  line('asked of the watch', ['asked', 'came to', 'met', 'in all']),
  ...criteria.map((one) =>
    line(one.name, [askedText(one), text(one.came, one.unit), metText(one), text(one.inAll, one.unit)]),
  ),
  ...LEGEND,
];
