/** Places in every language rest on the same limits as the English words of the page. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { depthInWords } from '../../../../services/core/alarms/depth-in-words.js';
import { CATALOGUES, LANGUAGE_CODES } from '../../../../services/core/alarms/languages/index.js';
import { placesSaid } from '../../../../services/core/alarms/languages/place.js';
import { lengthInWords } from '../../../../services/core/alarms/length-in-words.js';
import { placeInWords } from '../../../../services/core/alarms/place-in-words.js';
import { PIT } from '../an-alarm.js';

const coordinate = fc.integer({ min: -40, max: 360 });
const places = fc.record({
  x: coordinate,
  y: coordinate,
  depth: fc.integer({ min: -20, max: 90 }),
  radius: fc.constant(10),
});
const pits = fc.record({
  length: fc.integer({ min: 20, max: 320 }),
  width: fc.integer({ min: 20, max: 200 }),
  height: fc.integer({ min: 20, max: 80 }),
});

describe('English', () => {
  test('says side, end and depth as the line on the page does', () => {
    fc.assert(
      fc.property(places, pits, (place, step) => {
        const { lines } = placeInWords(place, [step]);
        const [, arms, centimetres] = placesSaid(CATALOGUES.en, place, [step]);
        expect([arms, centimetres]).toEqual([lines[2], lines[3]]);
      }),
      { seed: 41, numRuns: 500 },
    );
  });

  test('from the clearest to the shortest', () => {
    expect(placesSaid(CATALOGUES.en, { x: 45, y: 20, depth: 40, radius: 15 }, PIT.steps)).toEqual([
      'deep down (about a forearm), a span from NW side, a forearm from NW end',
      'deep down, a span from NW side, a forearm from NW end',
      'deep down, 20 cm from NW side, 45 cm from NW end',
      '40 cm down, NW side 20 cm, NW end 45 cm',
    ]);
  });

  test.each([
    ['in the middle', { x: 75, y: 50 }, '30 cm down, middle, half-way along'],
    ['at walls', { x: 1, y: 99 }, '30 cm down, far side 0 cm, NW end 0 cm'],
    ['outside', { x: -30, y: 99 }, '30 cm down, far side 0 cm, NW end 30 cm outside'],
  ])('%s, in the fewest words', (_, where, said) => {
    expect(placesSaid(CATALOGUES.en, { ...where, depth: 30, radius: 9 }, PIT.steps).at(-1)).toBe(said);
  });

  test('above the sand there is no depth', () => {
    expect(placesSaid(CATALOGUES.en, { x: 1, y: 1, depth: -9, radius: 9 }, PIT.steps).at(-1)).toMatch(
      /^above the sand, /,
    );
  });

  test('in centimetres only, where the person has a tape', () => {
    const place = { x: 45, y: 20, depth: 40, radius: 15 };
    const said = placesSaid(CATALOGUES.en, place, PIT.steps, 'centimetres');
    expect(said).toEqual(placesSaid(CATALOGUES.en, place, PIT.steps).slice(2));
  });
});

describe.each(LANGUAGE_CODES)('%s', (code) => {
  const { messages } = CATALOGUES[code];

  test('has words for every length up to where arms end, and for every depth', () => {
    const keys = new Set(Object.keys(messages));
    for (let cm = 5; cm <= 150; cm += 0.5) expect(keys).toContain(`length.${lengthInWords(cm)}`);
    for (let cm = -20; cm <= 120; cm += 0.5) expect(keys).toContain(`depth.${depthInWords(cm, 100)}`);
  });

  test('says half metres with its own decimal sign', () => {
    const far = { x: 250, y: 60, depth: 30, radius: 9 };
    const [said] = placesSaid(CATALOGUES[code], far, [{ length: 600, width: 120, height: 50 }]);
    expect(said).toContain(code === 'fr' || code === 'pt' ? '2,5' : '2.5');
  });
});

test.each([
  [{ x: Number.NaN, y: 0, depth: 0, radius: 0 }, PIT.steps],
  [{ x: 0, y: 1e9, depth: 0, radius: 0 }, PIT.steps],
  [{ x: 0, y: 0, depth: 0, radius: 0 }, []],
])('a place that is none is refused: %o', (place, steps) => {
  expect(() => placesSaid(CATALOGUES.sw, place, steps)).toThrow(
    expect.objectContaining({ code: 'OUT_OF_DOMAIN' }),
  );
});
