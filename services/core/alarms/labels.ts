/** What inspections say of alarms: an inspection soon after an alarm says whether it was right. */
import type { Alarm, AlarmKind, FoundOut } from '../model/alarm.js';
import type { Finding, Inspection } from '../model/inspection.js';
import { DAY_ms } from '../model/time.js';

/** An inspection speaks of the alarms of so many days before. Judgement. */
export const SPEAKS_OF_ms = 7 * DAY_ms;

/** What an inspection finds where an alarm of a kind is right; null where opening the bed does not tell. */
const EXPECTED: Readonly<Record<AlarmKind, Finding | null>> = {
  heating: 'rot',
  damp: 'damp',
  wetting: 'damp',
  condensation: 'damp',
  sprouting: 'sprouts',
  weevil: 'weevils',
  'probe-fault': null,
  'probe-silent': null,
  'inspection-due': null,
};

export type JudgedAlarm = Pick<
  Alarm,
  'id' | 'bed' | 'kind' | 'action' | 'raisedAt' | 'clearedAt' | 'acknowledgement'
>;

/** Whether opening the bed tells that an alarm of the kind was right. */
export const lookTells = (kind: AlarmKind): boolean => EXPECTED[kind] !== null;

export interface Label extends FoundOut {
  readonly alarm: JudgedAlarm;
}

/** Something was found that no alarm had warned of. */
export interface Unwarned {
  readonly bed: string;
  readonly at: number;
  readonly found: Finding;
}

/** A bed that was not opened shows nothing; what is found all the same, as damp or a smell, does count. */
const tells = ({ opened, found }: Inspection): boolean => opened || !found.includes('nothing');

export function labelOf(alarm: JudgedAlarm, inspections: readonly Inspection[]): Label {
  const looks = inspections.filter(
    (one) =>
      one.bed === alarm.bed &&
      tells(one) &&
      one.at >= alarm.raisedAt &&
      one.at <= alarm.raisedAt + SPEAKS_OF_ms,
  );
  const [first] = looks;
  if (!first) return { alarm, verdict: 'unseen', lookedAt: null };
  const expected = EXPECTED[alarm.kind];
  if (expected === null) return { alarm, verdict: 'untold', lookedAt: first.at };
  const look = looks.find(({ found }) => found.includes(expected)) ?? first;
  const verdict = look.found.includes(expected)
    ? 'right'
    : look.found.includes('nothing')
      ? 'wrong'
      : 'other';
  return { alarm, verdict, lookedAt: look.at };
}

/** Whether an alarm that warns of such a thing was open then, or had been raised within the week before. */
const warned = (alarm: JudgedAlarm, { bed, at }: Inspection, found: Finding): boolean =>
  alarm.bed === bed &&
  EXPECTED[alarm.kind] === found &&
  alarm.raisedAt <= at &&
  (alarm.raisedAt >= at - SPEAKS_OF_ms || (alarm.clearedAt ?? Number.POSITIVE_INFINITY) >= at);

export const unwarnedOf = (inspections: readonly Inspection[], alarms: readonly JudgedAlarm[]): Unwarned[] =>
  inspections.flatMap((inspection) =>
    inspection.found
      .filter((found) => found !== 'nothing' && !alarms.some((alarm) => warned(alarm, inspection, found)))
      .map((found) => ({ bed: inspection.bed, at: inspection.at, found })),
  );
