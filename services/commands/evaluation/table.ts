/** Totals as lines for people. */
import type { RuleTotal, Totals } from './totals.js';

const text = (value: number | null, digits = 0): string => (value === null ? '-' : value.toFixed(digits));

const COLUMNS = [
  ['found', (t: Totals) => (t.rots > 0 ? `${t.found}/${t.rots}` : '-')],
  ['days', (t: Totals) => text(t.fromOnset_days, 1)],
  ['h', (t: Totals) => text(t.fromKnowable_h)],
  ['hand', (t: Totals) => text(t.beforeHand_days, 1)],
  ['false', (t: Totals) => text(t.falseUnpack_per_100_months, 1)],
  ['cm', (t: Totals) => text(t.error_cm)],
  ['4 d', (t: Totals) => text(t.laterError_cm)],
  ['faults', (t: Totals) => (t.faults > 0 ? `${t.recognised}/${t.faults}` : '-')],
  ['wet h', (t: Totals) => text(t.wettingAfter_h, 1)],
] as const;

const NAME_width = 42;
const WIDTH = 7;

const line = (name: string, cells: readonly string[]): string =>
  `${name.slice(0, NAME_width).padEnd(NAME_width)}${cells.map((cell) => cell.padStart(WIDTH)).join('')}`;

export const heading = (): string =>
  line(
    'scenario',
    COLUMNS.map(([name]) => name),
  );

export const row = (name: string, totals: Totals): string =>
  line(
    name,
    COLUMNS.map(([, of]) => of(totals)),
  );

export const LEGEND = [
  'found: rots told as "unpack" of those planted; days: from onset (median); h: from when the true excess at the',
  'nearest probe passed 0.5 C (median, negative before); hand: days before the two-weekly hand (median); false:',
  '"unpack" in 100 sound bed-months; cm, 4 d: error of the place at the alarm and four days later (median); faults:',
  'probe faults recognised; wet h: from a wet front reaching a probe to its alarm (median).',
];

export const ruleRow = ({
  rule,
  limit_C,
  found,
  rots,
  fromOnset_days,
  false_per_100_months,
}: RuleTotal): string =>
  `  ${rule.padEnd(26)}${limit_C === null ? '' : `above ${limit_C.toFixed(2)} C`}`.padEnd(NAME_width) +
  [rots > 0 ? `${found}/${rots}` : '-', text(fromOnset_days, 1), '', '', text(false_per_100_months, 1)]
    .map((cell) => cell.padStart(WIDTH))
    .join('');
