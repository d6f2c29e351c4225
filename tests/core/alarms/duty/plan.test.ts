/** Who is told what, and when: quiet hours, mornings, ends, repeats, dead ways. */
import { describe, expect, test } from 'vitest';
import { planTelling } from '../../../../services/core/alarms/duty/plan.js';
import { tellingInForce } from '../../../../services/core/model/telling-defaults.js';
import { ACKNOWLEDGED, aCheck, anUnpack, aPerson, aSite, clock, diary, inShort, live } from './a-site.js';

describe('when', () => {
  test('an unpack is told at once, at night too', () => {
    const night = { now: clock('23:00'), alarms: [anUnpack('a1', { raisedAt: clock('23:00') })] };
    expect(inShort(planTelling(aSite(night)))).toEqual(['ana sms single raised a1']);
  });
  test('the rest waits for the morning and comes in one message, the graver first', () => {
    const alarms = [
      aCheck('c1', { raisedAt: clock('11:00') }),
      aCheck('c2', { raisedAt: clock('15:00'), priority: 'low' }),
      aCheck('s1', { raisedAt: clock('23:00'), action: 'service', kind: 'probe-fault' }),
    ];
    const now = clock('23:00');
    expect(planTelling(aSite({ now, alarms }))).toMatchObject({ tell: [], nextAt: clock('06:30', 2) });
    expect(diary(live(aSite({ now, alarms }), clock('12:00', 2)))).toEqual([
      '02 06:30 ana sms bundle raised c1,c2,s1',
    ]);
  });
  test('one that waits alone is told as itself', () => {
    expect(diary(live(aSite({ alarms: [aCheck('c1')] }), clock('12:00', 2)))).toEqual([
      '02 06:30 ana sms single raised c1',
    ]);
  });
  test('a morning that was missed is made up for by day, not in quiet hours', () => {
    const alarms = [aCheck('c1')];
    const day = planTelling(aSite({ alarms, now: clock('11:00', 2) }));
    expect(inShort(day)).toEqual(['ana sms single raised c1']);
    const night = planTelling(aSite({ alarms, now: clock('20:00', 2) }));
    expect(night).toMatchObject({ tell: [], nextAt: clock('06:30', 3) });
  });
  test('what becomes known after the message of the morning waits for the next', () => {
    const { input } = live(aSite({ alarms: [aCheck('c1')] }), clock('12:00', 2));
    const late = aCheck('c2', { raisedAt: clock('04:00', 2) });
    const plan = planTelling({ ...input, alarms: [...input.alarms, late] });
    expect(plan).toMatchObject({ tell: [], nextAt: clock('06:30', 3) });
  });
  test("the site's clock decides, whatever the zone", () => {
    const timeZone = 'Asia/Kathmandu';
    const alarms = [aCheck('c1', { raisedAt: Date.parse('2026-06-01T12:00:00Z') })];
    const plan = planTelling(aSite({ timeZone, alarms, now: Date.parse('2026-06-01T12:00:00Z') }));
    expect(plan.nextAt).toBe(Date.parse('2026-06-02T00:45:00Z')); // 06:30 +05:45
  });
});

describe('who', () => {
  const ridge = { id: 'ridge', name: 'Ridge', lead: 'ben', members: ['ana', 'cy'] };
  const beds = [{ id: 'pit-a', keeper: 'ridge' }];
  test('of a group all are told of unpack, the lead alone of the rest', () => {
    const site = aSite({ beds, groups: [ridge], alarms: [anUnpack('a1'), aCheck('c1')] });
    expect(diary(live(site, clock('07:00', 2)))).toEqual([
      '01 10:00 ana sms single raised a1',
      '01 10:00 ben sms single raised a1',
      '01 10:00 cy sms single raised a1',
      '02 06:30 ben sms single raised c1',
    ]);
  });
  test('whoever follows the bed is told too, and who leads the site of unpack', () => {
    const people = [aPerson('ana'), aPerson('ben', { beds: ['pit-a'] }), aPerson('cy', { lead: true })];
    const site = aSite({ people, alarms: [anUnpack('a1'), aCheck('c1')] });
    expect(diary(live(site, clock('07:00', 2))).map((line) => line.slice(9))).toEqual([
      'ana sms single raised a1',
      'ben sms single raised a1',
      'cy sms single raised a1',
      'ana sms single raised c1',
      'ben sms single raised c1',
    ]);
  });
  test('whoever wants some kinds alone is told of no other', () => {
    const people = [aPerson('ana', { kinds: ['damp'] })];
    const site = aSite({ people, alarms: [anUnpack('a1'), aCheck('c1')] });
    expect(diary(live(site, clock('07:00', 2)))).toEqual(['02 06:30 ana sms single raised c1']);
  });
  test('a bed without a keeper tells nobody, and that is nobody out of reach', () => {
    const plan = planTelling(aSite({ beds: [{ id: 'pit-a' }], alarms: [anUnpack('a1')] }));
    expect(plan).toEqual({ tell: [], record: [], unreachable: [], nextAt: null });
  });
  test('an alarm of a bed that is not there reaches nobody', () => {
    const plan = planTelling(aSite({ alarms: [anUnpack('a1', { bed: 'pit-z' })] }));
    expect(plan.unreachable).toEqual(['a1']);
  });
});

describe('the end', () => {
  const told = live(aSite({ alarms: [anUnpack('a1')] }), clock('12:00')).input;
  const over = { clearedAt: clock('12:00') };
  test.each([
    ['cleared', {}],
    ['withdrawn', { withdrawn: true }],
  ])('%s is told once, to whoever was told it began', (event, how) => {
    const lived = live({ ...told, alarms: [anUnpack('a1', { ...over, ...how })] }, clock('12:00', 9));
    expect(diary(lived)).toEqual([`01 12:00 ana sms single ${event} a1`]);
    expect(lived.last.nextAt).toBeNull();
  });
  test('it wakes nobody', () => {
    const now = clock('02:00', 2);
    const alarms = [anUnpack('a1', { clearedAt: now }), anUnpack('a2', { clearedAt: now })];
    const both = live(aSite({ alarms: [anUnpack('a1'), anUnpack('a2')] }), now).input;
    expect(diary(live({ ...both, now, alarms }, clock('12:00', 2)))).toEqual([
      '02 06:00 ana sms bundle cleared a1,a2',
    ]);
  });
  test('that of a check waits for the morning', () => {
    const { input } = live(aSite({ alarms: [aCheck('c1')] }), clock('10:00', 2));
    const alarms = [aCheck('c1', { clearedAt: clock('10:00', 2) })];
    expect(diary(live({ ...input, alarms }, clock('12:00', 4)))).toEqual([
      '03 06:30 ana sms single cleared c1',
    ]);
  });
  test.each([
    ['who was told nothing', aSite({ now: clock('12:00'), alarms: [anUnpack('a1', over)] })],
    ['who opened the bed', { ...told, alarms: [anUnpack('a1', { ...over, endKnown: true })] }],
  ])('is not told to whoever knows of none: %s', (_, input) => {
    expect(planTelling(input).tell).toEqual([]);
  });
  test('a check that is over by the morning is not told at all', () => {
    const alarms = [aCheck('c1', { clearedAt: clock('03:00', 2) })];
    expect(planTelling(aSite({ alarms, now: clock('06:30', 2) })).tell).toEqual([]);
  });
  test('one that is back after its end is told anew', () => {
    const ended = live({ ...told, alarms: [anUnpack('a1', over)] }, clock('13:00')).input;
    const back = planTelling({ ...ended, alarms: [anUnpack('a1')] });
    expect(inShort(back)).toEqual(['ana sms single raised a1']);
  });
  test('one that takes the place of another is not told as new', () => {
    const alarms = [anUnpack('b1', { formerly: ['a1'] })];
    expect(planTelling({ ...told, alarms }).tell).toEqual([]);
    const end = planTelling({ ...told, alarms: [anUnpack('b1', { formerly: ['a1'], ...over })] });
    expect(inShort(end)).toEqual(['ana sms single cleared b1']);
  });
});

describe('where to dig instead', () => {
  const told = live(aSite({ alarms: [anUnpack('a1')] }), clock('12:00')).input;
  const moved = (text: string, otherwise = {}) => anUnpack('a1', { movedAt: clock(text), ...otherwise });
  test('is told once', () => {
    const lived = live({ ...told, alarms: [moved('12:00')] }, clock('20:00'));
    expect(diary(lived)).toEqual(['01 12:00 ana sms single refined a1']);
    const again = planTelling({ ...lived.input, alarms: [moved('19:00')] });
    expect(again.tell).toEqual([]);
  });
  test.each([
    ['whoever was told after it was known', moved('09:00')],
    ['whoever has acknowledged', moved('12:00', { acknowledgement: ACKNOWLEDGED })],
    ['an alarm that is over and known to be', moved('12:00', { clearedAt: clock('11:30'), endKnown: true })],
  ])('is not told to %s', (_, alarm) => {
    expect(planTelling({ ...told, alarms: [alarm] }).tell).toEqual([]);
  });
  test('is not told before it is known', () => {
    expect(planTelling({ ...told, alarms: [moved('13:00')] })).toMatchObject({
      tell: [],
      nextAt: clock('13:00'),
    });
  });
});

describe('an unpack that nobody acknowledges', () => {
  test('is told again each day, and given up after a week', () => {
    const days = live(aSite({ alarms: [anUnpack('a1')] }), clock('12:00', 20));
    expect(diary(days)).toHaveLength(7);
    expect(days.sent.map((message) => message.at)).toEqual(
      [1, 2, 3, 4, 5, 6, 7].map((day) => clock('10:00', day)),
    );
    expect(days.last.nextAt).toBeNull();
  });
  test('does not ask to be planned again for what will be given up by then', () => {
    const { input } = live(aSite({ alarms: [anUnpack('a1')] }), clock('09:00', 7));
    expect(planTelling({ ...input, now: clock('10:00', 7) })).toMatchObject({
      tell: [{ person: 'ana' }],
      nextAt: null,
    });
  });
  test('is not told again once acknowledged, nor as long as it is put off', () => {
    const { input } = live(aSite({ alarms: [anUnpack('a1')] }), clock('12:00'));
    const now = clock('11:00', 2);
    const seen = anUnpack('a1', { acknowledgement: ACKNOWLEDGED });
    expect(planTelling({ ...input, now, alarms: [seen] })).toMatchObject({ tell: [], nextAt: null });
    const later = anUnpack('a1', { shelvedUntil: clock('15:00', 2) });
    expect(diary(live({ ...input, now, alarms: [later] }, clock('20:00', 2)))).toEqual([
      '02 15:00 ana sms single raised a1',
    ]);
  });
  test('a check is told once', () => {
    expect(diary(live(aSite({ alarms: [aCheck('c1')] }), clock('12:00', 20)))).toHaveLength(1);
  });
});

describe('ways', () => {
  const [ana] = aSite().people;
  const [sms, email] = ana?.reach ?? [];
  const alarms = [anUnpack('a1')];
  test('a dead way gives over to the next', () => {
    expect(inShort(planTelling(aSite({ alarms, deadWays: sms ? [sms] : [] })))).toEqual([
      'ana email single raised a1',
    ]);
  });
  test('what waits on a way that has died is told by the next, what has arrived is not', () => {
    const { record } = planTelling(aSite({ alarms }));
    const deadWays = sms ? [sms] : [];
    expect(inShort(planTelling(aSite({ alarms, told: record, deadWays })))).toEqual([
      'ana email single raised a1',
    ]);
    const arrived = record.map((one) => ({ ...one, delivered: true }));
    expect(planTelling(aSite({ alarms, told: arrived, deadWays })).tell).toEqual([]);
  });
  test('what a way has given up is told by the next, and by the first again after a day', () => {
    const lived = live(aSite({ alarms }), clock('09:00', 2), () => false);
    expect(diary(lived)).toEqual([
      '01 10:00 ana sms single raised a1',
      '01 10:00 ana email single raised a1',
    ]);
    expect(lived.last).toMatchObject({ unreachable: ['a1'], nextAt: clock('10:00', 2) });
    expect(inShort(planTelling({ ...lived.input, now: clock('10:00', 2) }))).toEqual([
      'ana sms single raised a1',
    ]);
  });
  test('where nobody can be reached, the alarm is named', () => {
    const plan = planTelling(aSite({ alarms, deadWays: sms && email ? [email, sms] : [] }));
    expect(plan).toEqual({ tell: [], record: [], unreachable: ['a1'], nextAt: null });
    const none = aSite({ alarms, people: [aPerson('ana', { reach: [] })] });
    expect(planTelling(none).unreachable).toEqual(['a1']);
  });
  test('whoever only sleeps can be reached', () => {
    expect(planTelling(aSite({ alarms: [aCheck('c1')], now: clock('23:00') })).unreachable).toEqual([]);
  });
});

describe('cautions', () => {
  const season = (filled: number) => [{ id: 'pit-a', keeper: 'ana', filled }];
  test('go with the first unpack of a season to a person', () => {
    const first = live(
      aSite({ beds: season(clock('08:00', -20)), alarms: [anUnpack('a1')] }),
      clock('12:00'),
    );
    expect(first.sent.map(({ caution }) => caution)).toEqual([true]);
    const second = planTelling({ ...first.input, alarms: [anUnpack('a1'), anUnpack('a2')] });
    expect(second.tell.map(({ caution }) => caution)).toEqual([false]);
    const refilled = { ...first.input, beds: season(clock('11:00')), alarms: [anUnpack('a2')] };
    expect(planTelling(refilled).tell.map(({ caution }) => caution)).toEqual([true]);
  });
  test('go with one of two, and not with a check', () => {
    const plan = planTelling(aSite({ alarms: [anUnpack('a1'), anUnpack('a2')] }));
    expect(plan.tell.map(({ caution }) => caution)).toEqual([true, false]);
    expect(live(aSite({ alarms: [aCheck('c1')] }), clock('12:00', 2)).sent[0]?.caution).toBe(false);
  });
  test('go again where the first did not arrive', () => {
    const { sent } = live(aSite({ alarms: [anUnpack('a1')] }), clock('11:00'), () => false);
    expect(sent.map(({ caution }) => caution)).toEqual([true, true]);
  });
});

describe('what is refused', () => {
  const twice = [anUnpack('a1'), anUnpack('a1')];
  test.each([
    ['a time that is none', { now: Number.NaN }, /now, ms must be in/],
    ['a time in seconds', { now: clock('10:00') / 1000 }, /now, ms must be in/],
    ['a zone that is none', { timeZone: 'Ridge/Station' }, /time zone: expected an IANA name/],
    ['an alarm twice', { alarms: twice }, /alarms: expected each id once/],
    ['a person twice', { people: [aPerson('ana'), aPerson('ana')] }, /people: expected each id once/],
    ['an alarm of no time', { alarms: [aCheck('c1', { raisedAt: Number.NaN })] }, /time, ms must be in/],
    [
      'a morning that is none',
      { alarms: [aCheck('c1')], settings: tellingInForce({ morning: 'noon' }) },
      /morning, minutes of the day/,
    ],
  ])('%s', (_, otherwise, told) => {
    expect(() => planTelling(aSite(otherwise))).toThrow(told);
  });
});
