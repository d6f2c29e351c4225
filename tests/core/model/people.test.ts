/** Whom to tell: what is taken, and what each kind of mistake is told. */
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { minutesOfClock } from '../../../services/core/model/clock-time.js';
import {
  bedTellingShape,
  groupSchema,
  personTellingShape,
  quietSchema,
  reachSchema,
  siteTellingShape,
} from '../../../services/core/model/people.js';
import { type DescribedPeople, peopleProblems } from '../../../services/core/model/people-problems.js';
import { describeIssue } from '../../../services/core/model/problem.js';
import { TELLING, tellingInForce } from '../../../services/core/model/telling-defaults.js';

const person = z.strictObject(personTellingShape);
const site = z.strictObject(siteTellingShape);
const bed = z.strictObject(bedTellingShape);

function refusal(schema: z.ZodType, value: unknown): string {
  const parsed = schema.safeParse(value, { reportInput: true });
  return parsed.success ? 'taken' : parsed.error.issues.map(describeIssue).join('; ');
}

describe('where to reach somebody', () => {
  test.each([
    ['sms', '+260970000000'],
    ['sms', '+1234567'],
    ['sms', '+123456789012345'],
    ['email', 'keeper@example.org'],
    ['email', 'keeper.of-pit+a@pits.example.org'],
    ['webhook', 'http://127.0.0.1:9000/hook'],
    ['console', 'console'],
  ])('%s %s is taken', (via, to) => {
    expect(refusal(reachSchema, { via, to })).toBe('taken');
  });
  test.each([
    '0970000000',
    '+0970000000',
    '+123456',
    '+1234567890123456',
    '+260 970 000 000',
    '+26097000000a',
    '00260970000000',
    '+260970000000\n',
    '＋260970000000',
    '+٢٦٠٩٧٠٠٠٠٠٠٠',
  ])('the telephone number %j is refused in one sentence', (to) => {
    expect(refusal(reachSchema, { via: 'sms', to })).toBe(
      `to: expected a telephone number as "+", country code and number, 7 to 15 digits without blanks, got ${JSON.stringify(to)}`,
    );
  });
  test.each([
    'keeper',
    'keeper@example',
    '@example.org',
    'keeper@@example.org',
    'keeper@-example.org',
    'a b@example.org',
    '.a@example.org',
    'a..b@example.org',
    'a.@example.org',
    'Keeper <keeper@example.org>',
    'keeper@example.org\r\nBcc: all@example.org',
    'a@example.org,b@example.org',
    `${'a'.repeat(65)}@example.org`,
    `a@${'b'.repeat(60)}.${'c'.repeat(60)}.${'d'.repeat(60)}.${'e'.repeat(60)}.${'f'.repeat(20)}.org`,
  ])('the e-mail address %j is refused in one sentence', (to) => {
    expect(refusal(reachSchema, { via: 'email', to })).toBe(
      `to: expected an e-mail address such as keeper@example.org, got ${JSON.stringify(to)}`,
    );
  });
  test.each(['json', 'cap'])('a webhook says that it takes %s', (body) => {
    expect(refusal(reachSchema, { via: 'webhook', to: 'https://feed.example/', body })).toBe('taken');
  });
  test.each([
    ['webhook', 'https://feed.example/', 'xml', 'body: expected "json" or "cap", got "xml"'],
    ['webhook', 'https://feed.example/', null, 'body: expected "json" or "cap", got null'],
    [
      'email',
      'a@b.example',
      'cap',
      'body: expected a "body" only where "via" is "webhook", got it with "email"',
    ],
    [
      'sms',
      '+260970000000',
      'json',
      'body: expected a "body" only where "via" is "webhook", got it with "sms"',
    ],
  ])('%s to %s does not take the body %j', (via, to, body, message) => {
    expect(refusal(reachSchema, { via, to, body })).toBe(message);
  });
  test('a way that is none is refused by naming those there are', () => {
    expect(refusal(reachSchema, { via: 'pigeon', to: 'x' })).toMatch(
      /via: expected "sms" or "email" or "webhook" or "console", got "pigeon"/,
    );
  });
});

describe('quiet hours', () => {
  test.each([
    ['20:00', '06:00'],
    ['12:00', '14:00'],
    ['06:00', '05:00'],
  ])('from %s to %s are taken', (from, to) => {
    expect(refusal(quietSchema, { from, to })).toBe('taken');
  });
  test.each([
    ['06:00', '06:00'],
    ['00:00', '00:00'],
    ['06:00', '05:01'],
    ['00:00', '23:59'],
  ])('from %s to %s leave too little of the day', (from, to) => {
    expect(refusal(quietSchema, { from, to })).toContain(
      `expected quiet hours that leave an hour or more of the day, got from ${from} to ${to}`,
    );
  });
  test.each(['24:00', '6:00', '20.00', '20:60', '20:00:00', ' 20:00', ''])('%j is no time', (from) => {
    expect(refusal(quietSchema, { from, to: '06:00' })).toMatch(/from: expected a time of the clock/);
    expect(minutesOfClock(from)).toBeNaN();
  });
  test('one end alone is refused', () => {
    expect(refusal(quietSchema, { from: '20:00' })).toMatch(/to: expected string, got nothing/);
  });
});

describe('the rest of the shape', () => {
  test('a person without any of it', () => {
    expect(person.parse({})).toEqual({ reach: [] });
  });
  test.each<[string, z.ZodType, unknown, RegExp]>([
    ['a kind that is none', person, { kinds: ['fire'] }, /kinds\[0\]: expected "heating" or/],
    ['no kinds at all', person, { kinds: [] }, /kinds: expected at least 1 entries/],
    ['an unknown key', person, { quite: {} }, /expected no key "quite"/],
    ['a group without lead', groupSchema, { id: 'g', name: 'G', members: [] }, /lead: expected string/],
    [
      'a group with an odd id',
      groupSchema,
      { id: 'G 1', name: 'G', lead: 'a', members: [] },
      /id: expected 1/,
    ],
    ['too soon', bed, { escalation: [{ to: 'a', after_min: 4 }] }, /after_min: expected at least 5, got 4/],
    ['too late', bed, { escalation: [{ to: 'a', after_min: 10_081 }] }, /expected at most 10080, got 10081/],
    ['half a minute', bed, { escalation: [{ to: 'a', after_min: 5.5 }] }, /after_min: expected int/],
    [
      'nine steps',
      bed,
      { escalation: Array.from({ length: 9 }, (_, at) => ({ to: `p${at}`, after_min: 5 })) },
      /escalation: expected at most 8 entries/,
    ],
    ['one message a day', site, { telling: { most_per_bed_a_day: 1 } }, /expected at least 2, got 1/],
    [
      'a storm of one',
      site,
      { telling: { storm: { alarms: 1 } } },
      /storm.alarms: expected at least 2, got 1/,
    ],
    ['no morning', site, { telling: { morning: '6:30' } }, /morning: expected a time of the clock/],
    ['a misspelt setting', site, { telling: { repeat_after: 3 } }, /expected no key "repeat_after"/],
  ])('%s is refused', (_, schema, value, told) => {
    expect(refusal(schema, value)).toMatch(told);
  });
});

describe('settings', () => {
  test('every default lies within its bounds and has a source', () => {
    for (const { default: value, low, high, source } of Object.values(TELLING)) {
      expect(value >= low && value <= high).toBe(true);
      expect(source).toMatch(/judgement|common practice|from memory/);
    }
  });
  test('what a site leaves out has its default', () => {
    expect(tellingInForce(undefined)).toEqual({
      ...{ morning: '06:30', most_per_bed_a_day: 6, storm: { alarms: 5, within_min: 60 } },
      ...{ repeat_after_h: 24, give_up_after_h: 168 },
    });
    expect(tellingInForce({ storm: { alarms: 9 } }).storm).toEqual({ alarms: 9, within_min: 60 });
  });
});

const SITE: DescribedPeople = Object.freeze({
  site: { escalation: [{ to: 'cy', after_min: 60 }] },
  beds: [{ id: 'pit-a', keeper: 'ridge-group', escalation: [{ to: 'ben', after_min: 30 }] }],
  people: [
    { id: 'ana', language: 'en', beds: ['pit-a'] },
    { id: 'ben', language: 'en' },
    { id: 'cy', language: 'en' },
  ],
  groups: [{ id: 'ridge-group', name: 'Ridge group', lead: 'ana', members: ['ana', 'cy'] }],
});
const problemsOf = (otherwise: Partial<DescribedPeople>, known?: DescribedPeople): string[] =>
  peopleProblems({ ...SITE, ...otherwise }, ['en', 'fr'], known).map(
    ({ path, message }) => `${path.join('.')}: ${message}`,
  );
const group = (otherwise: object) => [{ id: 'g', name: 'G', lead: 'ana', members: ['ben'], ...otherwise }];
const escalation = (...ids: string[]) => ids.map((to) => ({ to, after_min: 30 }));
const pit = (keeper: string, ...ids: string[]) => [{ id: 'pit-a', keeper, escalation: escalation(...ids) }];

describe('references', () => {
  test('a sound site has no problems, nor has one without any of it', () => {
    expect(problemsOf({})).toEqual([]);
    expect(peopleProblems({ beds: [], people: [] }, ['en'])).toEqual([]);
  });
  test('what was loaded before is known', () => {
    expect(problemsOf({ people: [], groups: [] }, SITE)).toEqual([]);
  });
  test("a site's escalation may name the keeper of a bed", () => {
    expect(problemsOf({ beds: [{ id: 'pit-a', keeper: 'cy' }] })).toEqual([]);
  });
  test.each<[string, Partial<DescribedPeople>, string]>([
    [
      'a language that nothing is written in',
      { people: [...SITE.people, { id: 'dot', language: 'tlh' }] },
      'people.3.language: expected one of the languages en, fr, got "tlh"',
    ],
    [
      'a followed bed that is not there',
      { people: [...SITE.people, { id: 'dot', language: 'fr', beds: ['pit-a', 'pit-z'] }] },
      'people.3.beds.1: expected the id of one of beds, got "pit-z"',
    ],
    [
      'a keeper that is nobody',
      { beds: pit('zoe', 'ben') },
      'beds.0.keeper: expected the id of one of people or groups, got "zoe"',
    ],
    [
      'an escalation to nobody',
      { beds: pit('ana', 'ben', 'zoe') },
      'beds.0.escalation.1.to: expected the id of one of people or groups, got "zoe"',
    ],
    [
      "a site's escalation to nobody",
      { site: { escalation: escalation('zoe') } },
      'site.escalation.0.to: expected the id of one of people or groups, got "zoe"',
    ],
    [
      'an escalation back to the keeper',
      { beds: pit('ana', 'ben', 'ana') },
      'beds.0.escalation.1.to: expected somebody who was not told before: an escalation must not go in a circle, got "ana" again',
    ],
    [
      'an escalation back to a step',
      { site: { escalation: escalation('ben', 'cy', 'ben') } },
      'site.escalation.2.to: expected somebody who was not told before: an escalation must not go in a circle, got "ben" again',
    ],
    [
      'a lead that is nobody',
      { groups: [...(SITE.groups ?? []), ...group({ lead: 'zoe' })] },
      'groups.1.lead: expected the id of one of people, got "zoe"',
    ],
    [
      'a member that is a group',
      { groups: [...(SITE.groups ?? []), ...group({ members: ['ridge-group'] })] },
      'groups.1.members.0: expected the id of one of people, got "ridge-group"',
    ],
    [
      'a member twice',
      { groups: [...(SITE.groups ?? []), ...group({ members: ['ben', 'ben'] })] },
      'groups.1.members.1: expected each member once, got "ben" again',
    ],
    [
      'two groups of one id',
      { groups: [...(SITE.groups ?? []), ...group({ id: 'ridge-group' })] },
      'groups.1.id: expected an id of its own, got "ridge-group", which groups[0] has',
    ],
  ])('%s', (_, otherwise, told) => {
    expect(problemsOf(otherwise)).toEqual([told]);
  });
  test('a group with the id of a person is refused at both', () => {
    expect(problemsOf({ groups: [...(SITE.groups ?? []), ...group({ id: 'ben' })] })).toEqual([
      'people.1.id: expected an id that a person and a group do not share, got "ben"',
      'groups.1.id: expected an id that a person and a group do not share, got "ben"',
    ]);
  });
});
