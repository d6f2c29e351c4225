import { expect, test } from 'vitest';
import { openStores } from '../support/open.js';

const NOON = Date.UTC(2026, 5, 1, 12);
const HOUR_ms = 3_600_000;

/** Of probe 1: hours after noon, and what it had in excess in them. */
function latestOf(hours: readonly (readonly [hour: number, excess: number | null])[]) {
  const { judged } = openStores().archive;
  for (const [hour, excess] of hours)
    judged.put(1, { hour: NOON + hour * HOUR_ms, expected: 20, band: 0.1, excess });
  const found = judged.latest(1);
  return found && [(found.hour - NOON) / HOUR_ms, found.excess];
}

test('the latest is the newest hour in which the probe measured', () => {
  expect(latestOf([])).toBeUndefined();
  expect(
    latestOf([
      [0, 1],
      [1, 5.4],
      [2, null],
    ]),
  ).toEqual([1, 5.4]);
  expect(
    latestOf([
      [0, 1],
      [1, -0.2],
    ]),
  ).toEqual([1, -0.2]);
});

test('what is older than a day before the newest is not latest', () => {
  expect(
    latestOf([
      [0, 5],
      [24, null],
    ]),
  ).toEqual([0, 5]);
  expect(
    latestOf([
      [0, 5],
      [25, null],
    ]),
  ).toEqual([25, null]);
});
