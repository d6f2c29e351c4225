import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decodeTimes, encodeTimes, type HourTime } from '../../services/archive/times-code.js';

const hour = fc
  .uniqueArray(fc.tuple(fc.integer({ min: 0, max: 3_599_999 }), fc.integer({ min: 1, max: 15 })), {
    selector: ([offset_ms]) => offset_ms,
    maxLength: 200,
  })
  .map((times) => times.sort(([one], [other]) => one - other));

test('what is written is read again', () => {
  fc.assert(
    fc.property(hour, (times) => {
      expect(decodeTimes(encodeTimes(times))).toEqual(times);
    }),
    { seed: 8 },
  );
});

test('a probe that keeps its pace takes no more bytes for more readings', () => {
  const everySecond = Array.from({ length: 3_599 }, (_, at): HourTime => [1000 + at * 1000, 3]);
  expect(encodeTimes(everySecond).length).toBeLessThanOrEqual(12);
  expect(encodeTimes([]).length).toBe(0);
});
