import { describe, expect, test } from 'vitest';
import type { TodayItem } from '../../services/web/api/types/today.js';
import { inOrder, jobsOf, looksApart } from '../../services/web/beds/jobs-of-today.js';
import { jobLeadsTo } from '../../services/web/beds/leads-to.js';

const item = (when: TodayItem['when'], bed: string | null, text: string, more: object = {}): TodayItem => ({
  ...{ when, kind: 'alarm', bed: bed === null ? null : { id: bed, name: `Bed ${bed}` }, probe: null },
  ...{ alarm: text, since: null, inHand: null, text, language: 'en', ...more },
});

const OF_NO_ALARM = { kind: 'look', alarm: null };

describe('what waits at one bed', () => {
  test('is one job a visit, in the order in which it was told', () => {
    const items = [
      item('next-visit', 'a', 'sprouts'),
      item('next-visit', 'b', 'damp'),
      item('next-visit', 'a', 'weevils'),
      item('next-visit', 'a', 'two weeks', OF_NO_ALARM),
    ];
    const said = jobsOf(items).map((job) => job.items.map(({ text }) => text));
    expect(said).toEqual([['sprouts', 'weevils', 'two weeks'], ['damp']]);
  });

  test('is done at the visit of today where there is one', () => {
    const items = [
      item('today', 'a', 'rot'),
      item('next-visit', 'a', 'sprouts'),
      item('probe', 'a', 'fault'),
    ];
    const [today, probe, ...others] = jobsOf(items);
    expect(today?.alsoThere.map(({ text }) => text)).toEqual(['sprouts']);
    expect(probe).toMatchObject({ when: 'probe', alsoThere: [] });
    expect(others).toEqual([]);
  });

  test('without a bed stands alone', () => {
    const items = [item('probe', null, 'one', { probe: 'p1' }), item('probe', null, 'two', { probe: 'p2' })];
    expect(jobsOf(items)).toHaveLength(2);
  });

  test('leads to one look where several ask for it, and to the steps where one does', () => {
    const [several] = jobsOf([item('next-visit', 'a', 'sprouts'), item('next-visit', 'a', 'weevils')]);
    const [one] = jobsOf([item('next-visit', 'a', 'sprouts')]);
    const [today] = jobsOf([item('today', 'a', 'rot'), item('today', 'a', 'water')]);
    expect(several && jobLeadsTo(several)?.address).toBe('/jobs/inspect/a');
    expect(one && jobLeadsTo(one)?.address).toBe('/alarms/sprouts');
    expect(today && jobLeadsTo(today)?.address).toBe('/alarms/rot');
  });
});

test('beds stand in the order of what is to be done at them, then by how they stand and their names', () => {
  const bed = (id: string, stands: 'unpack' | 'check' | 'sound') => ({ id, name: `Bed ${id}`, stands });
  const beds = [
    bed('d', 'sound'),
    bed('c', 'sound'),
    bed('a', 'unpack'),
    bed('b', 'unpack'),
    bed('e', 'check'),
  ];
  const items = [item('today', 'b', 'rot'), item('today', 'a', 'water'), item('probe', 'd', 'fault')];
  expect(inOrder(beds, items, 'en').map(({ id }) => id)).toEqual(['b', 'a', 'd', 'e', 'c']);
});

describe('looks that are overdue', () => {
  const look = (bed: string | null, more: object = {}) =>
    item('next-visit', bed, `look ${bed}`, { isOverdueLook: true, ...more });

  test('stand apart from what else waits, but for a visit that is made for more than that', () => {
    const items = [look('a'), item('next-visit', 'b', 'damp'), look('b'), look('c')];
    const { others, looks } = looksApart(jobsOf(items));
    expect(others.map((job) => job.items[0].bed?.id)).toEqual(['b']);
    expect(looks.map((job) => job.items[0].bed?.id)).toEqual(['a', 'c']);
  });

  test('are none where the service does not say so, nor without a bed', () => {
    const items = [look(null), look('a', { isOverdueLook: undefined })];
    expect(looksApart(jobsOf(items)).looks).toEqual([]);
  });
});
