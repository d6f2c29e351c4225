import { expect, test } from 'vitest';
import { oneLine } from '../../services/senders/one-line.js';

test.each([
  ['plain', 'plain'],
  ['two\r\nlines', 'two lines'],
  ['\u001b[31mred\u001b[0m', '[31mred [0m'],
  ['\u009b2J', '2J'],
  ['a\u2028b\u2029c', 'a b c'],
  ['safe\u202egpj.exe', 'safe gpj.exe'],
  ['\u0000\u0007', ''],
  ['Šumava 😀', 'Šumava 😀'],
])('%j is shown as %j', (text, shown) => {
  expect(oneLine(text, 100)).toBe(shown);
});

test('a long text is cut and says so', () => {
  expect(oneLine('a'.repeat(100), 100)).toHaveLength(100);
  expect(oneLine('a'.repeat(101), 100)).toBe(`${'a'.repeat(97)}...`);
});
