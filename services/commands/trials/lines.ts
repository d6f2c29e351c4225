/** A trial in lines. */
import { HOW_ASSIGNED } from '../../core/trials/assign.js';
import type { ComparisonWords } from '../../core/trials/index.js';
import type { TrialAnswer, TrialResultAnswer } from '../../http/index.js';

const day = (time: string): string => time.slice(0, 10);

export const trialLine = ({ trial, name, treatments, beds, from, to, assigned }: TrialAnswer): string =>
  `${trial}: ${name}; ${treatments.join(', ')}; ${beds.length} beds, from ${day(from)}${to === null ? '' : ` to ${day(to)}`}${assigned === null ? '; treatments not drawn yet' : ''}`;

export function bedLines(trial: TrialAnswer): string[] {
  const { beds, outcome, version } = trial;
  return [
    trialLine(trial),
    `  design ${trial.design}; outcome ${outcome.kind} at day ${outcome.day}; version ${version}`,
    ...trial.treatments.flatMap((treatment) => {
      const text = trial.described[treatment];
      return text === undefined ? [] : [`  ${treatment}: ${text}`];
    }),
    `  ${assignedText(trial)}`,
    ...beds.map(
      ({ bed, block, treatment }) =>
        `  ${bed}${block === null ? '' : `, block ${block}`}: ${treatment ?? 'no treatment yet'}`,
    ),
  ];
}

function assignedText({ assigned, drawn }: TrialAnswer): string {
  if (assigned === null && drawn !== null)
    return `treatments were drawn with seed ${drawn.seed} by ${drawn.by}, ${drawn.at}, and are not in force yet: sandlarder trial assign`;
  if (assigned === null) return 'treatments are not drawn yet: sandlarder trial assign';
  if (assigned.how === 'hand')
    return 'treatments were given by hand: chance did not choose, whatever did may show as a difference';
  return `treatments were drawn with seed ${assigned.seed} by ${assigned.by}, ${assigned.at}: ${HOW_ASSIGNED}`;
}

export function resultLines({ rows, words, survivalWords, missing }: TrialResultAnswer): string[] {
  const valued = rows.filter(({ value }) => value !== null).length;
  return [
    `${valued} of ${rows.length} beds have a value`,
    ...rows.flatMap((row) => (row.missing === null ? [] : [`  ${row.bed}: ${row.missing}`])),
    ...[words, survivalWords].flatMap((each) => (each ? wordLines(each) : [])),
    ...missing.map((line) => `Not compared: ${line}`),
  ];
}

export const wordLines = (words: ComparisonWords, differences = 'Differences'): string[] => [
  ...['', 'Treatments', ...words.treatments.map(inset)],
  ...['', differences, ...words.differences.map(inset)],
  ...(words.effects.length === 0 ? [] : [inset(`Share of the variance: ${words.effects.join(', ')}`)]),
  ...['', 'How surely', ...words.tests.map(inset)],
  ...['', 'What it rests on', ...words.assumptions.map(inset)],
  ...['', 'What it means', ...words.meaning.map(inset)],
];

const inset = (line: string): string => `  ${line}`;
