/** The site description: what is taken, and what each kind of mistake is told. */
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

const PLACED = ['probes', 0, 'placements', 0] as const;
const FROM = '2026-05-04T08:00:00Z';

describe('what is taken', () => {
  test("the contract's example, with times in ms and language kept", () => {
    const site = checkSiteFile('SITE.json', SITE_JSON);
    expect(site.beds[0]?.filled).toBe(Date.UTC(2026, 4, 4, 8));
    expect(site.probes[0]?.placements[0]).toEqual({
      ...{ bed: 'pit-a', x: 75, y: 40, depth: 30 },
      from: Date.UTC(2026, 4, 4, 8),
    });
  });
  test('a site with nothing in it yet', () => {
    const { version, site } = SITE_JSON;
    expect(checkSiteFile('SITE.json', { version, site })).toMatchObject({ beds: [], probes: [], people: [] });
  });
  test('a person without a language is told in English', () => {
    const site = checkSiteFile('SITE.json', spoilt(['people', 0, 'language'], undefined));
    expect(site.people[0]?.language).toBe('en');
  });
  test.each([
    ['on the wall and the floor of the bed', { x: 0, y: 50, depth: 50 }],
    ['at the top of the sand', { x: 150, y: 100, depth: 0 }],
  ])('a probe %s', (_, place) => {
    expect(refusalOf(spoilt(PLACED, { bed: 'pit-a', ...place, from: FROM }))).toBe('taken');
  });
  test('a probe that is moved, and then put in the shade', () => {
    const placements = [
      { bed: 'pit-a', x: 75, y: 40, depth: 30, from: FROM, to: '2026-06-01T00:00:00Z' },
      { bed: 'pit-a', x: 75, y: 60, depth: 10, from: '2026-06-01T00:00:00Z' },
      { ambient: true, from: '2026-06-02T00:00:00+02:00' },
    ];
    expect(refusalOf(spoilt(['probes', 0, 'placements'], placements))).toBe('taken');
  });
});

/** Where, what stands there, and what the sentence must hold beside the file's name. */
type Mistake = [what: string, path: readonly (string | number)[], value: unknown, told: RegExp];

const MISTAKES: Mistake[] = [
  ['no version', ['version'], undefined, /version: expected 1, got nothing/],
  ['another version', ['version'], 2, /version: expected 1, got 2/],
  ['a version as text', ['version'], '1', /version: expected 1, got "1"/],
  ['no site', ['site'], undefined, /site: expected object, got nothing/],
  ['a zone that is none', ['site', 'timezone'], 'Lusaka', /site\.timezone: .*IANA time zone.*got "Lusaka"/],
  ['an empty zone', ['site', 'timezone'], '', /site\.timezone: .*IANA/],
  ['an id in capitals', ['site', 'id'], 'Ridge', /site\.id: .*got "Ridge"/],
  ['an id that is too long', ['beds', 0, 'id'], 'p'.repeat(33), /beds\[0\]\.id: /],
  ['an id with a dot', ['probes', 0, 'id'], 'p.1', /probes\[0\]\.id: /],
  ['an empty name', ['beds', 0, 'name'], '  ', /beds\[0\]\.name: /],
  ['an unknown key at the top', ['bedz'], [], /"bedz"/],
  ['an unknown key in a bed', ['beds', 0, 'colour'], 'red', /beds\[0\]: expected no key "colour"/],
  ['an unknown key in a step', ['beds', 0, 'steps', 1, 'depth'], 5, /beds\[0\]\.steps\[1\]: .*"depth"/],
  ['an unknown kind of bed', ['beds', 0, 'kind'], 'heap', /beds\[0\]\.kind: .*"stepped-pit" or "box"/],
  ['a bed without steps', ['beds', 0, 'steps'], [], /beds\[0\]\.steps: expected at least 1 entries/],
  ['a step of no length', ['beds', 0, 'steps', 0, 'length'], 0, /steps\[0\]\.length: expected more than 0/],
  [
    'a step below nothing',
    ['beds', 0, 'steps', 0, 'height'],
    -25,
    /steps\[0\]\.height: expected more than 0/,
  ],
  [
    'a length that is NaN',
    ['beds', 0, 'steps', 0, 'length'],
    Number.NaN,
    /steps\[0\]\.length: expected number, got NaN/,
  ],
  ['an endless width', ['beds', 0, 'steps', 0, 'width'], Number.POSITIVE_INFINITY, /steps\[0\]\.width: /],
  ['a width as text', ['beds', 0, 'steps', 0, 'width'], '60', /steps\[0\]\.width: expected number, got "60"/],
  [
    'a time before 2000',
    ['beds', 0, 'filled'],
    '1999-12-31T23:59:59Z',
    /beds\[0\]\.filled: .*2000.*got "1999/,
  ],
  ['a time after 2100', ['beds', 0, 'filled'], '2100-01-01T00:00:00Z', /beds\[0\]\.filled: .*2100/],
  ['a time without an offset', ['beds', 0, 'filled'], '2026-05-04T08:00:00', /beds\[0\]\.filled: .*RFC 3339/],
  ['a time as a number', ['beds', 0, 'filled'], 1_777_881_600_000, /beds\[0\]\.filled: /],
  ['half a root', ['beds', 0, 'roots', 'count'], 0.5, /beds\[0\]\.roots\.count: expected int/],
  ['a mass of NaN', ['beds', 0, 'roots', 'mass_kg'], Number.NaN, /beds\[0\]\.roots\.mass_kg: /],
  [
    'a keeper that is nobody',
    ['beds', 0, 'keeper'],
    'keeper-2',
    /beds\[0\]\.keeper: .*people or groups, got "keeper-2"/,
  ],
  ['a threshold below its range', ['beds', 0, 'thresholds'], { damp_check_RH: 0 }, /damp_check_RH: /],
  ['a threshold of NaN', ['beds', 0, 'thresholds'], { damp_check_RH: Number.NaN }, /damp_check_RH: /],
  ['an unknown threshold', ['site', 'thresholds'], { heating_C: 1 }, /site\.thresholds: .*"heating_C"/],
  ['a place in no bed', [...PLACED, 'bed'], 'pit-z', /placements\[0\]\.bed: .*beds, got "pit-z"/],
  [
    'a place of NaN',
    [...PLACED, 'depth'],
    Number.NaN,
    /probes\[0\]\.placements\[0\]\.depth: expected number/,
  ],
  [
    'a place before 2000',
    [...PLACED, 'from'],
    '1970-01-01T00:00:00Z',
    /probes\[0\]\.placements\[0\]\.from: expected an RFC 3339 time.*got "1970/,
  ],
  [
    'thresholds in the wrong order',
    ['beds', 0, 'thresholds'],
    { damp_check_RH: 98 },
    /beds\[0\]\.thresholds: expected damp_check_RH not above damp_unpack_RH, got 98 and 97/,
  ],
  [
    'thresholds of keeping in the wrong order',
    ['beds', 0, 'thresholds'],
    { curing_least_days: 11 },
    /beds\[0\]\.thresholds: expected curing_least_days not above curing_most_days, got 11 and 10/,
  ],
  [
    'in the shade, but not true',
    ['probes', 1, 'placements', 0, 'ambient'],
    false,
    /probes\[1\]\.placements\[0\]/,
  ],
  ['in the shade and in a bed', [...PLACED, 'ambient'], true, /probes\[0\]\.placements\[0\]/],
  [
    'an end before its beginning',
    [...PLACED, 'to'],
    '2026-05-01T00:00:00Z',
    /placements\[0\]\.to: .*after "from"/,
  ],
  ['an end at its beginning', [...PLACED, 'to'], FROM, /placements\[0\]\.to: .*after "from"/],
];

describe('each mistake gets its own sentence', () => {
  test.each(MISTAKES)('%s', (_, path, value, told) => {
    const refusal = refusalOf(spoilt(path, value));
    expect(refusal).toMatch(/^SITE\.json: /);
    expect(refusal).toMatch(told);
  });

  test.each([
    ['nothing', undefined],
    ['null', null],
    ['a list', []],
    ['a word', 'site'],
  ])('%s instead of a document', (_, json) => {
    expect(refusalOf(json)).toMatch(/^SITE\.json: the document: expected object, got /);
  });

  test.each([
    ['above the sand', { x: 75, y: 40, depth: -1 }],
    ['under the floor', { x: 75, y: 50, depth: 50.1 }],
    ['beside the upper step', { x: 151, y: 40, depth: 10 }],
    ['in the earth beside the lower step: 20 cm narrower on both sides', { x: 75, y: 10, depth: 30 }],
  ])('a place %s', (_, place) => {
    const refusal = refusalOf(spoilt(PLACED, { bed: 'pit-a', ...place, from: FROM }));
    expect(refusal).toContain(
      `probes[0].placements[0]: expected a point inside bed "pit-a", got x ${place.x}, y ${place.y}, depth ${place.depth} cm`,
    );
  });

  test('two probes of one id: the second is named, and the first', () => {
    const [first] = SITE_JSON.probes;
    const refusal = refusalOf(spoilt(['probes'], [first, SITE_JSON.probes[1], first]));
    expect(refusal).toBe(
      'SITE.json: probes[2].id: expected an id of its own, got "p01", which probes[0] has',
    );
  });

  test.each(['beds', 'people'] as const)('two %s of one id', (list) => {
    const [first] = SITE_JSON[list];
    expect(refusalOf(spoilt([list], [first, first]))).toMatch(
      new RegExp(`${list}\\[1\\]\\.id: expected an id`),
    );
  });

  test('a box of two steps', () => {
    expect(refusalOf(spoilt(['beds', 0, 'kind'], 'box'))).toMatch(
      /beds\[0\]\.steps: expected exactly one step for a box/,
    );
  });

  test('placements that overlap or run backwards', () => {
    const [place] = SITE_JSON.probes[0].placements;
    const until = { ...place, to: '2026-06-01T00:00:00Z' };
    const early = { ambient: true, from: '2026-05-20T00:00:00Z' };
    for (const placements of [
      [until, early],
      [place, { ...place }],
      [early, place],
    ])
      expect(refusalOf(spoilt(['probes', 0, 'placements'], placements))).toMatch(
        /probes\[0\]\.placements\[1\]\.from: expected a time after the placement before it/,
      );
  });

  test('many mistakes: three are named and the rest counted', () => {
    const beds = Array.from({ length: 6 }, () => ({ ...SITE_JSON.beds[0], id: 'X' }));
    expect(refusalOf(spoilt(['beds'], beds))).toMatch(/; and \d+ more$/);
  });

  test('more beds than one file may hold', () => {
    const beds = Array.from({ length: 1001 }, (_, index) => ({ ...SITE_JSON.beds[0], id: `b${index}` }));
    expect(refusalOf(spoilt(['beds'], beds))).toMatch(/beds: expected at most 1000 entries/);
  });
});

describe('a file that adds to a site', () => {
  const known = siteDescriptionSchema.parse(SITE_JSON);
  const { version, site } = SITE_JSON;
  const adding = (part: object): unknown => ({ version, site, ...part });
  const probe = { id: 'p02', placements: [{ bed: 'pit-a', x: 20, y: 50, depth: 45, from: FROM }] };

  test('may place a probe in a bed that was loaded before', () => {
    expect(checkSiteFile('more.json', adding({ probes: [probe] }), known).probes).toHaveLength(1);
    expect(() => checkSiteFile('more.json', adding({ probes: [probe] }))).toThrow(/got "pit-a"/);
  });

  test('may not take the sand from around a probe that stands there', () => {
    const shallow = { ...SITE_JSON.beds[0], steps: [{ length: 150, width: 100, height: 20 }] };
    const people = SITE_JSON.people;
    expect(() => checkSiteFile('more.json', adding({ beds: [shallow], people }), known)).toThrow(
      /more\.json: beds: expected a point inside bed "pit-a".*\(probe "p01", loaded before\)/,
    );
  });
});

test('a probe on the shelf has no placement yet', () => {
  const site = spoilt(['probes', 0, 'placements'], []);
  expect(checkSiteFile('site.json', site).probes[0]?.placements).toEqual([]);
});
