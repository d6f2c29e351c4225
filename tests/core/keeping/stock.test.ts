import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  emptyLedger,
  type Ledger,
  movementsOf,
  rootsAt,
  withEntries,
} from '../../../services/core/keeping/stock.js';
import { isSameRecord, mergedById } from '../../../services/core/keeping/stock-merge.js';
import { rootMass_kg, stockTotals } from '../../../services/core/keeping/stock-totals.js';
import { type StockEntry, stockEntrySchema } from '../../../services/core/model/stock.js';
import { counter, dayOf, FILLED, filled, idOf, out } from './some-stock.js';

const SEED = 20260504;
const ledgerOf = (...entries: StockEntry[]): Ledger =>
  withEntries(emptyLedger('pit-a'), Object.freeze(entries));
const refusal = (code: string, message: RegExp) =>
  expect.objectContaining({ code, message: expect.stringMatching(message) });

describe('an entry', () => {
  const entry = {
    id: idOf(1),
    bed: 'pit-a',
    at: '2026-05-04T08:00:00Z',
    kind: 'out',
    reason: 'sold',
    roots: 10,
    by: 'Wanja',
  };

  test('is read, its time as ms', () => {
    expect(stockEntrySchema.parse(entry)).toEqual({ ...entry, at: FILLED });
  });

  test.each<[string, object]>([
    ['no roots', { roots: 0 }],
    ['fewer than none', { roots: -1 }],
    ['half a root', { roots: 0.5 }],
    ['no number', { roots: Number.NaN }],
    ['no mass', { mass_kg: 0 }],
    ['a time without offset', { at: '2026-05-04T08:00:00' }],
    ['nobody', { by: ' ' }],
    ['a reason of the other kind', { reason: 'filled' }],
    ['a kind that is none', { kind: 'moved' }],
    ['a counter-entry of nothing', { kind: 'counter', reason: 'miscounted' }],
    ['an entry that says "of"', { of: idOf(2) }],
    ['an id that is none', { id: '1' }],
  ])('%s is refused', (_, change) => {
    expect(stockEntrySchema.safeParse({ ...entry, ...change }).success).toBe(false);
  });
});

describe('the ledger', () => {
  const ledger = ledgerOf(out(3, 20, 40, 'sold'), filled(1, 0, 400, 110), out(2, 10, 12));

  test('is in order of time whatever the order in which entries came', () => {
    expect(ledger.entries.map(({ at }) => at)).toEqual([dayOf(0), dayOf(10), dayOf(20)]);
    expect(ledgerOf(filled(2, 0, 5), filled(1, 0, 5)).entries.map(({ id }) => id)).toEqual([
      idOf(1),
      idOf(2),
    ]);
  });

  test('roots at a time, with what happened at that time', () => {
    expect([-1, 0, 9.99, 10, 20, 300].map((day) => rootsAt(ledger, dayOf(day)))).toEqual([
      ...[0, 400, 400, 388, 348, 348],
    ]);
    for (const time of [Number.NaN, Number.POSITIVE_INFINITY, 0])
      expect(() => rootsAt(ledger, time)).toThrow(refusal('OUT_OF_DOMAIN', /time, ms/));
  });

  test('the same entry again changes nothing, not even the ledger', () => {
    expect(withEntries(ledger, [out(2, 10, 12)])).toBe(ledger);
    expect(withEntries(ledger, [out(2, 10, 12), out(4, 30, 1), out(4, 30, 1)]).entries).toHaveLength(4);
  });

  test('the same id with other content is refused, also within one batch', () => {
    const message = new RegExp(
      `^stock entry ${idOf(2)}: expected the content that is there already, got another`,
    );
    expect(() => withEntries(ledger, [out(2, 10, 13)])).toThrow(refusal('CONFLICT', message));
    expect(() => withEntries(ledger, [out(2, 10, 12, 'eaten', 3)])).toThrow(refusal('CONFLICT', message));
    expect(() => ledgerOf(filled(2, 0, 5), filled(2, 0, 6))).toThrow(refusal('CONFLICT', message));
  });

  test('a late entry that would leave fewer than none at a later time is refused with the date', () => {
    const full = withEntries(ledger, [out(5, 30, 348, 'eaten')]);
    expect(() => withEntries(full, [out(6, 5, 1)])).toThrow(
      refusal(
        'CONFLICT',
        /^stock of bed pit-a: expected no more to come out than the 347 roots that were there on 2026-06-03T08:00:00Z, got 348$/,
      ),
    );
    expect(() => withEntries(ledger, [out(6, -1, 1)])).toThrow(
      refusal(
        'CONFLICT',
        /^stock of bed pit-a: expected a time from 2026-05-04T08:00:00Z on, when the first roots were put in, got 2026-05-03T08:00:00Z$/,
      ),
    );
  });

  test('all of a batch or none of it', () => {
    expect(() => withEntries(ledger, [out(7, 21, 8), out(8, 22, 999)])).toThrow(refusal('CONFLICT', /stock/));
    expect(ledger.entries).toHaveLength(3);
  });

  test('what happened at one instant has no order', () => {
    expect(rootsAt(ledgerOf(out(1, 0, 5), filled(2, 0, 5)), dayOf(0))).toBe(0);
  });

  test('an entry of another bed is refused', () => {
    expect(() => withEntries(ledger, [{ ...out(9, 1, 1), bed: 'pit-b' }])).toThrow(
      refusal('BAD_REQUEST', /expected bed pit-a, got pit-b/),
    );
  });
});

describe('counter-entries', () => {
  const ledger = ledgerOf(filled(1, 0, 400, 110), out(2, 10, 40, 'sold', 11));

  test('take back at the time of what they correct', () => {
    const corrected = withEntries(ledger, [counter(3, 12, 10, 2)]);
    expect([9, 10, 12].map((day) => rootsAt(corrected, dayOf(day)))).toEqual([400, 370, 370]);
    expect(corrected.entries).toHaveLength(3);
  });

  test('may take back an entry in whole, which is then no movement', () => {
    expect(movementsOf(withEntries(ledger, [counter(3, 12, 40, 2)])).map(({ id }) => id)).toEqual([idOf(1)]);
  });

  test('come with the entry in one batch, and before it in the list', () => {
    expect(rootsAt(ledgerOf(counter(3, 12, 10, 2), out(2, 10, 40), filled(1, 0, 400)), dayOf(12))).toBe(370);
  });

  test.each<[string, readonly StockEntry[], string, RegExp]>([
    ['more than the entry', [counter(3, 12, 41, 2)], 'CONFLICT', /at most the 40 roots .* got 41/],
    [
      'more together',
      [counter(3, 12, 30, 2), counter(4, 13, 11, 2)],
      'CONFLICT',
      /at most the 40 roots .* got 41/,
    ],
    ['an entry that is not there', [counter(3, 12, 1, 99)], 'NOT_FOUND', /expected "of" to name an entry/],
    [
      'before the entry',
      [counter(3, 9, 1, 2)],
      'CONFLICT',
      /not before that of its entry, 2026-05-14T08:00:00Z/,
    ],
    ['a counter-entry', [counter(3, 12, 5, 2), counter(4, 13, 5, 3)], 'CONFLICT', /got a counter-entry/],
    ['itself', [counter(3, 12, 5, 3)], 'CONFLICT', /got a counter-entry/],
    [
      'so much of the filling that sales are too many',
      [counter(3, 12, 361, 1)],
      'CONFLICT',
      /the 39 roots .*05-14.* got 40/,
    ],
  ])('of %s are refused', (_, entries, code, message) => {
    expect(() => withEntries(ledger, entries)).toThrow(refusal(code, message));
  });
});

describe('totals', () => {
  const ledger = ledgerOf(
    filled(1, 0, 400, 110),
    out(2, 10, 40, 'sold', 11),
    out(3, 20, 20, 'sold', 5),
    out(4, 21, 12, 'eaten'),
    out(5, 22, 3, 'thrown', 1),
    counter(6, 23, 4, 3, 1),
  );

  test('by reason, less what was taken back; a mass only where all was weighed', () => {
    expect(stockTotals(ledger)).toEqual({
      in: [{ reason: 'filled', roots: 400, mass_kg: 110 }],
      out: [
        { reason: 'eaten', roots: 12, mass_kg: null },
        { reason: 'sold', roots: 56, mass_kg: 15 },
        { reason: 'thrown', roots: 3, mass_kg: 1 },
      ],
    });
  });

  test('of a span, its end excluded', () => {
    expect(stockTotals(ledger, { from: dayOf(10), to: dayOf(20) })).toEqual({
      in: [],
      out: [{ reason: 'sold', roots: 40, mass_kg: 11 }],
    });
  });

  test('mass of a root from what was weighed on filling', () => {
    expect(rootMass_kg(ledger)).toBeCloseTo(110 / 400, 12);
    expect(rootMass_kg(ledgerOf(filled(1, 0, 400, 110), filled(2, 1, 100)))).toBeCloseTo(110 / 400, 12);
    expect(rootMass_kg(ledgerOf(filled(1, 0, 400)))).toBeUndefined();
    expect(rootMass_kg(emptyLedger('pit-a'))).toBeUndefined();
  });
});

describe('whatever the order', () => {
  const entries = [
    filled(1, 0, 100),
    out(2, 3, 30),
    out(3, 5, 20, 'sold'),
    filled(4, 5, 10),
    counter(5, 9, 5, 2),
    out(6, 9, 65, 'eaten'),
  ];

  test('one ledger comes of it, in one batch or in two', () => {
    const expected = ledgerOf(...entries);
    fc.assert(
      fc.property(
        fc.shuffledSubarray(entries, { minLength: entries.length }),
        fc.array(fc.constantFrom(...entries), { maxLength: 4 }),
        (shuffled, again) => {
          expect(ledgerOf(...shuffled, ...again)).toEqual(expected);
          expect(withEntries(ledgerOf(...entries.slice(0, 4)), [...shuffled, ...again])).toEqual(expected);
        },
      ),
      { seed: SEED, numRuns: 50 },
    );
  });
});

describe('merging by id', () => {
  const one = { id: 'a', x: 1, inner: { b: 2, c: [1, 2] } };

  test('the order of keys does not count, that of a list does; undefined is absent', () => {
    expect(isSameRecord(one, { inner: { c: [1, 2], b: 2 }, x: 1, id: 'a' } as never)).toBe(true);
    expect(isSameRecord(one, { ...one, inner: { b: 2, c: [2, 1] } } as never)).toBe(false);
    expect(isSameRecord(one, { ...one, y: undefined } as never)).toBe(true);
    expect(isSameRecord(one, { ...one, y: null } as never)).toBe(false);
  });

  test('tells what is new and how many were not', () => {
    const two = { ...one, id: 'b' };
    expect(mergedById([one], [two, one, two], 'record')).toEqual({
      records: [one, two],
      added: [two],
      doubled: 2,
    });
    expect(() => mergedById([one], [{ ...one, x: 2 }], 'record')).toThrow(refusal('CONFLICT', /^record a: /));
  });
});
