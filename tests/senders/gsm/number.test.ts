import { expect, test } from 'vitest';
import { numberProblem, requireNumber } from '../../../services/senders/gsm/number.js';

test.each(['+4670123', '+46701234567', '+123456789012345'])('%s is a number', (number) => {
  expect(numberProblem(number)).toBeUndefined();
});

// ITU-T E.164: at most 15 digits, no country code begins with 0.
test.each([
  ['', 'got none'],
  ['   ', 'got none'],
  ['0701234567', 'got one without +'],
  ['0046701234567', 'got one that begins with 00 in place of +'],
  ['+0701234567', 'got one whose country begins with 0'],
  ['+46 70 123 45 67', 'got one with other characters between the digits'],
  ['+46701234567\n', 'got one with other characters between the digits'],
  ['+46701234567"', 'got one with other characters between the digits'],
  ['+46７０1234567', 'got one with other characters between the digits'],
  ['+467012', 'got 6 digits'],
  ['+1234567890123456', 'got 16 digits'],
  ['+', 'got 0 digits'],
  ['Ada', 'got one without +'],
])('%j is none', (number, got) => {
  const problem = numberProblem(number) ?? '';
  expect(problem).toBe(
    `expected a number as + and 7 to 15 digits with the country first, such as +46701234567, ${got}`,
  );
  expect(() => requireNumber(number)).toThrow(problem);
});
