import { expect, test } from 'vitest';
import { placeInWords } from '../../../services/core/alarms/place-in-words.js';
import { BOX, PIT } from './an-alarm.js';

const place = (x: number, y: number, depth: number, radius = 15) => ({ x, y, depth, radius });

test('a place is said in words and in measures from the north-west corner', () => {
  expect(placeInWords(place(80, 35, 40), PIT.steps)).toEqual({
    full:
      'halfway along, about a forearm down: 80 cm along and 35 cm across from the north-west corner, 40 cm deep ' +
      '(step 2 of 2 from the top), within 15 cm of there',
    lines: [
      'halfway along, about a forearm down: 80 cm along and 35 cm across from the north-west corner, 40 cm deep',
      '80 cm along and 35 cm across from the north-west corner, about a forearm down (40 cm)',
      '80 cm along, 35 across, 40 deep from the north-west corner',
    ],
  });
});

test.each([
  [0, 'near the north-west end'],
  [49, 'near the north-west end'],
  [50, 'halfway along'],
  [100, 'halfway along'],
  [101, 'near the far end'],
  [150, 'near the far end'],
])('%d cm along a pit of 150 cm is %s', (x, words) => {
  expect(placeInWords(place(x, 10, 10), PIT.steps).full).toContain(`${words}, `);
});

test.each([
  [0, 'just under the top'],
  [10, "about a hand's width down"],
  [20, "about a hand's length down"],
  [40, 'about a forearm down'],
  [70, "about an arm's length down"],
  [90, "deeper than an arm's length"],
])('%d cm down is %s', (depth, words) => {
  expect(placeInWords(place(10, 10, depth), BOX.steps).full).toContain(words);
});

test.each([
  [0, 'step 1 of 2'],
  [24.9, 'step 1 of 2'],
  [25, 'step 2 of 2'],
])('%d cm down a stepped pit is in %s', (depth, words) => {
  expect(placeInWords(place(80, 35, depth), PIT.steps).full).toContain(words);
});

test('a box has no step to name, and neither has a place under the floor', () => {
  expect(placeInWords(place(10, 10, 10), BOX.steps).full).not.toContain('step');
  expect(placeInWords(place(10, 10, 60), PIT.steps).full).not.toContain('step');
});

test('an opening that does not begin at the origin has its thirds where it lies', () => {
  const moved = [{ length: 150, width: 100, height: 25, x: 300, y: 0 }];
  expect(placeInWords(place(310, 10, 10), moved).full).toContain('near the north-west end');
});

test.each(['x', 'y', 'depth', 'radius'] as const)('a place whose %s is no number is refused', (name) => {
  for (const value of [Number.NaN, Number.POSITIVE_INFINITY, -1e9])
    expect(() => placeInWords({ ...place(80, 35, 40), [name]: value }, PIT.steps)).toThrow(
      expect.objectContaining({ code: 'OUT_OF_DOMAIN', message: expect.stringContaining(`place.${name}`) }),
    );
});
