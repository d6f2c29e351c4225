/** From whoever does not answer to the next. */
import { describe, expect, test } from 'vitest';
import { planTelling } from '../../../../services/core/alarms/duty/plan.js';
import { ACKNOWLEDGED, aCheck, anUnpack, aPerson, aSite, clock, diary, live } from './a-site.js';

const escalation = [
  { to: 'ben', after_min: 30 },
  { to: 'cy', after_min: 60 },
];
const site = aSite({ alarms: [anUnpack('a1')], beds: [{ id: 'pit-a', keeper: 'ana', escalation }] });

test('each step begins so long after the one before was told, and names who has not answered', () => {
  const lived = live(site, clock('20:00'));
  expect(diary(lived)).toEqual([
    '01 10:00 ana sms single raised a1',
    '01 10:30 ben sms single raised a1',
    '01 11:30 cy sms single raised a1',
  ]);
  expect(lived.sent.map(({ unanswered }) => unanswered)).toEqual([[], ['ana'], ['ana', 'ben']]);
  expect(lived.sent.map(({ step }) => step)).toEqual([0, 1, 2]);
  expect(lived.sent.flatMap(({ unreached }) => unreached)).toEqual([]);
});

test("the site's escalation holds for beds without their own, and leaves out who was told", () => {
  const lived = live({ ...site, escalation, beds: [{ id: 'pit-a', keeper: 'ben' }] }, clock('20:00'));
  expect(diary(lived)).toEqual(['01 10:00 ben sms single raised a1', '01 11:00 cy sms single raised a1']);
});

test.each([
  ['an acknowledgement', { acknowledgement: ACKNOWLEDGED }],
  ['its end', { clearedAt: clock('10:20'), endKnown: true }],
])('%s stops it', (_, how) => {
  const told = live(site, clock('10:20')).input;
  const lived = live({ ...told, alarms: [anUnpack('a1', how)] }, clock('20:00'));
  expect(lived).toMatchObject({ sent: [], last: { nextAt: null } });
});

test('what is put off goes on from there', () => {
  const told = live(site, clock('10:20')).input;
  const off = { ...told, alarms: [anUnpack('a1', { shelvedUntil: clock('15:00') })] };
  expect(diary(live(off, clock('16:00')))).toEqual(['01 15:30 ben sms single raised a1']);
});

describe('whoever cannot be reached', () => {
  const people = [aPerson('ana', { reach: [] }), aPerson('ben'), aPerson('cy')];
  test('gives over at once, and is named', () => {
    const plan = planTelling({ ...site, people });
    expect(plan.tell.map(({ person, unreached, unanswered }) => [person, unreached, unanswered])).toEqual([
      ['ben', ['ana'], []],
    ]);
    expect(plan.unreachable).toEqual([]);
    expect(plan.nextAt).toBe(clock('11:00'));
  });
  test('in the middle gives over at once when their time comes', () => {
    const lived = live(
      { ...site, people: [aPerson('ana'), aPerson('ben', { reach: [] }), aPerson('cy')] },
      clock('20:00'),
    );
    expect(diary(lived)).toEqual(['01 10:00 ana sms single raised a1', '01 10:30 cy sms single raised a1']);
    expect(lived.sent[1]).toMatchObject({ step: 2, unanswered: ['ana'], unreached: ['ben'] });
  });
  test('is told as soon as they can be', () => {
    const { input } = live({ ...site, people }, clock('10:10'));
    const back = planTelling({ ...input, people: site.people });
    expect(back.tell.map(({ person }) => person)).toEqual(['ana']);
  });
  test('all of them: the alarm is named', () => {
    const none = ['ana', 'ben', 'cy'].map((id) => aPerson(id, { reach: [] }));
    expect(planTelling({ ...site, people: none })).toMatchObject({ tell: [], unreachable: ['a1'] });
  });
});

test('of a group in a step all are told of unpack', () => {
  const groups = [{ id: 'ridge', name: 'Ridge', lead: 'cy', members: ['ana', 'ben'] }];
  const beds = [{ id: 'pit-a', keeper: 'ana', escalation: [{ to: 'ridge', after_min: 30 }] }];
  expect(diary(live({ ...site, groups, beds }, clock('20:00')))).toEqual([
    '01 10:00 ana sms single raised a1',
    '01 10:30 ben sms single raised a1',
    '01 10:30 cy sms single raised a1',
  ]);
});

test('what can wait goes on too, but wakes nobody; what asks for nothing does not', () => {
  const alarms = [aCheck('c1'), aCheck('n1', { action: 'none', kind: 'condensation' })];
  expect(diary(live({ ...site, alarms }, clock('12:00', 6)))).toEqual([
    '02 06:30 ana sms bundle raised c1,n1',
    '03 06:30 ben sms single raised c1',
    '04 06:30 cy sms single raised c1',
  ]);
});

test('all who were told are told of its end', () => {
  const { input } = live(site, clock('10:45'));
  const over = { ...input, alarms: [anUnpack('a1', { clearedAt: clock('10:45') })] };
  expect(diary(live(over, clock('20:00')))).toEqual([
    '01 10:45 ana sms single cleared a1',
    '01 10:45 ben sms single cleared a1',
  ]);
});
