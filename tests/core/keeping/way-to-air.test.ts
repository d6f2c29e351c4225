import { describe, expect, test } from 'vitest';
import { DRY_DAMPING_cm, throughSand } from '../../../services/core/keeping/way-to-air.js';

const PIT = { kind: 'stepped-pit', steps: [{ length: 150, width: 60, height: 75 }] } as const;
/** Two boards so near to each other that all else is far away. */
const BETWEEN_BOARDS = { kind: 'box', steps: [{ length: 400, width: 26, height: 400 }] } as const;

describe('the way from the air through sand', () => {
  test('in a pit is that from above alone, however near a wall', () => {
    for (const x of [1, 75])
      for (const depth of [0, 7, 30, 70]) {
        const { share, lag } = throughSand(PIT, { x, y: 30, depth });
        expect(share).toBeCloseTo(Math.exp(-depth / DRY_DAMPING_cm), 12);
        expect(lag).toBeCloseTo(depth / DRY_DAMPING_cm, 9);
      }
  });

  test('between two boards is as the closed solution of a slab has it, within a tenth', () => {
    // The middle of a slab of 2 L: 1 / cosh((1 + i) L / damping depth), Carslaw & Jaeger 3.6 (clause from memory).
    const z = 13 / DRY_DAMPING_cm;
    const [real, imaginary] = [Math.cosh(z) * Math.cos(z), Math.sinh(z) * Math.sin(z)];
    const { share, lag } = throughSand(BETWEEN_BOARDS, { x: 200, y: 13, depth: 200 });
    expect(Math.abs(share * Math.hypot(real, imaginary) - 1)).toBeLessThan(0.1);
    expect(Math.abs(lag - Math.atan2(imaginary, real))).toBeLessThan(0.1);
  });

  test('at a face is the whole swing at once, in an edge too', () => {
    for (const place of [
      { x: 200, y: 0, depth: 200 },
      { x: 0, y: 0, depth: 0 },
    ]) {
      const { share, lag } = throughSand(BETWEEN_BOARDS, place);
      expect(share).toBeCloseTo(1, 12);
      expect(lag).toBeCloseTo(0, 9);
    }
  });

  test('far from edges is the sum of what the faces bring; a third face nearer makes it shorter', () => {
    const box = { kind: 'box', steps: [{ length: 100, width: 50, height: 75 }] } as const;
    const middle = throughSand(box, { x: 50, y: 25, depth: 50 });
    expect(middle.share / Math.exp(-25 / DRY_DAMPING_cm)).toBeGreaterThan(1.9);
    const inCorner = throughSand(box, { x: 20, y: 20, depth: 50 });
    expect(inCorner.share).toBeGreaterThan(middle.share);
    expect(inCorner.lag).toBeLessThan(middle.lag);
  });
});
