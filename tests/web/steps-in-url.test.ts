import { describe, expect, test } from 'vitest';
import { shapeInQuery, shapeOfQuery } from '../../services/web/parts/steps-in-url.js';

const PIT = {
  kind: 'stepped-pit',
  steps: [
    { length: 150, width: 60, height: 25 },
    { length: 100.5, width: 60, height: 25 },
  ],
} as const;

describe('the shape of a bed in an address', () => {
  test('is as it was handed over', () => {
    expect(shapeInQuery(PIT)).toBe('kind=stepped-pit&steps=150x60x25,100.5x60x25');
    expect(shapeOfQuery(shapeInQuery(PIT))).toEqual(PIT);
    expect(shapeOfQuery(`?${shapeInQuery({ ...PIT, kind: 'box' })}`)?.kind).toBe('box');
    expect(shapeOfQuery('steps=100x50x75&kind=heap')?.kind).toBe('stepped-pit');
  });

  test.each([
    '',
    'kind=box',
    'steps=',
    'steps=150x60',
    'steps=150x60x25,',
    'steps=150x60x0',
    'steps=150x60x-5',
    'steps=axbxc',
    'steps=1e3x60x25',
    'steps=150x60x25x5',
  ])('is not read from "%s"', (query) => {
    expect(shapeOfQuery(query)).toBeUndefined();
  });
});
