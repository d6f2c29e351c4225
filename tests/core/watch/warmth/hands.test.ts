import { describe, expect, test } from 'vitest';
import { Onset } from '../../../../services/core/watch/warmth/bank.js';
import { isHand } from '../../../../services/core/watch/warmth/hands.js';
import type { Candidate } from '../../../../services/core/watch/warmth/weighing.js';

const STEP = 400;
const CALM = { ratio: 0, suspected: false, told: false };

const source = (ratio: number, age_steps: number): Candidate => ({
  ...{ ratio, power: 3, variance: 0.1, onset: new Onset(STEP - age_steps, 1, 1) },
  reading: {
    place: { x: 50, y: 30, depth: 30, weights: new Float64Array(4) },
    ...{ probes: Int32Array.of(0), uncertain: Float64Array.of(0.2), weights: new Float64Array(4) },
    ...{ sizes: Float64Array.of(1), nearest: 0 },
  },
});

describe("somebody's hand", () => {
  test.each([
    [2, 35, true],
    [2, 33, false],
    [4, 69, true],
    [4, 67, false],
    [5, 119, false],
    [0, 18, true],
    [0, 16, false],
  ])('%d steps after it began, a ratio of %d: %s', (age_steps, ratio, hand) => {
    expect(isHand(source(ratio, age_steps), STEP, { ...CALM, suspected: true })).toBe(hand);
  });

  test('leaps, where nothing was suspected', () => {
    expect(isHand(source(141, 12), STEP, { ...CALM, ratio: 20 })).toBe(true);
    expect(isHand(source(139, 12), STEP, { ...CALM, ratio: 20 })).toBe(false);
    expect(isHand(source(141, 12), STEP, { ...CALM, ratio: 20, suspected: true })).toBe(false);
  });

  test('is not seen where a source is told of, nor in nothing', () => {
    expect(isHand(source(200, 2), STEP, { ratio: 199, suspected: true, told: true })).toBe(false);
    expect(isHand(undefined, STEP, CALM)).toBe(false);
  });
});
