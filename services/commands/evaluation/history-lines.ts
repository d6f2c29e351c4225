/** A site's own alarms against its inspections, as lines for people: at most a hundred characters wide. */

import type { Label, Unwarned } from '../../core/alarms/labels.js';
import { formatTime } from '../../core/model/time.js';
import { historyTotals, type KindTotal } from './history-totals.js';

const NAME_width = 26;
const WIDTH = 11;

const line = (name: string, cells: readonly (string | number)[]): string =>
  `${name.padEnd(NAME_width)}${cells.map((cell) => String(cell).padStart(WIDTH)).join('')}`;

const HEADING = line('alarm', ['alarms', 'right', 'wrong', 'other', 'nobody', 'seen to']);

const row = ({ kind, action, alarms, acknowledged, verdicts }: KindTotal): string => {
  const { right, wrong, other, unseen, untold } = verdicts;
  const judged = untold > 0 ? ['-', '-', '-', '-'] : [right, wrong, other, unseen];
  return line(`${kind}, ${action}`, [alarms, ...judged, acknowledged]);
};

const LEGEND = [
  'An inspection within 7 days after an alarm says whether it was right: right: what it warned of was',
  'found; wrong: nothing; other: something else; nobody: no such inspection; seen to: acknowledged.',
];

/** @param inspections how many there were */
export function historyLines(
  labels: readonly Label[],
  unwarned: readonly Unwarned[],
  inspections: number,
): string[] {
  const { alarms, verdicts, rightShare, kinds } = historyTotals(labels, unwarned);
  const looked = verdicts.right + verdicts.wrong + verdicts.other;
  const share =
    rightShare === null
      ? 'No alarm was followed by an inspection.'
      : `Right: ${verdicts.right} of the ${looked} alarms that somebody looked into (${Math.round(rightShare * 100)} %).`;
  return [
    `${alarms} alarms, ${inspections} inspections.`,
    ...(alarms > 0
      ? [...LEGEND, '', HEADING, ...kinds.map(row), '', share]
      : ['No alarm, nothing to hold against inspections.']),
    ...(verdicts.unseen > 0 ? [`Nobody looked within 7 days: ${verdicts.unseen}.`] : []),
    ...(unwarned.length > 0
      ? [
          'Found without an alarm:',
          ...unwarned.map(({ bed, at, found }) => `  ${formatTime(at)}  ${bed}: ${found}`),
        ]
      : [`Found without an alarm: nothing.`]),
  ];
}
