import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { MappedTime } from '../../../services/tables/import/mapping.js';
import { timeReader } from '../../../services/tables/import/read-time.js';
import { luxonReader, numericReader, patternProblem } from '../../../services/tables/import/time-pattern.js';

const LATEST = Date.UTC(2027, 0, 1);

const mapped = (rest: Partial<MappedTime>): MappedTime => ({
  ...{ column: ['Time'], format: 'iso', repeated: 'refuse', skipped: 'refuse', ...rest },
});

/** The instant as text, or the reason. */
function read(rest: Partial<MappedTime>, text: string): string {
  const at = timeReader(mapped(rest), LATEST)(text);
  return typeof at === 'number' ? new Date(at).toISOString() : at.reason;
}

const LUSAKA = { zone: 'Africa/Lusaka' };

describe('a time is read as the mapping says', () => {
  test.each([
    [{}, '2026-05-04T08:00:00Z', '2026-05-04T08:00:00.000Z'],
    [{}, '2026-05-04 10:00:30.57+02:00', '2026-05-04T08:00:30.570Z'],
    [{}, '2026-05-04T10:00+02', '2026-05-04T08:00:00.000Z'],
    [{}, '2026-05-04T03:30-0430', '2026-05-04T08:00:00.000Z'],
    [LUSAKA, '2026-05-04 10:00', '2026-05-04T08:00:00.000Z'],
    [{ zone: '+02:00' }, '2026-05-04 10:00', '2026-05-04T08:00:00.000Z'],
    [{ zone: '-04:30' }, '2026-05-04 03:30', '2026-05-04T08:00:00.000Z'],
    [{ format: 'epoch-s' }, '1777881600', '2026-05-04T08:00:00.000Z'],
    [{ format: 'epoch-s' }, '1777881600.5', '2026-05-04T08:00:00.500Z'],
    [{ format: 'epoch-ms' }, '1777881600123', '2026-05-04T08:00:00.123Z'],
    [{ format: 'dd/MM/yyyy HH:mm', ...LUSAKA }, '04/05/2026 10:00', '2026-05-04T08:00:00.000Z'],
    [{ format: 'MM/dd/yyyy HH:mm', ...LUSAKA }, '04/05/2026 10:00', '2026-04-05T08:00:00.000Z'],
    [{ format: 'M/d/yy h:mm:ss a', ...LUSAKA }, '5/4/26 10:00:05 PM', '2026-05-04T20:00:05.000Z'],
    [{ format: "d. MMM yyyy 'at' HH.mm", ...LUSAKA }, '4. May 2026 at 10.00', '2026-05-04T08:00:00.000Z'],
    [{ format: 'yyyyMMddHHmmss', ...LUSAKA }, '20260504100000', '2026-05-04T08:00:00.000Z'],
    [{ format: 'dd.MM.yyyy HH:mm', ...LUSAKA }, '03.05.2026 24:00', '2026-05-03T22:00:00.000Z'],
    [{ format: 'yyyy-MM-dd HH:mm ZZ' }, '2026-05-04 10:00 +02:00', '2026-05-04T08:00:00.000Z'],
  ])('%o of %s is %s', (rest, text, instant) => {
    expect(read(rest, text)).toBe(instant);
  });

  test.each([
    [{}, '2026-05-04T10:00', 'time-without-zone'],
    ...[
      '',
      '2026-02-30T10:00Z',
      '2026-05-04T25:00Z',
      '2026-05-04T10:60Z',
      '04/05/2026',
      '2026-05-04',
      '1777881600',
    ].map((text) => [{}, text, 'time-unreadable'] as const),
    [{}, '2026-05-04T10:00+24:00', 'time-unreadable'],
    [{}, '1999-12-31T23:59:59Z', 'time-too-early'],
    [{}, '2027-01-01T00:00:01Z', 'time-in-future'],
    [{ format: 'epoch-s' }, '', 'time-unreadable'],
    [{ format: 'epoch-s' }, '1e9', 'time-unreadable'],
    [{ format: 'epoch-s' }, '1777881600123', 'time-in-future'],
    [{ format: 'epoch-ms' }, '1777881600', 'time-too-early'],
    [{ format: 'dd/MM/yyyy HH:mm', ...LUSAKA }, '05/13/2026 10:00', 'time-unreadable'],
    [{ format: 'dd/MM/yyyy HH:mm', ...LUSAKA }, '30/02/2026 10:00', 'time-unreadable'],
    [{ format: 'dd/MM/yyyy HH:mm', ...LUSAKA }, '4/5/2026 10:00', 'time-unreadable'],
    [{ format: 'dd/MM/yyyy HH:mm', ...LUSAKA }, '04/05/2026 24:01', 'time-unreadable'],
  ] as const)('%o of %s is refused as %s', (rest, text, reason) => {
    expect(read(rest, text)).toBe(reason);
  });

  test('what was read is not taken for what comes next', () => {
    const reader = timeReader(mapped({}), LATEST);
    expect(reader('2026-05-04T08:00:00Z')).toBe(Date.UTC(2026, 4, 4, 8));
    expect(reader('nonsense')).toMatchObject({ reason: 'time-unreadable' });
    expect(reader('2026-05-04T08:00:00Z')).toBe(Date.UTC(2026, 4, 4, 8));
  });
});

// Clocks of Europe/Lisbon: set back on 2025-10-26 at 01:00 UTC, forward on 2026-03-29 at 01:00 UTC [IANA tzdata].
describe('when the clocks change', () => {
  const zone = 'Europe/Lisbon';

  test.each([
    [{}, '2025-10-26 00:59', '2025-10-25T23:59:00.000Z'],
    [{}, '2025-10-26 01:00', 'time-repeated'],
    [{}, '2025-10-26 01:59', 'time-repeated'],
    [{}, '2025-10-26 02:00', '2025-10-26T02:00:00.000Z'],
    [{ repeated: 'earlier' }, '2025-10-26 01:30', '2025-10-26T00:30:00.000Z'],
    [{ repeated: 'later' }, '2025-10-26 01:30', '2025-10-26T01:30:00.000Z'],
    [{}, '2026-03-29 00:59', '2026-03-29T00:59:00.000Z'],
    [{}, '2026-03-29 01:00', 'time-skipped'],
    [{}, '2026-03-29 01:59', 'time-skipped'],
    [{}, '2026-03-29 02:00', '2026-03-29T01:00:00.000Z'],
    [{ skipped: 'before' }, '2026-03-29 01:30', '2026-03-29T01:30:00.000Z'],
    [{ skipped: 'after' }, '2026-03-29 01:30', '2026-03-29T00:30:00.000Z'],
  ] as const)('%o: %s is %s', (rest, text, outcome) => {
    expect(read({ zone, ...rest }, text)).toBe(outcome);
  });

  test('a refused time names both instants, or that there was none', () => {
    const reader = timeReader(mapped({ zone }), LATEST);
    expect(reader('2025-10-26 01:30')).toMatchObject({
      detail: expect.stringContaining('which is 2025-10-26T00:30:00Z and 2025-10-26T01:30:00Z'),
    });
    expect(reader('2026-03-29 01:30')).toMatchObject({ detail: expect.stringContaining('left out') });
  });

  test('an instant goes out by the runtime and comes back by the clock, in zones of all kinds', () => {
    const zones = [
      'Africa/Lusaka',
      'Europe/Lisbon',
      'America/St_Johns',
      'Pacific/Chatham',
      'Africa/Casablanca',
      'Pacific/Apia',
    ];
    fc.assert(
      fc.property(
        fc.constantFrom(...zones),
        fc.integer({ min: Date.UTC(2001, 0, 1) / 60_000, max: Date.UTC(2026, 0, 1) / 60_000 }),
        (name, minute) => {
          const at = minute * 60_000;
          const text = new Date(at).toLocaleString('sv', { timeZone: name });
          const found = [{ repeated: 'earlier' }, { repeated: 'later' }] as const;
          expect(found.map((rest) => timeReader(mapped({ zone: name, ...rest }), LATEST)(text))).toContain(
            at,
          );
        },
      ),
      { seed: 11, numRuns: 300 },
    );
  });
});

describe('a pattern', () => {
  test.each([
    ['D', 'format', 'expected iso, epoch-s'],
    ['dd/MM/yyyy', 'format', 'says year, month, day, hour and minute'],
    ['dd/MM/yyyy hh:mm', 'format', 'by which 2001-02-03 16:56 is not itself'],
    ['dd/MM HH:mm', 'format', 'says year'],
    ['yyyy-MM-dd HH:mm', 'zone', 'expected a time zone'],
  ] as const)('%s is refused for its %s', (pattern, of, message) => {
    expect(patternProblem(pattern, false)).toEqual({ of, message: expect.stringContaining(message) });
  });

  const PLAIN = [
    'dd.MM.yyyy HH:mm',
    'd/M/yyyy H:m:s',
    'yyyy-MM-dd HH:mm:ss.SSS',
    'yyyyMMddHHmm',
    'MM-dd-yyyy HH:mm',
  ];

  test.each(PLAIN)('%s is read as luxon reads it', (pattern) => {
    const [quick, slow] = [numericReader(pattern), luxonReader(pattern)];
    const text = fc.oneof(
      fc.stringMatching(/^[0-9]{1,2}[./][0-9]{1,2}[./][0-9]{4} [0-9]{1,2}:[0-9]{1,2}(:[0-9]{1,2})?$/),
      fc.stringMatching(/^[12][0-9]{3}-[01][0-9]-[0-3][0-9] [0-2][0-9]:[0-6][0-9]:[0-6][0-9]\.[0-9]{3}$/),
      fc.stringMatching(/^20[0-9]{2}[01][0-9][0-3][0-9][0-2][0-9][0-5][0-9]$/),
      fc.stringMatching(/^[01][0-9]-[0-3][0-9]-20[0-9]{2} [0-2][0-9]:[0-5][0-9]$/),
    );
    fc.assert(
      fc.property(text, (one) => {
        expect(quick?.(one)).toEqual(slow(one));
      }),
      { seed: 5, numRuns: 400 },
    );
  });

  test('one with words or an offset is left to luxon', () => {
    for (const pattern of ['d MMM yyyy HH:mm', 'yyyy-MM-dd HH:mm ZZ', 'hh:mm a dd/MM/yyyy', 'dd/MM/yy HH:mm'])
      expect(numericReader(pattern)).toBeUndefined();
  });
});
