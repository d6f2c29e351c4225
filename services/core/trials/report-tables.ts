/** Tables of a trial's report, and the same as plain text to be compared anew. */
import type { CertificateTable } from '../calibration/certificate-document.js';
import type { Comparison } from './comparison.js';
import { decimalsFor, fixed, pText } from './numbers.js';
import type { RootsSeen } from './roots-seen.js';
import type { SurvivalComparison } from './survival.js';
import type { TrialRow } from './trial-result.js';

const column = (head: string, share: number, isNumber = false) => ({ head, share, isNumber });

export function dataTable(rows: readonly TrialRow[], unit: string): CertificateTable {
  const blocks = rows.some(({ block }) => block !== null);
  return {
    caption: 'Each bed with the number that stands for it',
    columns: [
      column('Bed', 2),
      column('Treatment', 2),
      ...(blocks ? [column('Block', 2)] : []),
      column(`Value, ${unit}`, 1.5, true),
      column('Day', 1, true),
      column('', 4),
    ],
    rows: rows.map(({ bed, treatment, block, value, day, reached, missing }) => [
      ...[bed, treatment, ...(blocks ? [block ?? ''] : [])],
      value === null ? '' : String(Number(value.toFixed(4))),
      day === null ? '' : day.toFixed(0),
      missing ?? (reached === false ? 'not by then' : ''),
    ]),
  };
}

export function comparisonTables({
  treatments,
  differences,
  correction,
  design,
}: Comparison): CertificateTable[] {
  const decimals = decimalsFor(
    Math.min(...treatments.map(({ sd }) => (sd && sd > 0 ? sd : Number.POSITIVE_INFINITY))),
  );
  const ends = (low: number, high: number): string => `${fixed(low, decimals)} to ${fixed(high, decimals)}`;
  return [
    {
      caption: design === 'kruskal' ? 'Treatments' : 'Treatments, with 95 % intervals of their means',
      columns: [
        column('Treatment', 3),
        column('Beds', 1, true),
        column('Mean', 1.5, true),
        column('Interval', 2.5, true),
        column('Deviation between beds', 2, true),
      ],
      rows: treatments.map(({ treatment, beds, mean, interval, sd }) => [
        ...[treatment, String(beds), fixed(mean, decimals)],
        interval ? ends(interval.low, interval.high) : '',
        sd === null ? '' : fixed(sd, decimals),
      ]),
    },
    {
      caption: `Differences with 95 % intervals${correction === null ? '' : `, all pairs together (${correction})`}`,
      columns: [
        column('Difference', 3),
        column('Estimate', 1.5, true),
        column('Interval', 2.5, true),
        column('p', 1.5, true),
      ],
      rows: differences.map(({ from, to, difference, p }) => [
        ...[`${to} less ${from}`, fixed(difference.estimate, decimals)],
        ...[ends(difference.low, difference.high), pText(p).replace(/^p = /, '').replace(/^p /, '')],
      ]),
    },
  ];
}

const percent = (share: number): string => (100 * share).toFixed(1);

export function keptTable({ treatments, commonTime }: SurvivalComparison): CertificateTable {
  return {
    caption: `Kept at day ${commonTime.toFixed(0)}, with 95 % intervals`,
    columns: [
      column('Treatment', 3),
      column('Beds', 1, true),
      column('Kept, %', 1.5, true),
      column('Interval, %', 2.5, true),
      column('Half lost by day', 2, true),
    ],
    rows: treatments.map(({ treatment, beds, kept, interval, median }) => [
      ...[treatment, String(beds), percent(kept)],
      interval ? `${percent(interval.low)} to ${percent(interval.high)}` : '',
      median === null ? 'more are kept' : median.toFixed(0),
    ]),
  };
}

const cell = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** Twelve digits: further ones are the computer's rounding, and say nothing of a bed. */
const textOf = (value: string | number): string =>
  typeof value === 'number' ? String(Number(value.toPrecision(12))) : value;

const csv = (lines: readonly (readonly (string | number)[])[]): string =>
  lines.map((line) => `${line.map((each) => cell(textOf(each))).join(',')}\r\n`).join('');

/** What `trial test` reads: a line a bed that has a value, or for days until something. */
export function valuesCsv(rows: readonly TrialRow[], byDays: boolean): string {
  const told = rows.filter(({ value }) => value !== null);
  return byDays
    ? csv([
        ['bed', 'treatment', 'block', 'time', 'lost'],
        ...told.map(({ bed, treatment, block, value, reached }) => [
          bed,
          treatment,
          block ?? '',
          value ?? '',
          reached ? 'yes' : 'no',
        ]),
      ])
    : csv([
        ['bed', 'treatment', 'block', 'value'],
        ...told.map(({ bed, treatment, block, value }) => [bed, treatment, block ?? '', value ?? '']),
      ]);
}

/** What `trial test --design survival` reads: roots of each bed by its looks. */
export const rootsCsv = (seen: readonly RootsSeen[]): string =>
  csv([
    ['bed', 'treatment', 'block', 'time', 'lost', 'roots'],
    ...seen.map(({ bed, treatment, block = '', time, lost, roots }) => [
      bed,
      treatment,
      block,
      time,
      lost ? 'yes' : 'no',
      roots,
    ]),
  ]);
