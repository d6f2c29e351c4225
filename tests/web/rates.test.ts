import { afterAll, expect, test, vi } from 'vitest';
import { falseAlarms } from '../../services/web/words/rates.js';

afterAll(() => vi.unstubAllGlobals());

test.each([
  [0.0001, 'Almost never falsely: less than once in 10,000 months of a bed'],
  [0.001, 'Almost never falsely: less than once in 1,000 months of a bed'],
  [0.1, 'About one false alarm in 10 months of a bed'],
  [1, 'About one false alarm in 1 months of a bed'],
  [2.5, 'About 2.5 false alarms a month in a bed'],
])('%d false alarms a month in a bed are told as people count', (rate, text) => {
  vi.stubGlobal('navigator', { languages: ['en-GB'] });
  expect(falseAlarms(rate)).toBe(text);
});
