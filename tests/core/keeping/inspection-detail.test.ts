import { describe, expect, test } from 'vitest';
import type { Finding } from '../../../services/core/model/inspection.js';
import {
  findingsOf,
  type InspectionDetail,
  inspectionDetailSchema,
  inspectionProblems,
  rootsOut,
} from '../../../services/core/model/inspection-detail.js';

const ID = '3f2b8c1e-5a44-4d0b-9a10-0c7f5d2e6b11';
const reads = (value: object): boolean => inspectionDetailSchema.safeParse(value).success;

/** Problems as `key: sentence`; found as the detail says unless given. */
const problemsOf = (detail: InspectionDetail, found?: readonly Finding[], opened = true): string[] =>
  inspectionProblems(Object.freeze(detail), { opened, found: [...(found ?? findingsOf(detail))] }).map(
    ({ path, message }) => `${path.join('.')}: ${message}`,
  );

describe('the keys', () => {
  test('all may be left out', () => {
    expect(reads({})).toBe(true);
  });

  test('a full one is taken, its id in small letters', () => {
    const detail = {
      id: ID.toUpperCase(),
      warmByHand: 'same',
      smell: 'fresh',
      sandFeels: 'dry',
      looked: 40,
      rotten: 1,
      weevil: 0,
      rodent: 0,
      termite: 0,
      sproutsShort: 2,
      sproutsLong: 0,
      out: [{ reason: 'thrown', roots: 1, were: 'rotten' }],
      photos: ['bed-a_1.jpg'],
      did: 'Closed the gap in the roof.',
      note: 'Rain last night.',
    };
    expect(inspectionDetailSchema.parse(detail)).toEqual({ ...detail, id: ID });
  });

  test.each<[string, object]>([
    ['an unknown key', { mould: 1 }],
    ['an id that is none', { id: 'inspection-1' }],
    ['a word that is none', { smell: 'sweet' }],
    ['less than none', { looked: -1 }],
    ['half a root', { looked: 2.5 }],
    ['not a number', { rotten: Number.NaN }],
    ['an endless number', { looked: Number.POSITIVE_INFINITY }],
    ['none taken out', { out: [{ reason: 'eaten', roots: 0 }] }],
    ['an empty list', { out: [] }],
    ['a reason that is none', { out: [{ reason: 'lost', roots: 1 }] }],
    ['a photo in a folder', { photos: ['../bed.jpg'] }],
    ['a photo of no name', { photos: [''] }],
    ['a note of blanks', { note: '  ' }],
    ['a null', { looked: null }],
  ])('%s is refused', (_, value) => {
    expect(reads(value)).toBe(false);
  });
});

describe('problems', () => {
  test('none in what holds together', () => {
    expect(problemsOf({})).toEqual([]);
    expect(
      problemsOf({
        looked: 40,
        rotten: 3,
        weevil: 2,
        sproutsLong: 40,
        out: [
          { reason: 'sold', roots: 37 },
          { reason: 'thrown', roots: 3, were: 'rotten' },
        ],
      }),
    ).toEqual([]);
  });

  test.each(['rotten', 'weevil', 'rodent', 'termite', 'sproutsShort', 'sproutsLong'] as const)(
    'more %s than were looked at',
    (name) => {
      expect(problemsOf({ looked: 10, [name]: 11 })).toEqual([
        `${name}: expected at most the 10 roots that were looked at, got 11`,
      ]);
    },
  );

  test('a count without how many were looked at', () => {
    expect(problemsOf({ rotten: 3, weevil: 1 })).toEqual([
      'looked: expected how many roots were looked at, as 3 are given as rotten, got nothing',
    ]);
  });

  test('more taken out than looked at', () => {
    expect(problemsOf({ looked: 5, out: [{ reason: 'eaten', roots: 6 }] })).toEqual([
      'looked: expected at least the 6 roots that were taken out, as whoever takes one out looks at it, got 5',
    ]);
  });

  test.each(['mouldy', 'bitter', 'rotten', 'weevil'] as const)('%s roots can only be thrown', (were) => {
    for (const reason of ['fed', 'eaten', 'sold', 'seed'] as const)
      expect(problemsOf({ out: [{ reason, roots: 1, were }] })).toEqual([
        expect.stringMatching(
          new RegExp(`^out\\.0\\.reason: expected "thrown" for .*never .*fed to animals, got "${reason}"$`),
        ),
      ]);
    expect(problemsOf({ out: [{ reason: 'thrown', roots: 1, were }] })).toEqual([]);
  });

  test('sound and sprouted roots may be fed', () => {
    for (const were of ['sound', 'sprouted', 'gnawed'] as const)
      expect(problemsOf({ out: [{ reason: 'fed', roots: 1, were }] })).toEqual([]);
  });

  test('rotten roots are found out by the counts too', () => {
    expect(problemsOf({ looked: 40, rotten: 3, weevil: 5, out: [{ reason: 'fed', roots: 36 }] })).toEqual([
      'out: expected at most 35 roots eaten, sold, kept for seed or fed, as 5 of the 40 looked at were rotten or had weevils and can only be thrown away, got 36',
    ]);
    expect(problemsOf({ looked: 40, rotten: 40, out: [{ reason: 'thrown', roots: 40 }] })).toEqual([]);
  });

  test('roots of a bed that was not opened', () => {
    for (const detail of [{ looked: 1 }, { out: [{ reason: 'eaten', roots: 1 } as const] }])
      expect(problemsOf(detail, ['nothing'], false)).toEqual([
        expect.stringMatching(/^opened: expected true/),
      ]);
    expect(problemsOf({ looked: 0, warmByHand: 'warm', smell: 'fresh' }, ['nothing'], false)).toEqual([]);
  });

  test.each<[InspectionDetail, Finding]>([
    [{ looked: 9, rotten: 1 }, 'rot'],
    [{ smell: 'rotten' }, 'rot'],
    [{ sandFeels: 'damp' }, 'damp'],
    [{ sandFeels: 'wet' }, 'damp'],
    [{ looked: 9, sproutsLong: 1 }, 'sprouts'],
    [{ looked: 9, sproutsShort: 1 }, 'sprouts'],
    [{ looked: 9, weevil: 1 }, 'weevils'],
  ])('%j beside "nothing" found', (detail, missing) => {
    expect(problemsOf(detail, ['nothing'])).toEqual([
      expect.stringMatching(
        new RegExp(`^found: expected "${missing}" among what was found, .* got \\["nothing"\\]$`),
      ),
    ]);
    expect(findingsOf(detail)).toEqual([missing]);
  });

  test('more may have been found than was counted', () => {
    expect(problemsOf({ looked: 9, rotten: 0 }, ['rot', 'weevils'])).toEqual([]);
  });
});

describe('what was found', () => {
  test('nothing told is nothing said, not "nothing"', () => {
    expect(findingsOf({})).toEqual([]);
    expect(findingsOf({ note: 'Locked.', warmByHand: 'same' })).toEqual([]);
  });

  test('a look without a finding is "nothing", whatever rodents and termites did', () => {
    expect(findingsOf({ looked: 9, rotten: 0 })).toEqual(['nothing']);
    expect(findingsOf({ looked: 9, rodent: 3, termite: 1 })).toEqual(['nothing']);
    expect(findingsOf({ smell: 'musty' })).toEqual(['nothing']);
  });

  test('several, in the order of the contract', () => {
    expect(findingsOf({ looked: 9, weevil: 1, sproutsShort: 1, rotten: 1, sandFeels: 'wet' })).toEqual([
      ...['rot', 'damp', 'sprouts', 'weevils'],
    ]);
  });
});

test('roots out by reason', () => {
  const detail: InspectionDetail = {
    out: [
      { reason: 'eaten', roots: 4 },
      { reason: 'sold', roots: 10 },
      { reason: 'eaten', roots: 3 },
    ],
  };
  expect(rootsOut(detail, ['eaten'])).toBe(7);
  expect(rootsOut(detail, ['eaten', 'sold'])).toBe(17);
  expect(rootsOut(detail, ['fed'])).toBe(0);
  expect(rootsOut({}, ['eaten'])).toBe(0);
});
