/** An alarm as it leaves the service: the outside contract's JSON. */
import type { Action, Alarm, AlarmKind, AlarmState, Evidence, Place, Priority } from '../model/alarm.js';
import { formatTime } from '../model/time.js';

/** Keys in the order of the contract; times as RFC 3339 text in UTC. */
export interface AlarmDocument {
  readonly id: string;
  readonly site: string;
  readonly bed: string;
  readonly kind: AlarmKind;
  readonly priority: Priority;
  readonly state: AlarmState;
  readonly raisedAt: string;
  readonly clearedAt: string | null;
  readonly action: Action;
  readonly evidence: Evidence;
  readonly place: Place | null;
  readonly text: string;
}

/** Writes an alarm as the contract has it: equal alarms give equal JSON text, byte for byte. */
export function alarmDocument(alarm: Alarm): AlarmDocument {
  const { id, site, bed, kind, priority, state, raisedAt, clearedAt, action, evidence, place, text } = alarm;
  return {
    id,
    site,
    bed,
    kind,
    priority,
    state,
    raisedAt: formatTime(raisedAt),
    clearedAt: clearedAt === null ? null : formatTime(clearedAt),
    action,
    evidence,
    place: place && { x: place.x, y: place.y, depth: place.depth, radius: place.radius },
    text,
  };
}
