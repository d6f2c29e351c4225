/** What a site's own alarms came to, by kind and by what they asked for. */

import { type Label, lookTells, type Unwarned } from '../../core/alarms/labels.js';
import { type Action, ALARM_KINDS, type AlarmKind, type Verdict } from '../../core/model/alarm.js';

export interface KindTotal {
  readonly kind: AlarmKind;
  readonly action: Action;
  readonly alarms: number;
  readonly acknowledged: number;
  readonly verdicts: Readonly<Record<Verdict, number>>;
}

export interface HistoryTotals {
  readonly alarms: number;
  readonly acknowledged: number;
  readonly verdicts: Readonly<Record<Verdict, number>>;
  /** Of the alarms that an inspection spoke of; null where it spoke of none. */
  readonly rightShare: number | null;
  readonly unwarned: number;
  readonly kinds: readonly KindTotal[];
}

function verdictsOf(labels: readonly Label[]): Record<Verdict, number> {
  const verdicts = { right: 0, wrong: 0, other: 0, unseen: 0, untold: 0 };
  for (const { alarm, verdict } of labels) verdicts[lookTells(alarm.kind) ? verdict : 'untold'] += 1;
  return verdicts;
}

const acknowledgedOf = (labels: readonly Label[]): number =>
  labels.filter(({ alarm }) => alarm.acknowledgement !== null).length;

function kindsOf(labels: readonly Label[]): KindTotal[] {
  const byKind = new Map<string, Label[]>();
  for (const label of labels) {
    const key = `${ALARM_KINDS.indexOf(label.alarm.kind)} ${label.alarm.action}`;
    byKind.set(key, [...(byKind.get(key) ?? []), label]);
  }
  return [...byKind]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .flatMap(([, own]) => {
      const [first] = own;
      if (!first) return [];
      const { kind, action } = first.alarm;
      return [
        { kind, action, alarms: own.length, acknowledged: acknowledgedOf(own), verdicts: verdictsOf(own) },
      ];
    });
}

export function historyTotals(labels: readonly Label[], unwarned: readonly Unwarned[]): HistoryTotals {
  const verdicts = verdictsOf(labels);
  const looked = verdicts.right + verdicts.wrong + verdicts.other;
  return {
    alarms: labels.length,
    acknowledged: acknowledgedOf(labels),
    verdicts,
    rightShare: looked > 0 ? verdicts.right / looked : null,
    unwarned: unwarned.length,
    kinds: kindsOf(labels),
  };
}
