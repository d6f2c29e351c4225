import { expect, test } from 'vitest';
import { written } from '../../services/web/words/written.js';

test('a language that there is data of is written as itself, with its region', () => {
  expect(written('fr-CM')).toBe('fr-CM');
  expect(written('am')).toBe('am');
});

test('one that there is none of is written as English, not as the device is', () => {
  // Made up for private use: no data can come [BCP 47, 2.2.1].
  expect(written('qaa')).toBe('en-GB');
});
