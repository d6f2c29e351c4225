import { describe, expect, test } from 'vitest';
import { adviceFor } from '../../../services/core/keeping/inspection-advice.js';
import type { InspectionDetail } from '../../../services/core/model/inspection-detail.js';

const aboutOf = (detail: InspectionDetail): string[] =>
  adviceFor(Object.freeze(detail)).map(({ about }) => about);
const textOf = (detail: InspectionDetail): string =>
  adviceFor(detail)
    .map(({ text }) => text)
    .join(' ');

describe('advice', () => {
  test('none where nothing was found, and none for counts of 0', () => {
    expect(adviceFor({})).toEqual([]);
    expect(
      adviceFor({
        warmByHand: 'same',
        smell: 'fresh',
        sandFeels: 'dry',
        looked: 40,
        rotten: 0,
        weevil: 0,
        rodent: 0,
        termite: 0,
        sproutsShort: 0,
        sproutsLong: 0,
      }),
    ).toEqual([]);
  });

  test.each<InspectionDetail>([{ warmByHand: 'warm' }, { warmByHand: 'hot' }, { smell: 'rotten' }])(
    '%j: unpack at once, and how to dig',
    (detail) => {
      expect(aboutOf(detail)).toEqual(['unpack', 'digging']);
      expect(textOf(detail)).toMatch(/^Unpack the bed at once/);
    },
  );

  test('a cool hand and a musty smell unpack nothing', () => {
    expect(aboutOf({ warmByHand: 'cool', smell: 'musty' })).toEqual(['mould']);
  });

  test('rot: the whole root goes and is never fed', () => {
    expect(textOf({ looked: 9, rotten: 1, out: [{ reason: 'thrown', roots: 1 }] })).toMatch(
      /the whole root: do not eat it and do not feed it to animals/,
    );
  });

  test('weevils: the bed comes out, bury or burn, the extension officer', () => {
    const text = textOf({ looked: 9, weevil: 1 });
    for (const part of [
      /Take the whole bed out/,
      /Bury .* or burn/,
      /feed them to animals/,
      /extension officer/,
    ])
      expect(text).toMatch(part);
  });

  test('sprouts: short ones are rubbed off, long ones do not go back', () => {
    expect(textOf({ looked: 9, sproutsShort: 2 })).toMatch(/Rub short sprouts off.*eat it before the others/);
    expect(textOf({ looked: 9, sproutsShort: 2 })).not.toMatch(/Do not put/);
    expect(textOf({ looked: 9, sproutsLong: 2 })).toMatch(/^Do not put roots with long sprouts back/);
  });

  test('damp sand is weighed, wet sand left', () => {
    expect(textOf({ sandFeels: 'damp' })).toMatch(/^Weigh a sample/);
    expect(textOf({ sandFeels: 'wet' })).toMatch(/^Take the roots out/);
  });

  test('what cannot wait comes first', () => {
    const about = aboutOf({
      looked: 9,
      sproutsShort: 1,
      rotten: 1,
      weevil: 1,
      rodent: 1,
      termite: 1,
      smell: 'rotten',
    });
    expect([...new Set(about)]).toEqual([
      ...['unpack', 'digging', 'rot', 'weevils', 'sprouts', 'rodents', 'termites', 'not-thrown'],
    ]);
  });

  test('unfit roots that were not written down as thrown', () => {
    const detail = { looked: 40, rotten: 3, weevil: 2 };
    expect(textOf(detail)).toMatch(/at least 3 roots were unfit; 3 of these still count/);
    expect(textOf({ ...detail, out: [{ reason: 'thrown', roots: 2 }] })).toMatch(/1 of these still counts/);
    expect(aboutOf({ ...detail, out: [{ reason: 'thrown', roots: 3 }] })).not.toContain('not-thrown');
    expect(aboutOf({ ...detail, out: [{ reason: 'sold', roots: 30 }] })).toContain('not-thrown');
  });

  test('each piece says where it comes from', () => {
    const all = adviceFor({
      looked: 9,
      rotten: 1,
      weevil: 1,
      rodent: 1,
      termite: 1,
      sproutsShort: 1,
      sproutsLong: 1,
      smell: 'rotten',
      sandFeels: 'wet',
    });
    for (const { source } of all) expect(source).toMatch(/judgement|practice|computed|\d{4}|atlas/);
  });
});
