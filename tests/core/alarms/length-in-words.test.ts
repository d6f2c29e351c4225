// Lengths of hand and arm: adult anthropometry, rounded [M].
import { expect, test } from 'vitest';
import { lengthInWords } from '../../../services/core/alarms/length-in-words.js';

test.each([
  [5, 'a hand'],
  [14.9, 'a hand'],
  [15, 'a span'],
  [25, 'a span and a hand'],
  [37, 'a span and a hand'],
  [38, 'a forearm'],
  [57, 'a forearm'],
  [57.5, 'an arm'],
  [80, 'two forearms'],
  [110, 'an arm and a forearm'],
  [150, 'two arms'],
  [150.1, '1.5 m'],
  [175, '2 m'],
  [1000, '10 m'],
])('%d cm is %s: of two equally near ones the longer', (length_cm, words) => {
  expect(lengthInWords(length_cm)).toBe(words);
});
