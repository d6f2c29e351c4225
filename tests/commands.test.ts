import { describe, expect, test } from 'vitest';
import { readNumber, readWhole } from '../services/commands/numbers.js';
import { seasonStart } from '../services/commands/season-start.js';
import { describeSummary, type Planted, summarise } from '../services/commands/season-summary.js';
import { simulate } from '../services/commands/simulate.js';
import type { Alarm } from '../services/core/model/alarm.js';
import { DAY_ms } from '../services/core/model/time.js';

describe('the start of a season', () => {
  const now = Date.UTC(2026, 10, 25, 9, 4, 43, 217);

  test.each([
    ['Africa/Lusaka', '2026-11-14T22:00:00.000Z'], // UTC+2 all year
    ['Asia/Kathmandu', '2026-11-14T18:15:00.000Z'], // UTC+5:45
    ['UTC', '2026-11-15T00:00:00.000Z'],
  ])('in %s is a local midnight: %s', (timezone, start) => {
    expect(new Date(seasonStart(now, 10, timezone)).toISOString()).toBe(start);
  });

  test('is early enough for the season to be over', () => {
    for (const hour of [0, 1, 13, 23]) {
      const time = Date.UTC(2026, 5, 1, hour, 30);
      expect(seasonStart(time, 30, 'Africa/Lusaka') + 30 * DAY_ms).toBeLessThanOrEqual(time);
    }
  });
});

describe('numbers on the command line', () => {
  test.each(['', ' ', 'x', 'NaN', '1e999', '-1', '11'])(
    '%j is refused with the flag and the range',
    (text) => {
      expect(() => readNumber('--speed', text, 0, 10)).toThrow(
        /^--speed: expected a number from 0 to 10, got/,
      );
    },
  );
  test('nothing but a number above 0 is said so, not by the least that a computer knows', () => {
    expect(() => readNumber('--sd', '0', Number.MIN_VALUE, 10)).toThrow(
      '--sd: expected a number above 0, up to 10, got "0"',
    );
  });
  test('a whole number may not be broken', () => {
    expect(() => readWhole('--seed', '1.5', 0, 10)).toThrow(/expected a whole number/);
    expect(readWhole('--seed', '7', 0, 10)).toBe(7);
  });
});

test('a site file that cannot be written is one sentence', async () => {
  const flags = { broker: 'mqtt://127.0.0.1:1', seed: '1', siteOut: '/nowhere/site.json' };
  await expect(simulate('sound-box', flags)).rejects.toMatchObject({
    code: 'WRONG_USAGE',
    message: expect.stringMatching(
      /^--site-out: expected a file that can be written at .*site\.json, got a folder that is not there$/,
    ),
  });
});

describe('what was planted beside what was found', () => {
  const alarm = (
    bed: string,
    kind: Alarm['kind'],
    day: number,
    action: Alarm['action'] = 'unpack',
  ): Alarm => ({
    id: `${bed}.${day}`,
    site: 's',
    bed,
    kind,
    action,
    subject: '',
    priority: 'high',
    state: 'unacknowledged',
    raisedAt: day * DAY_ms,
    clearedAt: null,
    evidence: {},
    place: null,
    text: '',
    acknowledgement: null,
  });
  const planted: Planted[] = [
    { bed: 'pit-b', kind: 'rot', startsAt: 20 * DAY_ms },
    { bed: 'pit-c', kind: 'leak', startsAt: 30 * DAY_ms },
  ];
  const beds = ['pit-a', 'pit-b', 'pit-c'];

  test('counts days to the next look by hand, every second week from the filling', () => {
    const { found } = summarise(planted, beds, 0, [
      alarm('pit-b', 'heating', 25),
      alarm('pit-c', 'damp', 45),
    ]);
    expect(found.map(({ nextLookAt, soonerBy_days }) => [nextLookAt / DAY_ms, soonerBy_days])).toEqual([
      [28, 3],
      [42, -3],
    ]);
  });

  test('an alarm before the onset, of another kind, or that asks for less does not count as found', () => {
    const alarms = [
      alarm('pit-b', 'heating', 19),
      alarm('pit-b', 'damp', 25),
      alarm('pit-b', 'heating', 25, 'check'),
    ];
    const { found, falseUnpack } = summarise(planted, beds, 0, alarms);
    expect(found[0]?.alarm).toBeNull();
    expect(falseUnpack.map(({ id }) => id)).toEqual(['pit-b.19']);
  });

  test('is told in lines, failures loudest', () => {
    const summary = summarise(planted, beds, 0, [alarm('pit-a', 'heating', 50), alarm('pit-c', 'damp', 33)]);
    expect(describeSummary(summary, 0, (bed) => bed.toUpperCase())).toEqual([
      'PIT-B: rot began on day 20.0; NOT FOUND by the watch',
      'PIT-C: a leak began on day 30.0; "unpack" on day 33.0, 9.0 days sooner than the next two-weekly look (day 42.0)',
      'PIT-A: sound all season; 1 FALSE call to unpack',
    ]);
  });
});
