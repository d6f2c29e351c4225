import { afterAll, describe, expect, test, vi } from 'vitest';
import { namedInWords } from '../../../services/core/alarms/evidence-in-words.js';
import { EVIDENCE_NAMES, evidenceName } from '../../../services/core/alarms/story/evidence-table.js';
import { labelSaid, measured, valueSaid } from '../../../services/web/alarm/evidence-said.js';
import type { WhyItem } from '../../../services/web/api/types/alarm-story.js';
import { evidence } from '../../../services/web/words/en/evidence.js';

vi.stubGlobal('navigator', { languages: ['en'] });
afterAll(() => vi.unstubAllGlobals());

const item = (name: string, value: string | number, part: Partial<WhyItem> = {}): WhyItem => ({
  ...{ name, value, label: evidenceName(name, value).label, unit: evidenceName(name, value).unit ?? null },
  ...{ inWords: namedInWords(name, value), text: '', probe: null, quantity: null, thresholds: [], ...part },
});

test.each(EVIDENCE_NAMES)('of %s the page says in English what the service does', (name) => {
  expect(labelSaid(item(name, 1))).toEqual({ text: evidenceName(name, 1).label, lang: undefined });
});

test.each(['later_C', 'toString', '__proto__', 'line'.toUpperCase()])(
  '%s is named as the service does, in English',
  (name) => {
    expect(labelSaid({ name, label: 'As it is' })).toEqual({ text: 'As it is', lang: 'en' });
  },
);

describe('a value', () => {
  const named = Object.keys(evidence).flatMap((key) => {
    const [, name = '', value = ''] = /^(because|fault)-(.*)$/.exec(key) ?? [];
    return name === '' ? [] : [[name, value] as const];
  });
  test.each(named)('%s of %s is said as the service does', (name, value) => {
    expect(valueSaid(item(name, value))).toEqual({ text: namedInWords(name, value), lang: undefined });
  });

  test.each([
    ['strength', 3, 'not very sure', undefined],
    ['strength', 17.5, 'very sure', undefined],
    ['class', 'damp', 'damp sand', undefined],
    ['against', 'shade', 'the shade outside', undefined],
    ['against', 'p02', 'p02', 'en'],
    ['probe', 'p01', 'p01', undefined],
    ['species', 'cylas-brunneus', 'sweet potato weevil, Cylas brunneus', 'en'],
    ['because', 'toString', 'toString', 'en'],
    ['fault', 'rusty', 'rusty', 'en'],
    ['rate_C_per_day', 0.6, '0.60 °C a day', undefined],
    ['slope_RH_per_day', 2, '2 %RH a day', undefined],
    ['degreeDays', 410, '410 °C days', undefined],
    ['power_W', 4.52, '4.5 W', undefined],
    ['probes', 3, '3', undefined],
    ['diffusivity_m2_s', 4.1e-7, '4.1e-7 m²/s', undefined],
  ])('%s of %s is said "%s"', (name, value, text, lang) => {
    expect(valueSaid(item(name, value))).toEqual({ text, lang });
  });

  test('in a unit that nobody knows stands beside it', () => {
    expect(measured(2, 'constructor')).toBe('2 constructor');
  });
});
