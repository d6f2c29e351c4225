import { expect, test } from 'vitest';
import { depthInWords } from '../../../services/core/alarms/depth-in-words.js';

test.each([
  [-6, 'above the sand'],
  [-5, 'near the top'],
  [0, 'near the top'],
  [14.9, 'near the top'],
  [15, 'a third down'],
  [30, 'half-way down'],
  [45, 'deep down'],
  [69.9, 'deep down'],
  [70, 'on the floor'],
  [80, 'on the floor'],
  [80.1, 'below the floor'],
])('%d cm in a bed of 75 cm is %s', (depth_cm, words) => {
  expect(depthInWords(depth_cm, 75)).toBe(words);
});

test('in a bed as shallow as a hand its upper half is not the floor', () => {
  expect([0, 4, 6].map((depth_cm) => depthInWords(depth_cm, 8))).toEqual([
    'near the top',
    'half-way down',
    'on the floor',
  ]);
});
