/** Which of several alarms comes first. */
import { ACTIONS, type Alarm, PRIORITIES } from '../model/alarm.js';

type Ranked = Pick<Alarm, 'id' | 'action' | 'priority' | 'raisedAt' | 'clearedAt'>;

/** Whether the condition lasts, acknowledged or not. */
export function isOpen(alarm: Pick<Alarm, 'clearedAt'>): boolean {
  return alarm.clearedAt === null;
}

/**
 * Orders the most urgent first: by what there is to do (in the order of `ACTIONS`), by priority, the newest
 * before the older, and by id, so that the order never depends on how the alarms came.
 */
export function byUrgency(one: Ranked, other: Ranked): number {
  return (
    ACTIONS.indexOf(one.action) - ACTIONS.indexOf(other.action) ||
    PRIORITIES.indexOf(one.priority) - PRIORITIES.indexOf(other.priority) ||
    other.raisedAt - one.raisedAt ||
    (one.id < other.id ? -1 : Number(one.id > other.id))
  );
}

/** The most urgent open alarm; undefined where none is open. */
export function mostUrgent<A extends Ranked>(alarms: readonly A[]): A | undefined {
  return alarms.filter(isOpen).sort(byUrgency)[0];
}
