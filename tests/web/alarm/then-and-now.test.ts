import { afterAll, describe, expect, test, vi } from 'vitest';
import { withDegrees } from '../../../services/core/alarms/degrees.js';
import { alarmSaid } from '../../../services/core/alarms/languages/index.js';
import { LANGUAGE_CODES } from '../../../services/core/model/languages.js';
import { knownAt, thenAndNow } from '../../../services/web/alarm/then-and-now.js';
import type { Alarm } from '../../../services/web/api/types/alarm.js';
import type { Probe } from '../../../services/web/api/types/bed.js';
import { anAlarm, PIT } from '../../core/alarms/an-alarm.js';

vi.stubGlobal('navigator', { languages: ['en'] });
afterAll(() => vi.unstubAllGlobals());

const AT = '2026-07-22T00:00:00Z';

const alarm = (change: Partial<Alarm> = {}) => ({
  ...{ kind: 'heating', raisedAt: AT, clearedAt: null, evidence: { probe: 'p12', excess_C: 2.7 } },
  ...change,
});

const probe = (id: string, excess_C: number | null): Probe => ({
  ...{ id, model: null, x: 1, y: 1, depth: 1, online: null, expected_C: null, band_C: null, excess_C },
  latest: { at: '2026-07-30T00:00:00Z' },
});

describe('how warm it was when it was told, and now', () => {
  test('says which is which, and where it is warmest now', () => {
    const { told, now } = thenAndNow(alarm(), [probe('p12', 5.3), probe('p11', 6), probe('p13', null)]);
    expect(told).toMatch(/^That figure is of .*22.*: \+2\.7 °C beside a sound bed, at probe p12\./);
    expect(now[0]).toMatch(/^Now: \+5\.3 °C there, .*30/);
    expect(now[1]).toMatch(/^Warmest now: \+6\.0 °C at probe p11/);
    expect(thenAndNow(alarm(), [probe('p12', 5.3), probe('p11', 1)]).now).toHaveLength(1);
  });

  test('the figure is of the time that its evidence names', () => {
    const evidence = { ...alarm().evidence, excessAt: '2026-07-26T00:00:00Z' };
    expect(thenAndNow(alarm({ evidence }), []).told).toMatch(/26/);
    expect(knownAt(alarm({ evidence }))).toBe('2026-07-26T00:00:00Z');
    expect(knownAt(alarm())).toBe(AT);
  });

  test('of an alarm that is over only what it was, of others nothing', () => {
    const over = thenAndNow(alarm({ clearedAt: AT }), [probe('p12', 5.3)]);
    expect(over).toEqual({ told: expect.stringContaining('+2.7'), now: [] });
    const nothing = { told: undefined, now: [] };
    expect(thenAndNow(alarm({ kind: 'damp' }), [probe('p12', 5.3)])).toEqual(nothing);
    expect(thenAndNow(alarm({ evidence: { probe: 'p12' } }), [probe('p12', 5.3)])).toEqual(nothing);
  });
});

describe('degrees in texts of the service', () => {
  test.each([
    ['sand 0.9 C too warm. Open', 'sand 0.9 °C too warm. Open'],
    ['dew point 23.2 C; sand at 21 C', 'dew point 23.2 °C; sand at 21 °C'],
    ['reads 1 C.', 'reads 1 °C.'],
    ['Pit 3 Close it', 'Pit 3 Close it'],
    ['Pit C: 4 °C', 'Pit C: 4 °C'],
  ])('%s', (text, shown) => {
    expect(withDegrees(text)).toBe(shown);
  });

  test.each(LANGUAGE_CODES)('of a warm bed in %s', (language) => {
    const evidence = { probe: 'p12', excess_C: 2.7 };
    const heating = anAlarm({ evidence, text: 'Pit A: sand 2.7 C too warm.' });
    expect(withDegrees(alarmSaid(heating, PIT, language).text)).toMatch(/2[.,]7 °C/);
  });
});
