import { expect, test } from 'vitest';
import { LANGUAGE_CODES } from '../../services/core/model/languages.js';
import { likelyZones } from '../../services/web/settings/zones.js';
import { ownName } from '../../services/web/words/own-names.js';
import { clockOf } from '../../services/web/words/times.js';

test.each([
  ['en-US', 'h12'],
  ['en-GB', 'h23'],
  ['de-DE', 'h23'],
  ['fr-CM', 'h23'],
])('times on a device in %s are said by its clock', (device, clock) => {
  expect(clockOf(device)).toBe(clock);
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
