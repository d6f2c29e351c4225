/** Geometry of beds. Sizes of the pit and the box: common practice, no source; their volumes by hand [C]. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { blocksOf, holdsPoint, volume_L } from '../../../services/core/model/bed.js';

const PIT = [150, 100, 50].map((length) => ({ length, width: 60, height: 25 }));
const BOX = [{ length: 100, width: 50, height: 75 }];

describe('volumes', () => {
  test('a pit of three steps of 25 cm, 60 cm wide, 150, 100 and 50 cm long: 225 + 150 + 75 = 450 L', () => {
    expect(volume_L(blocksOf(PIT))).toBe(450);
    expect(blocksOf(PIT).map((block) => volume_L([block]))).toEqual([225, 150, 75]);
  });
  test('a box of 100 x 50 x 75 cm: 375 L', () => {
    expect(volume_L(blocksOf(BOX))).toBe(375);
  });
  test('no steps, no sand', () => {
    expect(volume_L(blocksOf([]))).toBe(0);
  });
});

describe('places of the steps', () => {
  test('each is centred under the one above', () => {
    expect(blocksOf(PIT)).toEqual([
      { left: 0, right: 150, near: 0, far: 60, top: 0, bottom: 25 },
      { left: 25, right: 125, near: 0, far: 60, top: 25, bottom: 50 },
      { left: 50, right: 100, near: 0, far: 60, top: 50, bottom: 75 },
    ]);
  });
  test('unless it has a corner of its own; the next is centred under that', () => {
    const [top, middle, bottom] = PIT;
    if (!top || !middle || !bottom) throw new Error('expected three steps');
    const blocks = blocksOf([top, { ...middle, x: 0 }, { ...bottom, y: 10 }]);
    expect(blocks[1]).toMatchObject({ left: 0, right: 100, near: 0 });
    expect(blocks[2]).toMatchObject({ left: 25, right: 75, near: 10, far: 70 });
  });
});

describe('whether a point is in the sand', () => {
  const blocks = blocksOf(PIT);
  test.each([
    ['the corner of the opening', 0, 0, 0, true],
    ['the floor', 75, 30, 75, true],
    ['the edge of a step', 25, 0, 50, true],
    ['above the sand', 75, 30, -0.1, false],
    ['under the floor', 75, 30, 75.1, false],
    ['under the first step, beside the second', 10, 30, 30, false],
    ['beside the bed', 75, 60.1, 10, false],
    ['nowhere', Number.NaN, 30, 10, false],
    ['at no depth', 75, 30, Number.NaN, false],
    ['infinitely deep', 75, 30, Number.POSITIVE_INFINITY, false],
  ])('%s', (_, x, y, depth, held) => {
    expect(holdsPoint(blocks, x, y, depth)).toBe(held);
  });

  test('the share of points of the surrounding block that it holds is its share of that volume', () => {
    const grid = Array.from({ length: 30 * 12 * 15 }, (_, at) => [
      2.5 + 5 * (at % 30),
      2.5 + 5 * (Math.floor(at / 30) % 12),
      2.5 + 5 * Math.floor(at / 360),
    ]);
    const held = grid.filter(([x = 0, y = 0, depth = 0]) => holdsPoint(blocks, x, y, depth));
    expect((held.length * 125) / 1000).toBe(450);
  });

  test('every centre of a step of any bed is held', () => {
    const size = fc.integer({ min: 1, max: 500 });
    const steps = fc.array(fc.record({ length: size, width: size, height: size }), {
      minLength: 1,
      maxLength: 6,
    });
    fc.assert(
      fc.property(steps, (some) => {
        const placed = blocksOf(some);
        for (const { left, right, near, far, top, bottom } of placed)
          expect(holdsPoint(placed, (left + right) / 2, (near + far) / 2, (top + bottom) / 2)).toBe(true);
        expect(placed.at(-1)?.bottom).toBe(some.reduce((sum, { height }) => sum + height, 0));
      }),
      { seed: 20260504, numRuns: 100 },
    );
  });
});
