// States and transitions: IEC 62682 / ANSI/ISA-18.2-2016, letters from memory [M]; the set of states was seen in a
// stored page [V].
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  LIFE_EVENTS,
  LIVE_STATES,
  type LifeEvent,
  type LiveState,
  nextState,
  stateOf,
  TRANSITIONS,
} from '../../../services/core/alarms/life-cycle.js';
import { type Acknowledgement, ALARM_STATES } from '../../../services/core/model/alarm.js';

const LETTER: Record<string, LiveState> = {
  A: 'normal',
  B: 'unacknowledged',
  C: 'acknowledged',
  D: 'returned-unacknowledged',
};

test.each([
  ['A', 'raise', 'B'],
  ['B', 'acknowledge', 'C'],
  ['B', 'clear', 'D'],
  ['C', 'clear', 'A'],
  ['D', 'acknowledge', 'A'],
  ['D', 're-raise', 'B'],
] as const)('%s goes by %s to %s, as the standard has it', (from, event, to) => {
  expect(nextState(LETTER[from] ?? 'normal', event)).toBe(LETTER[to]);
});

test('the table has a state of its own for every state and event', () => {
  expect(Object.keys(TRANSITIONS).sort()).toEqual([...LIVE_STATES].sort());
  for (const state of LIVE_STATES)
    for (const event of LIFE_EVENTS) expect(LIVE_STATES).toContain(nextState(state, event));
});

test('every state of the contract but shelved is a live state', () => {
  expect([...LIVE_STATES, 'shelved'].sort()).toEqual([...ALARM_STATES].sort());
});

test('an event told twice changes nothing more', () => {
  for (const state of LIVE_STATES)
    for (const event of LIFE_EVENTS)
      expect(nextState(nextState(state, event), event)).toBe(nextState(state, event));
});

describe('the state that is kept', () => {
  const seen: Acknowledgement = Object.freeze({ by: 'keeper-1', note: '', at: 2 });
  interface Kept {
    clearedAt: number | null;
    acknowledgement: Acknowledgement | null;
  }

  /** What is written down at an event; an occurrence that comes back begins without an acknowledgement. */
  function keep(kept: Kept, event: LifeEvent): Kept {
    const lasts = kept.clearedAt === null;
    if (event === 'acknowledge') return { ...kept, acknowledgement: kept.acknowledgement ?? seen };
    if (event === 'clear') return { ...kept, clearedAt: kept.clearedAt ?? 3 };
    return lasts ? kept : { clearedAt: null, acknowledgement: null };
  }

  test('it is what the table leads to, after any events from the raising on', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...LIFE_EVENTS), { maxLength: 12 }), (events) => {
        let kept: Kept = { clearedAt: null, acknowledgement: null };
        let state: LiveState = nextState('normal', 'raise');
        for (const event of events) {
          kept = keep(kept, event);
          state = nextState(state, event);
          expect(stateOf(kept.clearedAt, kept.acknowledgement)).toBe(state);
        }
      }),
      { seed: 62682, numRuns: 500 },
    );
  });

  test.each([
    [null, null, 'unacknowledged'],
    [null, seen, 'acknowledged'],
    [0, null, 'returned-unacknowledged'],
    [0, seen, 'normal'],
  ] as const)('cleared at %s, acknowledged by %o: %s', (clearedAt, acknowledgement, state) => {
    expect(stateOf(clearedAt, acknowledgement)).toBe(state);
  });
});
