import { afterEach, expect, test, vi } from 'vitest';
import { rotLeftSaid } from '../../services/core/alarms/languages/index.js';
import { LANGUAGE_CODES } from '../../services/core/model/languages.js';
import { likelyZones } from '../../services/web/settings/zones.js';
import { chooseLanguage } from '../../services/web/words/language.js';
import { ownName } from '../../services/web/words/own-names.js';
import { clockTime, dayAndMonth, timeInFull, useZone, wholeTime } from '../../services/web/words/times.js';
import { understood } from '../../services/web/words/zoned.js';

afterEach(() => vi.unstubAllGlobals());

/** A device set to a language and region, as its browser tells. */
const onDevice = (tag: string): void => void vi.stubGlobal('navigator', { languages: [tag] });

test.each(['en-US', 'en-GB', 'en-ZM', 'en-US-u-hc-h12', 'en-u-ca-ethiopic', 'en-EG-u-nu-arab'])(
  'on a device in %s times have 24 hours, our calendar and the month in letters',
  (tag) => {
    onDevice(tag);
    useZone('Africa/Lusaka');
    const afternoon = '2026-11-03T12:05:00Z';
    expect(clockTime(afternoon)).toBe('14:05');
    for (const said of [wholeTime(afternoon), timeInFull(afternoon)])
      expect(said).toMatch(/^(?=.*\bNov\b)(?=.*\b3\b)(?=.*\b2026\b).*\b14:05$/);
    expect(clockTime('2026-11-03T22:05:00Z')).toBe('00:05');
  },
);

test('beside a field for a time stands what was understood, whatever the field shows', () => {
  onDevice('en-GB');
  useZone('Africa/Lusaka');
  expect(understood('datetime-local', '2026-11-03T14:05')).toBe('That is Tue, 3 Nov 2026, 14:05.');
  expect(understood('time', '14:05')).toBe('That is 14:05.');
});

test.each([
  ['datetime-local', ''],
  ['datetime-local', 'yesterday'],
  ['datetime-local', '2026-13-40T99:00'],
  ['time', ''],
  ['time', '2 PM'],
  ['text', '14:05'],
  ['text', '2026-11-03T14:05'],
])('of %j in which %j stands nothing is said', (type, value) => {
  expect(understood(type, value)).toBeUndefined();
});

test('Chichewa is called what those call it who speak it, and no two languages the same', () => {
  expect(ownName('ny')).toBe('Chichewa (Chinyanja)');
  const names = LANGUAGE_CODES.map((code) => ownName(code));
  expect(new Set(names).size).toBe(names.length);
});

test('the zone in force, that of the device and those beside them with the same time come first', () => {
  const zones = ['Africa/Cairo', 'Africa/Lusaka', 'Africa/Maputo', 'Africa/Nairobi', 'Europe/Berlin'];
  const winter = Date.parse('2026-01-15T12:00:00Z');
  expect(likelyZones(zones, 'Africa/Lusaka', 'Europe/Berlin', winter)).toEqual([
    ...['Africa/Lusaka', 'Europe/Berlin', 'Africa/Cairo', 'Africa/Maputo'],
  ]);
  const summer = Date.parse('2026-07-15T12:00:00Z');
  expect(likelyZones(zones, 'Africa/Lusaka', 'Africa/Lusaka', summer)).not.toContain('Africa/Cairo');
});

test.each(LANGUAGE_CODES)(
  'days in %s are those of one calendar, in messages and on the page',
  async (code) => {
    onDevice('en-GB');
    vi.stubGlobal('localStorage', { setItem: () => undefined });
    vi.stubGlobal('document', { documentElement: {} });
    await chooseLanguage(code);
    useZone('Africa/Lusaka');
    const at = Date.parse('2026-05-24T22:30:00Z');
    const [day] = /\d+/.exec(dayAndMonth(at)) ?? [];
    expect(day).toBe(code === 'am' ? '17' : '25');
    const bed = { name: 'Pit', timeZone: 'Africa/Lusaka' };
    expect(rotLeftSaid(at, bed, code).text).toMatch(new RegExp(`\\b${day}\\b`));
    await chooseLanguage('en');
  },
);
