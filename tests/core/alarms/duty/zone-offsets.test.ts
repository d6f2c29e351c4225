/** Offsets that are asked once a day are those of the runtime at every instant. */
import fc from 'fast-check';
import { IANAZone } from 'luxon';
import { expect, test } from 'vitest';
import { offsetsOf } from '../../../../services/core/alarms/duty/zone-offsets.js';
import { DAY_ms, HOUR_ms, MINUTE_ms } from '../../../../services/core/model/time.js';

const ZONES = [
  ...['Africa/Lusaka', 'Europe/Berlin', 'Africa/Casablanca', 'Australia/Lord_Howe', 'Africa/Cairo'],
  ...['Asia/Kathmandu', 'America/Havana', 'Pacific/Apia', 'America/St_Johns', 'Asia/Gaza'],
];
const asked = (zone: string, time: number): number => IANAZone.create(zone).offset(time) * MINUTE_ms;

test('at any time of thirty years', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...ZONES),
      fc.integer({ min: Date.parse('2000-01-01'), max: Date.parse('2030-01-01') }),
      (zone, time) => {
        expect(offsetsOf(zone)(time)).toBe(asked(zone, time));
      },
    ),
    { seed: 12, numRuns: 500 },
  );
});

test.each([
  ['Europe/Berlin', '2026-03-29T01:00:00Z'],
  ['Europe/Berlin', '2026-10-25T01:00:00Z'],
  ['Australia/Lord_Howe', '2026-04-04T15:00:00Z'],
  ['Africa/Casablanca', '2026-02-15T02:00:00Z'],
  ['Pacific/Apia', '2011-12-30T10:00:00Z'],
])('%s: to the millisecond at the change of %s, in any order', (zone, text) => {
  const change = Date.parse(text);
  const times = [change, change - 1, change + DAY_ms, change - HOUR_ms, change + 1];
  for (const time of times) expect(offsetsOf(zone)(time)).toBe(asked(zone, time));
  expect(offsetsOf(zone)(change - 1)).not.toBe(offsetsOf(zone)(change));
});

test('more days than are kept, and zones each their own', () => {
  const first = Date.parse('2001-01-01');
  for (let day = 0; day < 2500; day += 1) offsetsOf('Europe/Berlin')(first + day * DAY_ms);
  expect(offsetsOf('Europe/Berlin')(first)).toBe(HOUR_ms);
  expect(offsetsOf('Africa/Lusaka')(first)).toBe(2 * HOUR_ms);
});
