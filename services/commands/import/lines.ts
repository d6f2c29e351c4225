/** What an import says, in lines. */

import type { ImportMark } from '../../archive/index.js';
import { formatTime } from '../../core/model/time.js';
import type { Foreseen } from '../../joining/import-foresight.js';
import type {
  Mapping,
  OpenTable,
  ProbeSurvey,
  RefusedLine,
  Survey,
  TableReading,
} from '../../tables/import/index.js';

const count = (number: number, one: string, many = `${one}s`): string =>
  `${number.toLocaleString('en')} ${number === 1 ? one : many}`;

/** Probes that are listed one by one. */
const MOST_LISTED = 40;

const UNITS = { temperature: '°C', humidity: '%RH', battery: 'V', charge: '%EL' } as const;

export function understoodLines({ names, separatorName, rows }: OpenTable, mapping: Mapping): string[] {
  const { time, values, decimal, site } = mapping;
  const zone = time.zone === undefined ? 'with its offset' : `in ${time.zone}`;
  return [
    `separator ${separatorName}, decimal ${decimal}, ${count(names.length, 'column')}, rows from line ${rows.line}`,
    `time: ${time.column.join(' and ')}, as ${time.format}, ${time.format.startsWith('epoch') ? 'in UTC' : zone}`,
    ...values.map(({ column, quantity, unit, where }) => {
      const only = where ? ` where ${where.column} is ${JSON.stringify(where.is)}` : '';
      return `${column}: ${quantity} in ${unit}${only}`;
    }),
    `site ${site}`,
  ];
}

/** @param isKnown whether a site description knows a probe; undefined where there is no database yet */
export function surveyLines(
  survey: Survey,
  isKnown: ((probe: string) => boolean) | undefined,
  foreseen: Foreseen | null,
): string[] {
  const { lines, empty, first, probes } = survey;
  return [
    'the first readings:',
    ...first.map((reading) => `  ${readingLine(reading)}`),
    `${count(lines, 'line')}, of which ${count(empty, 'line')} without a value`,
    ...probes.slice(0, MOST_LISTED).map((probe) => `  ${probeLine(probe, isKnown)}`),
    ...(probes.length > MOST_LISTED ? [`  and ${count(probes.length - MOST_LISTED, 'more probe')}`] : []),
    ...foreseenLines(foreseen),
    ...refusedLines(survey.refused, survey.reasons),
    ...survey.firstRefused.map((line) => `  ${refusedLine(line)}`),
    'nothing was written',
  ];
}

const foreseenLines = (foreseen: Foreseen | null): string[] =>
  foreseen === null
    ? ['no database is there yet: what else it would refuse is not known']
    : [
        `it would keep ${count(foreseen.kept, 'value')}; ${count(foreseen.duplicates, 'value')} would be there before, ${foreseen.apart.toLocaleString('en')} kept apart`,
      ];

const readingLine = ({ line, probe, time, values }: TableReading): string =>
  `line ${line}: ${probe} at ${formatTime(time)}: ${Object.entries(values)
    .map(([quantity, value]) => `${quantity} ${value} ${UNITS[quantity as keyof typeof UNITS]}`)
    .join(', ')}`;

function probeLine(
  { probe, readings, from, to, step_ms }: ProbeSurvey,
  isKnown: ((probe: string) => boolean) | undefined,
): string {
  const step = step_ms === null ? '' : `, mostly every ${duration(step_ms)}`;
  const unknown =
    isKnown === undefined || isKnown(probe)
      ? ''
      : '; no site description knows it: its readings would be kept apart';
  return `${probe}: ${count(readings, 'reading')}, ${formatTime(from)} to ${formatTime(to)}${step}${unknown}`;
}

function duration(step_ms: number): string {
  if (step_ms % 3_600_000 === 0) return `${step_ms / 3_600_000} h`;
  return step_ms % 60_000 === 0 ? `${step_ms / 60_000} min` : `${step_ms / 1000} s`;
}

function refusedLines(refused: number, reasons: Readonly<Record<string, number>>): string[] {
  if (refused === 0) return ['nothing refused'];
  const each = Object.entries(reasons).map(([reason, times]) => `${reason} ${times}`);
  return [`refused: ${refused.toLocaleString('en')} (${each.join(', ')})`];
}

const refusedLine = ({ line, column, detail }: RefusedLine): string =>
  `line ${line}${column === '' ? '' : `, ${column}`}: ${detail}`;

export function importedLines(
  mark: ImportMark,
  refusedFile: string,
  { isKnown, resumedAt }: { readonly isKnown: boolean; readonly resumedAt: number | null },
): string[] {
  const { lines, empty, kept, duplicates, apart, refused, reasons, at } = mark;
  return [
    ...(isKnown
      ? [
          `this file was taken in by ${formatTime(at)}: nothing was changed; --again goes through it once more`,
        ]
      : []),
    ...(resumedAt === null ? [] : [`went on from line ${resumedAt}`]),
    `${count(lines, 'line')}, ${count(empty, 'line')} without a value: ${count(kept, 'value')} kept, ${count(duplicates, 'value')} there before`,
    ...(apart > 0
      ? [`${count(apart, 'value')} of probes that no site description knows kept apart, until it does`]
      : []),
    ...refusedLines(refused, reasons),
    ...(refused > 0 ? [`refused lines with their reasons: ${refusedFile}`] : []),
  ];
}

export const judgedLater = (beds: readonly string[]): string[] =>
  beds.length === 0 ? [] : [`to be judged again by "sandlarder serve": ${beds.join(', ')}`];
