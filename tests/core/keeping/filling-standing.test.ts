import { describe, expect, test } from 'vitest';
import {
  fillingsInForce,
  latestFilling,
  withFillings,
} from '../../../services/core/keeping/filling-standing.js';
import type { Filling } from '../../../services/core/model/filling.js';
import type { Placement } from '../../../services/core/model/site.js';
import { HOUR_ms } from '../../../services/core/model/time.js';
import { dayOf, FILLED, idOf } from './some-stock.js';

const filling = (number: number, day: number, change: Partial<Filling> = {}): Filling =>
  Object.freeze({
    ...{ id: idOf(number), bed: 'pit-a', at: dayOf(day), by: 'Wanja', courses: [{ roots: 10 * number }] },
    probes: [{ probe: 'p01', x: 7, y: 5, depth: 30 }],
    ...change,
  });

const bed = (filled?: number) =>
  Object.freeze({
    ...{ id: 'pit-a', name: 'A', kind: 'box' as const, steps: [{ length: 90, width: 90, height: 90 }] },
    ...(filled !== undefined && { filled }),
  });

const lay = (from: number, change: object = {}): Placement =>
  Object.freeze({ bed: 'pit-a', x: 1, y: 1, depth: 1, from, ...change }) as Placement;

const placementsWith = (
  placements: readonly Placement[],
  fillings: readonly Filling[],
): readonly Placement[] =>
  withFillings({ beds: [], probes: [{ id: 'p01', placements: [...placements] }] }, fillings).probes[0]
    ?.placements ?? [];

const buriedAt = (day: number) => ({ bed: 'pit-a', x: 7, y: 5, depth: 30, from: dayOf(day) });

describe('fillings in force', () => {
  test('are those whose place no other took, in order of time', () => {
    const all = [filling(3, 9), filling(1, 0), filling(2, 2, { supersedes: idOf(1) })];
    expect(fillingsInForce(all).map(({ id }) => id)).toEqual([idOf(2), idOf(3)]);
    expect(latestFilling(all, 'pit-a')?.id).toBe(idOf(3));
    expect(latestFilling(all, 'pit-b')).toBeUndefined();
  });

  test('one that was superseded by one that was superseded stays out', () => {
    const chain = [
      filling(1, 0),
      filling(2, 1, { supersedes: idOf(1) }),
      filling(3, 2, { supersedes: idOf(2) }),
    ];
    expect(fillingsInForce(chain).map(({ id }) => id)).toEqual([idOf(3)]);
  });
});

describe('a bed', () => {
  test.each<[string, number | undefined, number]>([
    ['that was never said to be filled', undefined, dayOf(10)],
    ['filled earlier by its description', dayOf(-100), dayOf(10)],
    ['planned for some hours before', dayOf(10) - 5 * HOUR_ms, dayOf(10)],
    ['planned for not quite a day later', dayOf(11) - 1, dayOf(10)],
    ['filled a day later', dayOf(11), dayOf(11)],
    ['filled later', dayOf(90), dayOf(90)],
  ])('%s', (_, described, expected) => {
    const { beds } = withFillings({ beds: [bed(described)], probes: [] }, [filling(1, 10)]);
    expect(beds[0]?.filled).toBe(expected);
    if (expected === dayOf(10)) expect(beds[0]?.roots).toEqual({ count: 10 });
  });

  test('follows the latest filling, and one that supersedes goes back in time', () => {
    const wrong = filling(1, 30);
    const right = filling(2, 3, { supersedes: idOf(1), mass_kg: 6 });
    expect(withFillings({ beds: [bed(dayOf(30))], probes: [] }, [wrong, right]).beds[0]).toMatchObject({
      ...{ filled: dayOf(3), roots: { count: 20, mass_kg: 6 } },
    });
    expect(withFillings({ beds: [bed()], probes: [] }, [filling(3, 50), wrong]).beds[0]?.filled).toBe(
      dayOf(50),
    );
  });

  test('that no filling concerns is left as it is', () => {
    const other = bed(FILLED);
    const { beds } = withFillings({ beds: [other], probes: [] }, [filling(1, 9, { bed: 'pit-b' })]);
    expect(beds[0]).toBe(other);
  });
});

describe('a buried probe', () => {
  test('ends where it lay, and begins where it was buried', () => {
    const before = lay(dayOf(-9), { bed: 'pit-b' });
    expect(placementsWith([before], [filling(1, 0)])).toEqual([before, buriedAt(0)]);
    const long = lay(dayOf(-9), { bed: 'pit-b', to: dayOf(5) });
    expect(placementsWith([long], [filling(1, 0)])).toEqual([{ ...long, to: FILLED }, buriedAt(0)]);
    const over = lay(dayOf(-9), { to: dayOf(-5) });
    expect(placementsWith([over], [filling(1, 0)])).toEqual([over, buriedAt(0)]);
  });

  test('takes the place of its plan, within a day of it, and keeps its end', () => {
    const end = dayOf(40);
    for (const from of [dayOf(-1) + 1, FILLED, dayOf(1) - 1])
      expect(placementsWith([lay(from, { to: end })], [filling(1, 0)])).toEqual([
        { ...buriedAt(0), to: end },
      ]);
    const longBefore = lay(dayOf(-1));
    expect(placementsWith([longBefore], [filling(1, 0)])).toEqual([longBefore, buriedAt(0)]);
  });

  test('stays moved where it was moved later on', () => {
    const moved = lay(dayOf(20));
    expect(placementsWith([lay(FILLED), moved], [filling(1, 0)])).toEqual([buriedAt(0), moved]);
  });

  test('of a filling that was superseded lies where the right one says', () => {
    const wrong = filling(1, 30, { probes: [{ probe: 'p01', x: 9, y: 9, depth: 9 }] });
    const before = placementsWith([], [wrong]);
    const right = filling(2, 3, { supersedes: idOf(1) });
    expect(placementsWith(before, [wrong, right])).toEqual([buriedAt(3)]);
    const elsewhere = filling(3, 3, { supersedes: idOf(1), probes: [] });
    expect(placementsWith(before, [wrong, elsewhere])).toEqual([]);
  });

  test('once more gives the same: a description may be loaded again and again', () => {
    const fillings = [filling(1, 0), filling(2, 200)];
    const once = placementsWith([lay(dayOf(-9), { bed: 'pit-b', to: dayOf(5) })], fillings);
    expect(once).toHaveLength(3);
    expect(placementsWith(once, fillings)).toEqual(once);
  });

  test('in the shade by its description is no plan of a bed', () => {
    const shade = { ambient: true as const, from: FILLED - HOUR_ms };
    expect(placementsWith([shade], [filling(1, 0)])).toEqual([shade, buriedAt(0)]);
  });
});
