/**
 * The life cycle of an alarm: IEC 62682 (the same states as ANSI/ISA-18.2), without latching and suppression.
 *
 * Letters of the standard's states: A normal, B unacknowledged, C acknowledged, D returned to normal and
 * unacknowledged. G (shelved) lies over B and C for a time: under it the others go on.
 */
import type { Acknowledgement, AlarmState, Shelving } from '../model/alarm.js';

/**
 * - `raise`: the condition is established
 * - `acknowledge`: somebody says that they have seen it
 * - `clear`: the condition has returned to normal
 * - `re-raise`: it is established again after it had returned to normal
 */
export const LIFE_EVENTS = ['raise', 'acknowledge', 'clear', 're-raise'] as const;
export type LifeEvent = (typeof LIFE_EVENTS)[number];

/** The states that the events lead to. */
export type LiveState = Exclude<AlarmState, 'shelved'>;
export const LIVE_STATES = ['normal', 'unacknowledged', 'acknowledged', 'returned-unacknowledged'] as const;

/** An event that says nothing new leaves the state as it is: the same event may be told twice. */
export const TRANSITIONS: Readonly<Record<LiveState, Readonly<Record<LifeEvent, LiveState>>>> = {
  // A
  normal: {
    raise: 'unacknowledged', // A to B
    acknowledge: 'normal',
    clear: 'normal',
    're-raise': 'unacknowledged', // A to B: an acknowledgement holds for one occurrence only
  },
  // B
  unacknowledged: {
    raise: 'unacknowledged',
    acknowledge: 'acknowledged', // B to C
    clear: 'returned-unacknowledged', // B to D
    're-raise': 'unacknowledged',
  },
  // C
  acknowledged: {
    raise: 'acknowledged',
    acknowledge: 'acknowledged',
    clear: 'normal', // C to A
    're-raise': 'acknowledged',
  },
  // D
  'returned-unacknowledged': {
    raise: 'unacknowledged', // D to B
    acknowledge: 'normal', // D to A
    clear: 'returned-unacknowledged',
    're-raise': 'unacknowledged', // D to B
  },
};

/** The state after an event. */
export function nextState(state: LiveState, event: LifeEvent): LiveState {
  return TRANSITIONS[state][event];
}

/**
 * The state of an alarm from what is kept of it.
 *
 * @param clearedAt event time at which the condition had returned to normal, ms; null while it lasts
 * @param acknowledgement of this occurrence; null where nobody acknowledged it
 */
export function stateOf(clearedAt: number | null, acknowledgement: Acknowledgement | null): LiveState {
  if (clearedAt === null) return acknowledgement === null ? 'unacknowledged' : 'acknowledged';
  return acknowledgement === null ? 'returned-unacknowledged' : 'normal';
}

/**
 * The state as people see it: shelved while that lasts and the condition does.
 *
 * @param now wall clock, ms
 */
export function shownState(
  clearedAt: number | null,
  acknowledgement: Acknowledgement | null,
  shelving: Shelving | null,
  now: number,
): AlarmState {
  const shelved = clearedAt === null && shelving !== null && now < shelving.until;
  return shelved ? 'shelved' : stateOf(clearedAt, acknowledgement);
}
