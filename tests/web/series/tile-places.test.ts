import { describe, expect, test } from 'vitest';
import { DAY_ms } from '../../../services/web/bed/series/span.js';
import {
  above,
  LEVELS,
  levelFor,
  pointsFor,
  spanOfTile,
  tileLength,
  tilesOver,
} from '../../../services/web/bed/series/tile-places.js';

describe('tiles', () => {
  test.each([
    [0.2, 0],
    [1, 0],
    [1.01, 1],
    [7, 3],
    [30, 5],
    [180, 8],
    [5000, LEVELS - 1],
  ])('of %d days are of level %i', (days, level) => {
    expect(levelFor({ from: 0, to: days * DAY_ms })).toBe(level);
  });

  test.each([0.5, 1, 3, 7, 30, 42, 180, 250])('a view of %d days is covered by two at the most', (days) => {
    for (let shift = 0; shift < 20; shift += 1) {
      const view = { from: shift * 1.37 * DAY_ms, to: (shift * 1.37 + days) * DAY_ms };
      const tiles = tilesOver(view, levelFor(view));
      expect(tiles.length).toBeLessThanOrEqual(2);
      expect(spanOfTile(tiles[0] as never).from).toBeLessThanOrEqual(view.from);
      expect(spanOfTile(tiles.at(-1) as never).to).toBeGreaterThanOrEqual(view.to);
    }
  });

  test('of one level lie beside one another, also before 1970', () => {
    const tiles = tilesOver({ from: -3 * DAY_ms, to: 2 * DAY_ms }, 1);
    expect(tiles.map(({ index }) => index)).toEqual([-2, -1, 0]);
    expect(spanOfTile({ level: 1, index: -1 }).to).toBe(spanOfTile({ level: 1, index: 0 }).from);
  });

  test('lie within the one above', () => {
    for (const index of [-3, 0, 5]) {
      const [own, higher] = [spanOfTile({ level: 2, index }), spanOfTile(above({ level: 2, index }))];
      expect(higher.from).toBeLessThanOrEqual(own.from);
      expect(higher.to).toBeGreaterThanOrEqual(own.to);
      expect(higher.to - higher.from).toBe(tileLength(3));
    }
  });

  test.each([0, 300, 1200, 10_000])('ask for a bounded number of points at %d px', (width) => {
    expect(pointsFor(width)).toBeGreaterThanOrEqual(400);
    expect(pointsFor(width)).toBeLessThanOrEqual(2000);
  });
});
