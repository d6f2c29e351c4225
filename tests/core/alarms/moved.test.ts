import { expect, test } from 'vitest';
import { mustBeToldAnew } from '../../../services/core/alarms/moved.js';
import type { Place } from '../../../services/core/model/alarm.js';

const PLACE: Place = Object.freeze({ x: 80, y: 35, depth: 40, radius: 30 });
const beside = (otherwise: Partial<Place>): Place => ({ ...PLACE, ...otherwise });

test.each([
  ['the same place', PLACE, false],
  ['exactly 40 cm along', beside({ x: 120 }), false],
  ['more than 40 cm along', beside({ x: 120.1 }), true],
  ['more than 40 cm down', beside({ depth: 81 }), true],
  // sqrt(26² + 24² + 18²) = 39.7 cm [C].
  ['26, 24 and 18 cm in the three directions', beside({ x: 106, y: 59, depth: 58 }), false],
  ['28, 24 and 18 cm: 41.0 cm [C]', beside({ x: 108, y: 59, depth: 58 }), true],
  ['half the radius', beside({ radius: 15 }), true],
  ['a little more than half', beside({ radius: 15.1 }), false],
  ['a wider radius', beside({ radius: 90 }), false],
  ['no place any more', null, false],
  ['a place that is no number', beside({ x: Number.NaN, radius: Number.NaN }), false],
])('%s', (_, now, anew) => {
  expect(mustBeToldAnew(PLACE, now)).toBe(anew);
});

test('who was told no place is not told another', () => {
  expect(mustBeToldAnew(null, PLACE)).toBe(false);
});
