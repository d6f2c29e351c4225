import { describe, expect, test } from 'vitest';
import { type LookedAfter, lookDue } from '../../../services/core/keeping/looks-due.js';
import { dayOf, FILLED } from './some-stock.js';

const alarm = (change: object = {}) => ({
  ...{ id: 'a1', kind: 'damp' as const, action: 'check' as const, raisedAt: dayOf(3), text: 'damp sand' },
  evidence: {},
  ...change,
});

const bed = (change: Partial<LookedAfter> = {}): LookedAfter => ({
  ...{
    filledAt: FILLED,
    lookedAt: null,
    empty: false,
    rotSince: null,
    inspectEvery_days: 14,
    nextLook: null,
    openAlarms: [],
  },
  ...change,
});

describe('a look', () => {
  test('falls due by rule so many days after the filling, or the last opening', () => {
    expect(lookDue(bed(), dayOf(14) - 1)).toMatchObject({ due: false, dueAt: dayOf(14) });
    expect(lookDue(bed(), dayOf(14))).toMatchObject({ due: true, reasons: [{ by: 'rule', alarm: null }] });
    expect(lookDue(bed({ lookedAt: dayOf(5) }), dayOf(14))).toMatchObject({ due: false, dueAt: dayOf(19) });
    expect(lookDue(bed({ inspectEvery_days: 7 }), dayOf(7)).reasons[0]?.text).toBe(
      '7 days after it was filled',
    );
  });

  test('falls due sooner in a warm bed, with the alarm that says so', () => {
    const nextLook = { dueAt: dayOf(9), because: 'warmth' as const };
    expect(lookDue(bed({ nextLook }), dayOf(8))).toMatchObject({
      due: false,
      dueAt: dayOf(9),
      reasons: [{ by: 'warmth' }, { by: 'rule' }],
    });
    const due = alarm({ id: 'd1', kind: 'inspection-due', evidence: { because: 'warmth' } });
    expect(lookDue(bed({ nextLook, openAlarms: [due] }), dayOf(10)).reasons).toMatchObject([
      { by: 'warmth', alarm: 'd1' },
      { by: 'rule' },
    ]);
    const twoWeeks = { dueAt: dayOf(14), because: 'two-weeks' as const };
    expect(lookDue(bed({ nextLook: twoWeeks }), dayOf(14)).reasons).toHaveLength(1);
  });

  test('is asked for by an open alarm until it is had; to unpack until that is over', () => {
    const check = alarm();
    const unpack = alarm({ id: 'u1', action: 'unpack', raisedAt: dayOf(4) });
    const looked = { lookedAt: dayOf(5), openAlarms: [check, unpack] };
    expect(lookDue(bed({ openAlarms: [check, unpack] }), dayOf(5)).reasons.map(({ by }) => by)).toEqual([
      'alarm',
      'unpack',
      'rule',
    ]);
    expect(lookDue(bed(looked), dayOf(6))).toMatchObject({
      due: true,
      dueAt: dayOf(4),
      reasons: [{ by: 'unpack', alarm: 'u1' }, {}],
    });
    const service = alarm({ action: 'service', kind: 'probe-silent' });
    expect(lookDue(bed({ openAlarms: [service] }), dayOf(5)).due).toBe(false);
    const asked = alarm({ kind: 'inspection-due', evidence: { because: 'asked' } });
    expect(lookDue(bed({ openAlarms: [asked] }), dayOf(5)).reasons[0]?.by).toBe('alarm');
  });

  test('of an empty bed, or one that was never filled, is due by no rule', () => {
    expect(lookDue(bed({ empty: true }), dayOf(99))).toEqual({ due: false, dueAt: null, reasons: [] });
    expect(lookDue(bed({ filledAt: null }), dayOf(99))).toEqual({ due: false, dueAt: null, reasons: [] });
    expect(lookDue(bed({ empty: true, openAlarms: [alarm({ action: 'unpack' })] }), dayOf(99)).due).toBe(
      true,
    );
  });
});
