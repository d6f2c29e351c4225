import { describe, expect, test } from 'vitest';
import { modelOf } from '../../../../services/core/watch/warmth/model.js';

const PIT = { kind: 'stepped-pit' as const, steps: [{ length: 145, width: 100, height: 60 }] };
const POINTS = [
  { x: 125, y: 45, depth: 20 },
  { x: 20, y: 50, depth: 20 },
  { x: 60, y: 85, depth: 15 },
  { x: 45, y: 55, depth: 40 },
];

describe('places in a pit', () => {
  const { readings, inner } = modelOf(PIT, POINTS);

  test('the probe next to a place is never left out of what tells it', () => {
    for (const { place, probes, nearest } of readings) {
      const off = POINTS.map(({ x, y, depth }) => Math.hypot(x - place.x, y - place.y, depth - place.depth));
      const closest = off.indexOf(Math.min(...off));
      if ((off[closest] as number) > 20) continue;
      expect([...probes]).toContain(closest);
      const second = Math.min(...off.filter((_, probe) => probe !== closest));
      if (second > 2 * (off[closest] as number)) expect(nearest).toBe(closest);
    }
  });

  test('a source is placed where roots lie, not in the sand around them', () => {
    expect(inner.length).toBeGreaterThan(readings.length / 4);
    for (const { place } of inner) {
      expect(place.depth).toBeGreaterThanOrEqual(7);
      expect(place.depth).toBeLessThan(55);
      expect(Math.min(place.x, 145 - place.x, place.y, 100 - place.y)).toBeGreaterThan(5);
    }
  });
});

test('a bed too small for that has its places all the same', () => {
  const small = { kind: 'box' as const, steps: [{ length: 20, width: 9, height: 20 }] };
  const { readings, inner } = modelOf(small, [{ x: 10, y: 4, depth: 10 }]);
  expect(inner).toEqual(readings);
});
