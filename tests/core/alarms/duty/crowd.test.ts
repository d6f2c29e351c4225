/** Many alarms: the most of a day, and storms. */
import { describe, expect, test } from 'vitest';
import { planTelling } from '../../../../services/core/alarms/duty/plan.js';
import type { AlarmToTell, TellingInput } from '../../../../services/core/alarms/duty/types.js';
import { tellingInForce } from '../../../../services/core/model/telling-defaults.js';
import { anUnpack, aSite, clock, inShort, live } from './a-site.js';

/** Nothing is a storm. */
const CALM = tellingInForce({ most_per_bed_a_day: 3, storm: { alarms: 1000, within_min: 1 } });

/** Lives through alarms that become known at their raising. */
function through(alarms: readonly AlarmToTell[], otherwise: Partial<TellingInput>, until: number): string[] {
  let input = aSite({ ...otherwise, alarms: [] });
  const told: string[] = [];
  const times = [...new Set(alarms.map(({ raisedAt }) => raisedAt))];
  times.forEach((now, index) => {
    const known = alarms.filter(({ raisedAt }) => raisedAt <= now);
    const lived = live({ ...input, now, alarms: known }, (times[index + 1] ?? until + 1) - 1);
    told.push(
      ...lived.sent.map((message) => `${message.form}${message.closing ? '!' : ''} ${message.alarms.join()}`),
    );
    input = lived.input;
  });
  return told;
}

const every = (minutes: number, count: number, otherwise = {}): AlarmToTell[] =>
  Array.from({ length: count }, (_, at) =>
    anUnpack(`a${at + 1}`, { raisedAt: clock('10:00') + at * minutes * 60_000, ...otherwise }),
  );

describe('the most of a day', () => {
  /** Each is over a minute after it began: two messages each, of which the second can wait. */
  const overSoon = (count: number): { readonly input: TellingInput; readonly told: string[] } => {
    let input = aSite({ settings: CALM });
    const told: string[] = [];
    for (let at = 0; at < count; at += 1) {
      const raisedAt = clock('10:00') + at * 600_000;
      for (const clearedAt of [null, raisedAt + 60_000]) {
        const alarm = anUnpack(`a${at}`, { raisedAt, clearedAt });
        const alarms = [...input.alarms.filter(({ id }) => id !== alarm.id), alarm];
        const plan = planTelling({ ...input, now: clearedAt ?? raisedAt, alarms });
        told.push(...plan.tell.map(({ form, event, closing }) => `${form}${closing ? '!' : ''} ${event}`));
        input = { ...input, now: clearedAt ?? raisedAt, alarms, told: [...input.told, ...plan.record] };
      }
    }
    return { input, told };
  };
  test('the last is a summary, and after it only a new unpack is told', () => {
    expect(overSoon(4).told).toEqual([
      'single raised',
      'single cleared',
      'single raised',
      'summary! cleared',
      'single raised',
      'single raised',
    ]);
  });
  test('what had no place is told the next day, outside quiet hours', () => {
    const lived = live({ ...overSoon(4).input, now: clock('12:00') }, clock('12:00', 2));
    expect(lived.sent.map(({ form, event, at }) => [form, event, at])).toEqual([
      ['bundle', 'cleared', clock('06:00', 2)],
    ]);
  });
  test('it is counted for each bed and each person', () => {
    const input = overSoon(3).input;
    const alarms = [...input.alarms, anUnpack('b1', { bed: 'pit-b' })];
    const plan = planTelling({ ...input, now: clock('12:00'), alarms });
    expect(inShort(plan)).toEqual(['ben sms single raised b1']);
    const beds = [
      { id: 'pit-a', keeper: 'ben' },
      { id: 'pit-b', keeper: 'ben' },
    ];
    const fresh = planTelling({ ...input, beds, now: clock('12:00'), alarms });
    expect(inShort(fresh)).toEqual(['ben sms single raised b1']);
  });
  test('what did not arrive is not counted', () => {
    const { input } = overSoon(4);
    const told = input.told.map((record) => ({ ...record, delivered: record.event === 'raised' }));
    const day = planTelling({
      ...input,
      told: told.filter(({ alarm }) => alarm === 'a0'),
      now: clock('12:00'),
      alarms: input.alarms,
    });
    expect(day.tell.map(({ event, via }) => [event, via])).toEqual([['cleared', 'email']]);
  });
});

describe('a storm', () => {
  test('all at once becomes one summary to each person', () => {
    const alarms = [
      ...every(0, 5),
      ...every(0, 5).map((alarm, at) => ({ ...alarm, id: `b${at}`, bed: 'pit-b' })),
    ];
    expect(inShort(planTelling(aSite({ alarms })))).toEqual([
      'ana sms summary raised a1,a2,a3,a4,a5',
      'ben sms summary raised b0,b1,b2,b3,b4',
    ]);
  });
  test('four are no storm', () => {
    expect(inShort(planTelling(aSite({ alarms: every(0, 4) })))).toHaveLength(4);
  });
  test('the fifth within the hour begins it; the next summary comes an hour later', () => {
    expect(through(every(5, 12), {}, clock('19:00'))).toEqual([
      'single a1',
      'single a2',
      'single a3',
      'single a4',
      'summary a5',
      'summary a12,a11,a10,a9,a8,a7,a6',
    ]);
  });
  test('what is spread over hours is none', () => {
    expect(through(every(30, 4), {}, clock('13:00')).every((line) => line.startsWith('single'))).toBe(true);
  });
  test('late readings that tell of many days at once are one', () => {
    const alarms = every(24 * 60, 6, { knownAt: clock('10:00', 9) });
    const plan = planTelling(aSite({ alarms, now: clock('10:00', 9) }));
    expect(plan.tell.map(({ form }) => form)).toEqual(['summary']);
  });
});
