import { describe, expect, test } from 'vitest';
import {
  countable,
  counterOfSuperseded,
  entriesOfInspection,
  entryOfFilling,
} from '../../../services/core/keeping/stock-following.js';
import { stockEntrySchema } from '../../../services/core/model/stock.js';
import { formatTime } from '../../../services/core/model/time.js';
import { derivedId } from '../../../services/joining/derived-id.js';
import { counter, dayOf, filled, idOf, out } from './some-stock.js';

const FILLING = Object.freeze({
  ...{ id: idOf(1), bed: 'pit-a', at: dayOf(0), by: 'Wanja', probes: [] },
  courses: [
    { roots: 30, mass_kg: 9 },
    { roots: 20, mass_kg: 6 },
  ],
});

const LOOK = Object.freeze({
  ...{
    id: idOf(2),
    bed: 'pit-a',
    at: dayOf(9),
    by: 'Wanja',
    opened: true,
    repacked: false,
    found: ['rot' as const],
  },
  out: [
    { reason: 'eaten' as const, roots: 4 },
    { reason: 'thrown' as const, roots: 1, were: 'rotten' as const },
  ],
});

describe('entries that follow', () => {
  test('are entries, with ids that are UUIDs and always the same', () => {
    const all = [entryOfFilling(FILLING, derivedId), ...entriesOfInspection(LOOK, derivedId)];
    expect(all).toMatchObject([
      { kind: 'in', reason: 'filled', roots: 50, mass_kg: 15 },
      { kind: 'out', reason: 'eaten', roots: 4 },
      { kind: 'out', reason: 'thrown', roots: 1 },
    ]);
    for (const entry of all)
      expect(stockEntrySchema.parse({ ...entry, at: formatTime(entry.at) })).toEqual(entry);
    expect(new Set(all.map(({ id }) => id)).size).toBe(3);
    expect(entriesOfInspection(LOOK, derivedId)).toEqual(all.slice(1));
  });

  test('count only where it was written down by then what went in', () => {
    const following = entriesOfInspection(LOOK, derivedId);
    expect(countable(following, [])).toEqual([]);
    expect(countable(following, [out(3, 0, 4)])).toEqual([]);
    expect(countable(following, [filled(3, 10, 50)])).toEqual([]);
    expect(countable(following, [filled(3, 9, 50), filled(4, 50, 9)])).toEqual(following);
  });

  test('of a superseded filling are taken back as far as nobody took them back before', () => {
    const of = entryOfFilling(FILLING, derivedId);
    const by = { ...FILLING, id: idOf(5), at: dayOf(-1), by: 'Otieno' };
    const ledger = { bed: 'pit-a', entries: [of] };
    expect(counterOfSuperseded(ledger, FILLING, by, derivedId)).toMatchObject({
      ...{ kind: 'counter', of: of.id, roots: 50, mass_kg: 15, at: dayOf(0), by: 'Otieno' },
    });
    const some = { ...counter(6, 1, 20, 0), of: of.id };
    expect(counterOfSuperseded({ ...ledger, entries: [of, some] }, FILLING, by, derivedId)?.roots).toBe(30);
    const whole = { ...counter(6, 1, 50, 0), of: of.id };
    expect(counterOfSuperseded({ ...ledger, entries: [of, whole] }, FILLING, by, derivedId)).toBeUndefined();
    expect(counterOfSuperseded({ ...ledger, entries: [] }, FILLING, by, derivedId)).toBeUndefined();
  });
});
