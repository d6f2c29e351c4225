/** The list of a bed to be filled, in lines. */
import type { ReadinessAnswer, ReadinessRecordAnswer } from '../../http/index.js';

type Item = ReadinessAnswer['items'][number];

const MARK: Readonly<Record<Item['state'], string>> = { met: 'ok', 'not met': 'NOT', unknown: '?' };

/** What is open is said whole; what is met in a line. */
function itemLines({ id, state, question, measure, limit, reason, source, answeredBy }: Item): string[] {
  const head = `  ${MARK[state].padEnd(3)} ${id}: ${measure} (wanted: ${limit}) [${answeredBy}]`;
  if (state === 'met') return [head];
  return [head, `        ${question} Why: ${reason}.`, `        ${source}`];
}

const answersOf = ({ items }: { readonly items: readonly Item[] }): string[] => items.flatMap(itemLines);

export function listInLines(list: ReadinessAnswer): string[] {
  const { bed, sentence, record, cautions } = list;
  return [
    `${bed}: ${sentence}`,
    ...answersOf(list),
    ...(record
      ? [`Last answered by hand: ${record.by}, ${record.at} (${record.id})`, ...overrideLines(record)]
      : []),
    'Mind:',
    ...cautions.map((caution) => `  ${caution}`),
  ];
}

const overrideLines = ({ overrides }: ReadinessRecordAnswer): string[] =>
  overrides.map(({ by, at, reason }) => `  ${by} has it filled all the same, ${at}: ${reason}`);

export function recordInLines(record: ReadinessRecordAnswer): string[] {
  return [
    `${record.bed}: ${record.sentence}`,
    ...answersOf(record),
    `Kept: ${record.id}, by ${record.by}, ${record.at}`,
  ];
}
