import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type LossLook,
  lossByInterval,
  lossLookOf,
  lostAt,
  survivalOf,
} from '../../../services/core/keeping/loss.js';
import { wilsonInterval } from '../../../services/core/keeping/loss-interval.js';
import { lossOverSeason } from '../../../services/core/keeping/loss-season.js';
import { kaplanMeier, keptUntil } from '../../../services/core/keeping/loss-survival.js';
import { dayOf, FILLED } from './some-stock.js';

const SEED = 20260504;
const outOfDomain = expect.objectContaining({ code: 'OUT_OF_DOMAIN' });
/** Rounding of double arithmetic. */
const ROUNDING = 1e-12;

const LOOKS: readonly LossLook[] = Object.freeze([
  { at: dayOf(14), looked: 50, present: 400, lost: { rot: 1, weevils: 0 } },
  { at: dayOf(28), looked: 40, present: 380, lost: { rot: 2, weevils: 2, rodents: 0 } },
]);

describe('score intervals', () => {
  test.each<[string, number, number, number | undefined]>([
    ['more than looked at', 11, 10, undefined],
    ['fewer than none', -1, 10, undefined],
    ['no number', Number.NaN, 10, undefined],
    ['of none', 0, 0, undefined],
    ['of an endless number', 0, Number.POSITIVE_INFINITY, undefined],
    ['more looked at than present', 1, 10, 9],
    ['present is no number', 1, 10, Number.NaN],
  ])('%s: refused', (_, count, looked, present) => {
    expect(() => wilsonInterval(count, looked, present)).toThrow(outOfDomain);
  });

  test('all roots seen: nothing is left open', () => {
    expect(wilsonInterval(3, 40, 40)).toEqual({ share: 0.075, low: 0.075, high: 0.075 });
    expect(wilsonInterval(1, 1, 1)).toEqual({ share: 1, low: 1, high: 1 });
  });

  test('hold their share, lie within 0 and 1, mirror each other, and narrow with what is seen', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), fc.nat(), fc.nat({ max: 1000 }), (looked, seed, more) => {
        const count = seed % (looked + 1);
        const { share, low, high } = wilsonInterval(count, looked);
        expect(low).toBeGreaterThanOrEqual(0);
        expect(low).toBeLessThanOrEqual(share);
        expect(high).toBeGreaterThanOrEqual(share);
        expect(high).toBeLessThanOrEqual(1);
        expect(wilsonInterval(looked - count, looked).low).toBeCloseTo(1 - high, 12);
        const drawn = wilsonInterval(count, looked, looked + more);
        expect(drawn.high - drawn.low).toBeLessThanOrEqual(high - low + ROUNDING);
      }),
      { seed: SEED, numRuns: 200 },
    );
  });
});

describe('what of an inspection tells of losses', () => {
  test('counts by cause; sprouts are no loss', () => {
    expect(lossLookOf(dayOf(14), { looked: 50, rotten: 1, weevil: 0, sproutsLong: 9 }, 400)).toEqual(
      LOOKS[0],
    );
    expect(lossLookOf(dayOf(1), { looked: 5, rodent: 1, termite: 2 }, 9)?.lost).toEqual({
      rodents: 1,
      termites: 2,
    });
  });

  test('nothing where no root was looked at, or nothing counted', () => {
    expect(lossLookOf(dayOf(14), { smell: 'rotten' }, 400)).toBeUndefined();
    expect(lossLookOf(dayOf(14), { looked: 0, rotten: 0 }, 400)).toBeUndefined();
    expect(lossLookOf(dayOf(14), { looked: 30 }, 400)).toBeUndefined();
    expect(lossLookOf(dayOf(14), { looked: 30, sproutsShort: 3 }, 400)).toBeUndefined();
  });

  test('a stock smaller than what was looked at is no known one', () => {
    expect(lossLookOf(dayOf(14), { looked: 30, rotten: 0 }, 29)?.present).toBeNull();
    expect(lossLookOf(dayOf(14), { looked: 30, rotten: 0 }, null)?.present).toBeNull();
    expect(lossLookOf(dayOf(14), { looked: 30, rotten: 0 }, 30)?.present).toBe(30);
  });
});

describe('from look to look', () => {
  const intervals = lossByInterval(FILLED, LOOKS);

  test('each from the look before, the first from the filling', () => {
    expect(intervals.map(({ from, to }) => [from, to])).toEqual([
      [FILLED, dayOf(14)],
      [dayOf(14), dayOf(28)],
    ]);
  });

  test('by cause that was counted, with what it means for all present', () => {
    expect(intervals[0]?.causes.map(({ cause }) => cause)).toEqual(['rot', 'weevils']);
    expect(intervals[1]?.causes.map(({ cause }) => cause)).toEqual(['rot', 'weevils', 'rodents']);
    const rot = intervals[0]?.causes[0];
    expect(rot).toMatchObject({ count: 1, ...wilsonInterval(1, 50, 400) });
    expect(rot?.share).toBe(0.02);
    expect(rot?.roots?.likely).toBeCloseTo(8, 12);
    expect(rot?.roots?.high).toBeCloseTo(400 * wilsonInterval(1, 50, 400).high, 12);
  });

  test('a stock that is not known: the wider interval, and no roots', () => {
    const [look] = LOOKS;
    const [interval] = lossByInterval(FILLED, [{ ...(look as LossLook), present: null }]);
    expect(interval?.causes[0]).toMatchObject({ ...wilsonInterval(1, 50), roots: null });
  });

  test.each<[string, readonly LossLook[]]>([
    ['out of order', [...LOOKS].reverse()],
    ['twice at one time', [LOOKS[0] as LossLook, LOOKS[0] as LossLook]],
    ['before the filling', [{ ...(LOOKS[0] as LossLook), at: FILLED }]],
    ['at no time', [{ ...(LOOKS[0] as LossLook), at: Number.NaN }]],
    ['more lost than looked at', [{ ...(LOOKS[0] as LossLook), lost: { rot: 51 } }]],
  ])('looks %s are refused', (_, looks) => {
    expect(() => lossByInterval(FILLED, looks)).toThrow(outOfDomain);
  });
});

describe('survival', () => {
  test('by hand: 49/50 after the first look, times 36/40 after the second', () => {
    const steps = survivalOf(FILLED, LOOKS);
    expect(steps.map(({ time }) => time)).toEqual([14, 28]);
    expect(steps[1]?.survival).toBeCloseTo(0.98 * 0.9, 12);
    expect(steps[1]?.standardError).toBeCloseTo(0.882 * Math.sqrt(1 / (50 * 49) + 4 / (40 * 36)), 12);
  });

  test('a root under two causes counts twice, at the most all that were looked at', () => {
    expect(lostAt({ at: 0, looked: 5, present: null, lost: { rot: 4, weevils: 4 } })).toBe(5);
    expect(lostAt({ at: 0, looked: 5, present: null, lost: {} })).toBe(0);
  });

  test('no loss says nothing of its error', () => {
    expect(kaplanMeier([{ time: 1, atRisk: 9, lost: 0 }])).toEqual([
      { time: 1, atRisk: 9, lost: 0, survival: 1, standardError: 0, low: null, high: null },
    ]);
    expect(kaplanMeier([])).toEqual([]);
  });

  test.each([
    [{ time: 1, atRisk: 0, lost: 0 }],
    [{ time: 1, atRisk: 5, lost: 6 }],
    [{ time: 1, atRisk: 5, lost: -1 }],
    [{ time: Number.NaN, atRisk: 5, lost: 1 }],
    [{ time: 1, atRisk: Number.NaN, lost: 0 }],
    [{ time: 1, atRisk: 5, lost: Number.NaN }],
  ])('%j is refused', (count) => {
    expect(() => kaplanMeier([count])).toThrow(outOfDomain);
    expect(() => kaplanMeier([{ time: 0, atRisk: 5, lost: 1 }, count])).toThrow(outOfDomain);
  });

  test('counts out of order are refused, and a share that is none', () => {
    const count = { time: 2, atRisk: 5, lost: 1 };
    expect(() => kaplanMeier([count, count])).toThrow(outOfDomain);
    expect(() => keptUntil([], 1.5)).toThrow(outOfDomain);
    expect(() => keptUntil([], Number.NaN)).toThrow(outOfDomain);
    expect(keptUntil(kaplanMeier([count]), 0.5)).toBeUndefined();
    expect(keptUntil(kaplanMeier([count]), 0.8)).toBe(2);
  });
});

describe('over the season', () => {
  test('causes add up to what is not left', () => {
    const causes = lossOverSeason(FILLED, LOOKS);
    expect(causes.map(({ cause }) => cause)).toEqual(['rot', 'weevils', 'rodents']);
    // By hand: rot 1/50 + 0.98 * 2/40, weevils 0.98 * 2/40.
    expect(causes[0]?.share).toBeCloseTo(0.069, 12);
    expect(causes[1]?.share).toBeCloseTo(0.049, 12);
    expect(causes.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1 - 0.882, 12);
  });

  test('after one look without a stock it is the plain score interval', () => {
    const looks = [{ at: dayOf(9), looked: 40, present: null, lost: { rot: 3 } }];
    const [rot] = lossOverSeason(FILLED, looks);
    expect(rot?.share).toBeCloseTo(0.075, 12);
    expect(rot?.low).toBeCloseTo(wilsonInterval(3, 40).low, 12);
    expect(rot?.high).toBeCloseTo(wilsonInterval(3, 40).high, 12);
  });

  test('nothing lost leaves the interval of the smallest look; no look, nothing', () => {
    const looks = LOOKS.map((look) => ({ ...look, lost: { rot: 0 } }));
    expect(lossOverSeason(FILLED, looks)).toEqual([{ cause: 'rot', ...wilsonInterval(0, 40) }]);
    expect(lossOverSeason(FILLED, [])).toEqual([]);
  });

  test('everything lost, also under two causes, stays within 1', () => {
    const [rot, weevils] = lossOverSeason(FILLED, [
      { at: dayOf(9), looked: 4, present: 4, lost: { rot: 4, weevils: 4 } },
    ]);
    expect([rot?.share, weevils?.share]).toEqual([0.5, 0.5]);
  });
});
