import { expect, test } from 'vitest';
import { cover_cm } from '../../../../services/core/watch/dampness/cover.js';
import { PIT } from './a-bed.js';

const BOX = { kind: 'box', steps: [{ length: 100, width: 50, height: 75 }] } as const;

test('in a pit only the top is open to the air', () => {
  expect(cover_cm({ ...PIT, steps: [...PIT.steps] }, { x: 2, y: 25, depth: 40 })).toBe(40);
});

test.each([
  ['top', { x: 50, y: 25, depth: 12 }, 12],
  ['floor', { x: 50, y: 25, depth: 65 }, 10],
  ['a long wall', { x: 50, y: 42, depth: 40 }, 8],
  ['the other long wall', { x: 50, y: 7, depth: 40 }, 7],
  ['a short wall', { x: 6, y: 25, depth: 40 }, 6],
  ['the other short wall', { x: 95, y: 25, depth: 40 }, 5],
])('in a box the nearest face counts: %s', (_, place, expected) => {
  expect(cover_cm({ kind: BOX.kind, steps: [...BOX.steps] }, place)).toBe(expected);
});
