import { expect, test } from 'vitest';
import { withDegrees } from '../../../services/core/alarms/degrees.js';

test.each([
  ['sand 1.8 C too warm', [], 'sand 1.8 °C too warm'],
  ['+1,8 C', [], '+1,8 °C'],
  ['20 C, 21 C.', [], '20 °C, 21 °C.'],
  ['1.8 °C', [], '1.8 °C'],
  ['4 Cows, 4 C4, Pit C: 3 cm', [], '4 Cows, 4 C4, Pit C: 3 cm'],
  ['Pit 2 C: sand 2 C too warm', ['Pit 2 C'], 'Pit 2 C: sand 2 °C too warm'],
  ['Pit 2 C 2 C, Box 3 C 3 C', ['Box 3 C', 'Pit 2 C'], 'Pit 2 C 2 °C, Box 3 C 3 °C'],
  ['2 C', [''], '2 °C'],
  ['', ['Pit A'], ''],
])('"%s" beside %o reads "%s"', (text, names, words) => {
  expect(withDegrees(text, names)).toBe(words);
});
