import { expect, test } from 'vitest';
import { isLeap } from '../../../../services/core/watch/warmth/leap.js';

test.each([
  ['out of nothing', 3, 160, true],
  ['beside a source that was seen a step ago', 64, 304, false],
  ['as sources do', 3, 100, false],
  ['downwards', 300, 3, false],
  ['with nothing to go by', Number.NaN, 300, false],
])('evidence that rises %s', (_, before, now, expected) => {
  expect(isLeap(before, now)).toBe(expected);
});
