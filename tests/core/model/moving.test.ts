import { describe, expect, test } from 'vitest';
import { placementsAfter } from '../../../services/core/model/moving.js';
import type { Placement } from '../../../services/core/model/site.js';

const at = (from: number, to?: number): Placement =>
  Object.freeze({ bed: 'pit-a', x: 1, y: 2, depth: 3, from, ...(to !== undefined && { to }) });
const to = (from: number) => ({ by: 'W', from, bed: 'pit-b', x: 4, y: 5, depth: 6 });
const PIT_B = { bed: 'pit-b', x: 4, y: 5, depth: 6 };

describe('placements after a move', () => {
  test('of a probe that stood nowhere', () => {
    expect(placementsAfter([], to(10))).toEqual([{ ...PIT_B, from: 10 }]);
    expect(placementsAfter([], { by: 'W', from: 10, ambient: true })).toEqual([{ ambient: true, from: 10 }]);
  });

  test('keep what was; an end that would lie after the move is brought forward', () => {
    expect(placementsAfter([at(1), at(5, 20)], to(10))).toEqual([at(1), at(5, 10), { ...PIT_B, from: 10 }]);
    expect(placementsAfter([at(5, 8)], to(10))).toEqual([at(5, 8), { ...PIT_B, from: 10 }]);
  });

  test('at the time of the last one have that in its place', () => {
    expect(placementsAfter([at(1), at(5)], to(5))).toEqual([at(1), { ...PIT_B, from: 5 }]);
  });

  test('once taken out end there', () => {
    expect(placementsAfter([at(1), at(5)], { by: 'W', from: 9, out: true })).toEqual([at(1), at(5, 9)]);
    expect(placementsAfter([at(5, 20)], { by: 'W', from: 9, out: true })).toEqual([at(5, 9)]);
  });

  test.each([
    [[at(5)], to(4)],
    [[], { by: 'W', from: 9, out: true } as const],
    [[at(5)], { by: 'W', from: 5, out: true } as const],
    [[at(5, 8)], { by: 'W', from: 9, out: true } as const],
  ])('of a time that does not follow, or from nowhere, are refused: %j %j', (placements, move) => {
    expect(() => placementsAfter(placements, move)).toThrow(expect.objectContaining({ code: 'CONFLICT' }));
  });
});
