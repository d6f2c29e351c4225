// RFC 9110 section 10.2.3 and 5.6.7.
import { expect, test } from 'vitest';
import { LONGEST_RETRY_AFTER_ms, retryAfter_ms } from '../../services/senders/retry-after.js';

const NOW = Date.parse('Fri, 31 Dec 1999 23:59:00 GMT');

test.each([
  ['120', 120_000],
  [' 120 ', 120_000],
  ['0', 0],
  // The date of the RFC's own example.
  ['Fri, 31 Dec 1999 23:59:59 GMT', 59_000],
  ['Fri, 31 Dec 1999 23:58:00 GMT', 0],
])('"%s" asks for %d ms', (header, wait_ms) => {
  expect(retryAfter_ms(header, NOW)).toBe(wait_ms);
});

test.each(['3601', '999999999999999', 'Sat, 01 Jan 2000 23:59:00 GMT'])(
  '"%s" is bounded to an hour',
  (header) => {
    expect(retryAfter_ms(header, NOW)).toBe(LONGEST_RETRY_AFTER_ms);
  },
);

test.each([
  null,
  '',
  '-1',
  '1.5',
  '1e3',
  '0x10',
  'soon',
  '9999999999999999',
  '2000-01-01',
  'Fri, 99 Xyz 1999 23:59:59 GMT',
])('"%s" is neither form', (header) => {
  expect(retryAfter_ms(header, NOW)).toBeUndefined();
});
