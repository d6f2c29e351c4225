/** A condition over time: raised once it has lasted, cleared once it has been gone. */
import { describe, expect, test } from 'vitest';
import { AT_REST, type Hold, nextHold } from '../../../../services/core/watch/dampness/hold.js';

const RULE = { hold_h: 4, clear_h: 3, dip_h: 1 };
const ABOVE = { above: true, gone: false };
const BETWEEN = { above: false, gone: false };
const GONE = { above: false, gone: true };

type Hour = typeof ABOVE | undefined;
const afterHours = (hours: readonly Hour[]): Hold =>
  hours.reduce((state: Hold, against, hour) => nextHold(state, against, RULE, hour + 1), AT_REST);

describe('a condition that must hold', () => {
  test('stands from the end of the hour in which it has held long enough', () => {
    expect(afterHours([ABOVE, ABOVE, ABOVE]).since).toBeNull();
    expect(afterHours([ABOVE, ABOVE, ABOVE, ABOVE]).since).toBe(4);
    expect(afterHours([ABOVE, ABOVE, ABOVE, ABOVE, ABOVE, ABOVE]).since).toBe(4);
  });

  test('a dip no longer than allowed does not break it off, a longer one does', () => {
    expect(afterHours([ABOVE, ABOVE, GONE, ABOVE, ABOVE]).since).toBe(5);
    expect(afterHours([ABOVE, ABOVE, GONE, GONE, ABOVE, ABOVE]).since).toBeNull();
  });

  test('a value between raising and clearing keeps it as it is', () => {
    expect(afterHours([ABOVE, ABOVE, ABOVE, ABOVE, ...Array(50).fill(BETWEEN)]).since).toBe(4);
  });

  test('it is over once it has been gone for its time, counted anew after each return', () => {
    const raised = [ABOVE, ABOVE, ABOVE, ABOVE];
    expect(afterHours([...raised, GONE, GONE]).since).toBe(4);
    expect(afterHours([...raised, GONE, GONE, BETWEEN, GONE, GONE]).since).toBe(4);
    expect(afterHours([...raised, GONE, GONE, GONE])).toEqual(AT_REST);
  });

  test('an hour without data changes nothing; after a day of them what was developing begins anew', () => {
    const silent = (hours: number): Hour[] => Array(hours).fill(undefined);
    expect(afterHours([ABOVE, ABOVE, ...silent(24), ABOVE, ABOVE]).since).toBe(28);
    expect(afterHours([ABOVE, ABOVE, ...silent(25), ABOVE, ABOVE]).since).toBeNull();
    expect(afterHours([ABOVE, ABOVE, ABOVE, ABOVE, ...silent(100)]).since).toBe(4);
  });
});
