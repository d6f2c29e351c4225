import { expect, test } from 'vitest';
import { BACKOFF, waitAfter_ms } from '../../services/senders/backoff.js';

test('the wait doubles from 2 s to 15 min', () => {
  const waits_s = [1, 2, 3, 8, 9, 10, 11, 5000].map((attempts) => waitAfter_ms(attempts, 1) / 1000);
  expect(waits_s).toEqual([2, 4, 8, 256, 512, 900, 900, 900]);
});

test('chance takes off up to half', () => {
  expect([0, 0.5, 0.9999].map((random) => waitAfter_ms(1, random))).toEqual([1000, 1500, 2000]);
});

test('the defaults are those that are promised', () => {
  expect(BACKOFF).toEqual({ first_ms: 2000, longest_ms: 900_000 });
});
