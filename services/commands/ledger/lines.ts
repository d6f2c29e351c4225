/** What is shown of fillings, looks and stock. */
import type {
  DepthAnswer,
  FilledAnswer,
  InspectedAnswer,
  LookAnswer,
  StockAnswer,
} from '../../http/index.js';
import { timeInShort } from './flags.js';

const leftWords = (left: number | null): string =>
  left === null ? '' : ` ${left} ${left === 1 ? 'root' : 'roots'} left by the ledger.`;

const written = (isNew: boolean): string => (isNew ? 'Written down' : 'Was there already');

export function inspectedLines(answer: InspectedAnswer): string[] {
  const { id, bed, at, found, isNew, advice, cautions, alarms, ended, judged, notes, left } = answer;
  return [
    `${written(isNew)}: ${bed}, ${timeInShort(at)}, ${found.join(', ')} (${id}).${leftWords(left)}`,
    ...alarms.map((alarm) => {
      const isOver = ended.includes(alarm.id) || alarm.clearedAt !== null;
      const verdict = VERDICTS[alarm.foundOut?.verdict ?? 'untold'];
      return `Alarm ${alarm.kind} (${alarm.action}) of ${timeInShort(alarm.raisedAt)}: ${verdict}; ${isOver ? 'it is over' : judged ? 'it lasts' : 'whether it lasts is judged next'}.`;
    }),
    ...advice.map(({ text, source }) => `Do: ${text} (${source})`),
    ...cautions.map((caution) => `Caution: ${caution}`),
    ...notes.map((note) => `Note: ${note}`),
  ];
}

const VERDICTS = {
  right: 'what it warned of was found',
  wrong: 'nothing was found',
  other: 'something else was found',
  unseen: 'nobody looked within a week of it, so that it stays unknown',
  untold: 'opening the bed does not tell',
} as const;

export const lookLines = (looks: readonly LookAnswer[], onlyDue: boolean): string[] =>
  looks
    .filter(({ due }) => due || !onlyDue)
    .map(({ bed, name, due, dueAt, reasons }) => {
      const [first] = reasons;
      if (!first || dueAt === null) return `${bed} (${name}): no look is due: not filled, or empty`;
      return `${bed} (${name}): ${due ? 'due since' : 'due on'} ${timeInShort(dueAt)}: ${first.text}`;
    });

export function filledLines(answer: FilledAnswer): string[] {
  const { id, bed, at, roots, mass_kg, isNew, probes, notes, cautions } = answer;
  const mass = mass_kg === null ? '' : `, ${mass_kg} kg`;
  return [
    `${written(isNew)}: ${bed} filled ${timeInShort(at)} with ${roots} roots${mass} (${id}).`,
    ...probes.map(({ text }) => text),
    ...(probes.length > 0
      ? [`After a day: sandlarder fill ${bed} --check says whether they lie as deep as said.`]
      : []),
    ...notes.map((note) => `Note: ${note}`),
    ...cautions.map((caution) => `Caution: ${caution}`),
  ];
}

export const depthLines = (probes: readonly DepthAnswer[]): string[] =>
  probes.length === 0 ? ['No probe lies in it.'] : probes.map(({ text }) => text);

const massWords = (mass_kg: number | null | undefined): string =>
  mass_kg === null || mass_kg === undefined ? '' : ` (${Number(mass_kg.toFixed(2))} kg)`;

const percent = (share: number): string => `${Number((100 * share).toPrecision(2))} %`;

const between = ({ low, likely, high }: NonNullable<StockAnswer['weeksOfFood']>): string => {
  const said = (value: number | null): string => (value === null ? 'more than a year' : String(value));
  return `${said(likely)} (${said(low)} to ${said(high)})`;
};

export function stockLines(stock: StockAnswer): string[] {
  const { bed, since, left, losses, weeksOfFood, rootsPerMonth, notes, entries } = stock;
  if (left === null)
    return [
      `${bed}: nobody wrote down what went in. "sandlarder fill ${bed}" or "sandlarder stock ${bed} in" does.`,
    ];
  return [
    `${bed}: ${left} ${left === 1 ? 'root' : 'roots'} left${since === null ? '' : `; since ${timeInShort(since)}:`}`,
    ...stock.in.map(({ reason, roots, mass_kg }) => `  in, ${reason}: ${roots}${massWords(mass_kg)}`),
    ...stock.out.map(({ reason, roots, mass_kg }) => `  out, ${reason}: ${roots}${massWords(mass_kg)}`),
    ...losses.map(
      ({ cause, share, low, high }) =>
        `  lost by ${cause}: ${percent(share)} of the roots (${percent(low)} to ${percent(high)}), by what was counted at looks`,
    ),
    ...(weeksOfFood ? [`Weeks of food: ${between(weeksOfFood)}`] : []),
    ...(rootsPerMonth ? [`Roots to sell at the end of each month: ${between(rootsPerMonth)}`] : []),
    ...notes.map((note) => `Note: ${note}`),
    ...entries.map(entryLine),
  ];
}

function entryLine({ id, at, kind, reason, roots, mass_kg, by, of }: StockAnswer['entries'][number]): string {
  const what = kind === 'counter' ? `takes back ${roots} of ${of}: ${reason}` : `${kind} ${roots}, ${reason}`;
  return `  ${timeInShort(at)}  ${what}${massWords(mass_kg)}, ${by}  ${id}`;
}
