/** What alarms are called. */
import type { Alarm } from '../api/types/alarm.js';
import type { Stands } from '../parts/standing.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';

export const ALARM_STATES = [
  'unacknowledged',
  'acknowledged',
  'shelved',
  'returned-unacknowledged',
  'normal',
] as const;

export const isOpen = ({ clearedAt }: Pick<Alarm, 'clearedAt'>): boolean => clearedAt === null;

/** The shape that stands for what is asked; an alarm that is over asks for nothing. */
export const shapeOf = ({ action, clearedAt }: Pick<Alarm, 'action' | 'clearedAt'>): Stands =>
  clearedAt !== null || action === 'none' ? 'sound' : action;

export const alarmAddress = (id: string): string => `/alarms/${encodeURIComponent(id)}`;

export const stateInWords = ({ state }: Pick<Alarm, 'state'>): string => say(`alarm.${state}`);

const ACTIONS = ['none', 'service', 'check', 'unpack'] as const;

/** The graver alarm that took an alarm's place at the moment it ended, where there is one among these. */
export const graverAfter = (one: Alarm, among: readonly Alarm[]): Alarm | undefined =>
  one.clearedAt === null
    ? undefined
    : among.find(
        (other) =>
          other.bed === one.bed &&
          other.kind === one.kind &&
          other.raisedAt === one.clearedAt &&
          ACTIONS.indexOf(other.action) > ACTIONS.indexOf(one.action),
      );

/** Since when, or by when it was over. */
export function timeInWords({ raisedAt, clearedAt }: Pick<Alarm, 'raisedAt' | 'clearedAt'>): string {
  return clearedAt === null
    ? say('alarm.since', { when: dayAndTime(raisedAt) })
    : say('alarm.cleared', { when: dayAndTime(clearedAt) });
}
