import { expect, test } from 'vitest';
import { openStores } from '../support/open.js';

test('a probe of which nothing was folded is here one by one from the beginning', () => {
  const { archive } = openStores();
  expect(archive.fullRate.since(1)).toBe(0);
});

test('each probe has a mark of its own', () => {
  const { archive } = openStores();
  archive.fullRate.set(1, { since: 7_200_000, goal: 10_800_000, foldedTo: 7_200_000 });
  expect(archive.fullRate.since(1)).toBe(7_200_000);
  expect(archive.fullRate.since(2)).toBe(0);
});

test('a late reading sets back how far is folded, one of the time that is kept whole does not', () => {
  const { archive } = openStores();
  archive.fullRate.set(1, { since: 7_200_000, goal: 10_800_000, foldedTo: 7_200_000 });
  archive.fullRate.noteLate(1, 7_200_000);
  expect(archive.fullRate.mark(1).foldedTo).toBe(7_200_000);
  archive.fullRate.noteLate(1, 3_600_000);
  archive.fullRate.noteLate(1, 3_600_001);
  archive.fullRate.noteLate(2, 3_600_000);
  expect(archive.fullRate.mark(1)).toEqual({ since: 7_200_000, goal: 10_800_000, foldedTo: 3_600_000 });
});
