/** Who is told, in a site description: what is taken, and what each kind of mistake is told. */
import { describe, expect, test } from 'vitest';
import { SandlarderError } from '../../../services/core/errors.js';
import { siteDescriptionSchema } from '../../../services/core/model/site.js';
import { checkSiteFile } from '../../../services/core/model/site-file.js';
import { SITE_JSON, spoilt } from './site-example.js';

function refusalOf(json: unknown): string {
  try {
    checkSiteFile('SITE.json', json);
  } catch (error) {
    if (error instanceof SandlarderError && error.code === 'BAD_SITE_FILE') return error.message;
    throw error;
  }
  return 'taken';
}

/** Where, what stands there, and what the sentence must hold. */
type Mistake = [what: string, path: readonly (string | number)[], value: unknown, told: RegExp];

describe('who is told', () => {
  const PERSON = ['people', 0] as const;
  const other = { id: 'keeper-2', name: 'Second keeper', reach: [] };
  const crew = { id: 'crew', name: 'Crew', lead: 'keeper-1', members: ['keeper-2'] };
  /** With a second person, a group, and more. */
  const with_ = (part: object): unknown => ({
    ...SITE_JSON,
    people: [...SITE_JSON.people, other],
    groups: [crew],
    ...part,
  });
  const bedWith = (part: object): unknown => with_({ beds: [{ ...SITE_JSON.beds[0], ...part }] });

  test('groups, steps and settings are taken, and a file without any of them', () => {
    const escalation = [{ to: 'crew', after_min: 30 }];
    const site = { ...SITE_JSON.site, escalation, telling: { drill: 'monthly', morning: '05:45' } };
    expect(refusalOf(with_({ site }))).toBe('taken');
    expect(refusalOf(bedWith({ keeper: 'crew', escalation: [{ to: 'keeper-2', after_min: 5 }] }))).toBe(
      'taken',
    );
    const old = checkSiteFile('SITE.json', SITE_JSON);
    expect(old.groups).toEqual([]);
    expect(old.people[0]?.quiet).toBeUndefined();
    expect(checkSiteFile('SITE.json', spoilt([...PERSON, 'reach'], undefined)).people[0]?.reach).toEqual([]);
  });

  test.each<Mistake>([
    [
      'a national number',
      [...PERSON, 'reach', 0, 'to'],
      '0970000000',
      /reach\[0\]\.to: .*telephone number.*got "0970000000"/,
    ],
    [
      'a number with blanks',
      [...PERSON, 'reach', 0, 'to'],
      '+260 97 000',
      /reach\[0\]\.to: .*without blanks/,
    ],
    ['a number of no country', [...PERSON, 'reach', 0, 'to'], '+0970000000', /telephone number/],
    ['a number that is too long', [...PERSON, 'reach', 0, 'to'], '+2609700000000000', /7 to 15 digits/],
    [
      'a way that is none',
      [...PERSON, 'reach', 0, 'via'],
      'pigeon',
      /reach\[0\]\.via: .*"sms".*got "pigeon"/,
    ],
    ['an address that is none', [...PERSON, 'reach', 0], { via: 'email', to: 'keeper' }, /e-mail address/],
    [
      'a language that nobody wrote',
      [...PERSON, 'language'],
      'de',
      /people\[0\]\.language: expected one of .*got "de"/,
    ],
    [
      'quiet all day',
      [...PERSON, 'quiet'],
      { from: '20:00', to: '20:00' },
      /leave an hour or more of the day/,
    ],
    [
      'quiet but for half an hour',
      [...PERSON, 'quiet'],
      { from: '06:30', to: '06:00' },
      /leave an hour or more/,
    ],
    ['quiet at no time', [...PERSON, 'quiet'], { from: '24:00', to: '06:00' }, /quiet\.from: /],
    ['a bed that is none', [...PERSON, 'beds'], ['pit-z'], /people\[0\]\.beds\[0\]: .*got "pit-z"/],
    ['a kind that is none', [...PERSON, 'kinds'], ['rot'], /people\[0\]\.kinds\[0\]: .*got "rot"/],
    ['no kind at all', [...PERSON, 'kinds'], [], /people\[0\]\.kinds: /],
    [
      'a step to nobody',
      ['beds', 0, 'escalation'],
      [{ to: 'nobody', after_min: 30 }],
      /escalation\[0\]\.to: .*got "nobody"/,
    ],
    ['a step at once', ['beds', 0, 'escalation'], [{ to: 'keeper-1', after_min: 0 }], /after_min: /],
    ['a step of NaN', ['beds', 0, 'escalation'], [{ to: 'keeper-1', after_min: Number.NaN }], /after_min: /],
    ['one message a day', ['site', 'telling'], { most_per_bed_a_day: 1 }, /most_per_bed_a_day: /],
    ['a drill every day', ['site', 'telling'], { drill: 'daily' }, /telling\.drill: /],
    ['a setting that is none', ['site', 'telling'], { evening: '18:00' }, /"evening"/],
  ])('%s', (_, path, value, told) => {
    expect(refusalOf(spoilt(path, value))).toMatch(told);
  });

  test('an escalation in a circle: back to the keeper, and to a step before', () => {
    const circle = /must not go in a circle, got "keeper-1" again/;
    expect(refusalOf(bedWith({ escalation: [{ to: 'keeper-1', after_min: 30 }] }))).toMatch(circle);
    const steps = [
      { to: 'crew', after_min: 30 },
      { to: 'keeper-2', after_min: 30 },
      { to: 'crew', after_min: 30 },
    ];
    expect(refusalOf(bedWith({ escalation: steps }))).toMatch(
      /beds\[0\]\.escalation\[2\]\.to: .*circle, got "crew" again/,
    );
  });

  test('groups: whom they name must be there, once, and share no id with a person', () => {
    const groups = (part: object): string => refusalOf(with_({ groups: [{ ...crew, ...part }] }));
    expect(groups({ lead: 'nobody' })).toMatch(/groups\[0\]\.lead: .*got "nobody"/);
    expect(groups({ members: ['keeper-2', 'keeper-2'] })).toMatch(
      /groups\[0\]\.members\[1\]: expected each member once/,
    );
    expect(groups({ members: ['crew'] })).toMatch(/groups\[0\]\.members\[0\]: .*people/);
    expect(groups({ id: 'keeper-2' })).toMatch(/a person and a group do not share/);
    expect(refusalOf(with_({ groups: [crew, crew] }))).toMatch(/groups\[1\]\.id: .*which groups\[0\] has/);
  });

  test('a file that adds to a site may name people and groups that were loaded before', () => {
    const known = siteDescriptionSchema.parse(with_({}));
    const { version, site, beds } = SITE_JSON;
    const more = { version, site, beds: [{ ...beds[0], keeper: 'crew' }] };
    expect(checkSiteFile('more.json', more, known).beds).toHaveLength(1);
    const taken = { version, site, people: [{ ...other, id: 'crew' }] };
    expect(() => checkSiteFile('more.json', taken, known)).toThrow(/do not share, got "crew"/);
  });
});
