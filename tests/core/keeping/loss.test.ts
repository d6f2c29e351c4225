import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lossByInterval, survivalOf } from '../../../services/core/keeping/loss.js';
import { wilsonInterval } from '../../../services/core/keeping/loss-interval.js';
import { type LossLook, lossLookOf, lostAt } from '../../../services/core/keeping/loss-look.js';
import { lossOverSeason } from '../../../services/core/keeping/loss-season.js';
import { kaplanMeier, keptUntil } from '../../../services/core/keeping/loss-survival.js';
import { dayOf, FILLED } from './some-stock.js';

const SEED = 20260504;
const outOfDomain = expect.objectContaining({ code: 'OUT_OF_DOMAIN' });
/** Rounding of double arithmetic. */
const ROUNDING = 1e-12;

const LOOKS: readonly LossLook[] = Object.freeze([
  { at: dayOf(14), looked: 50, present: 400, lost: { rot: 1, weevils: 0 }, sorted: true },
  { at: dayOf(28), looked: 40, present: 380, lost: { rot: 2, weevils: 2, rodents: 0 }, sorted: true },
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
    expect(
      lossLookOf(dayOf(14), { looked: 50, rotten: 1, weevil: 0, sproutsLong: 9, repacked: true }, 400),
    ).toEqual(LOOKS[0]);
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
    expect(lostAt({ at: 0, looked: 5, present: null, lost: { rot: 4, weevils: 4 }, sorted: true })).toBe(5);
    expect(lostAt({ at: 0, looked: 5, present: null, lost: {}, sorted: false })).toBe(0);
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

describe('looks at some of the roots', () => {
  const part = (days: number, rot: number, more: Partial<LossLook> = {}): LossLook => ({
    ...{ at: dayOf(days), looked: 40, present: 400, lost: { rot }, sorted: false },
    ...more,
  });
  const lastOf = (looks: readonly LossLook[]) => survivalOf(FILLED, looks).at(-1);

  test('that find one root in ten each time tell of one in ten, not of more with every look', () => {
    const looks = [14, 28, 42, 56, 70].map((days) => part(days, 4));
    expect(lastOf(looks)?.survival).toBeCloseTo(0.9, 12);
    // By hand: binomial error of 20 in 200.
    expect(lastOf(looks)?.standardError).toBeCloseTo(Math.sqrt((0.1 * 0.9) / 200), 12);
    expect(lossOverSeason(FILLED, looks)[0]?.share).toBeCloseTo(0.1, 12);
  });

  test('in two sittings of one hour are as one look at all of them', () => {
    const apart = lastOf([part(14, 3), part(14 + 1 / 24, 5)]);
    const { time: _, atRisk: __, lost: ___, ...left } = lastOf([part(14, 8, { looked: 80 })]) ?? {};
    expect(apart).toMatchObject(left);
  });

  test('pool what falls, and follow what rises', () => {
    const shares = survivalOf(FILLED, [part(14, 2), part(28, 1), part(42, 8)]).map((step) => step.survival);
    // By hand: 3 of 80 twice, then 8 of 40.
    expect(shares).toEqual([77 / 80, 77 / 80, 0.8]);
  });

  test('begin anew once all roots were sorted, repacked or every one looked at', () => {
    const looks = [part(14, 4, { sorted: true }), part(28, 4)];
    expect(lastOf(looks)?.survival).toBeCloseTo(0.81, 12);
    expect(lossLookOf(dayOf(14), { looked: 30, rotten: 1 }, 30)?.sorted).toBe(true);
    expect(lossLookOf(dayOf(14), { looked: 30, rotten: 1, repacked: true }, 400)?.sorted).toBe(true);
    expect(lossLookOf(dayOf(14), { looked: 30, rotten: 1 }, 400)?.sorted).toBe(false);
    expect(lossLookOf(dayOf(14), { looked: 30, rotten: 1 }, null)?.sorted).toBe(false);
  });

  test('out of order, or with more lost than looked at, are refused', () => {
    expect(() => survivalOf(FILLED, [part(28, 1), part(14, 1)])).toThrow(outOfDomain);
    expect(() => survivalOf(FILLED, [part(14, -1)])).toThrow(outOfDomain);
    expect(() => survivalOf(FILLED, [part(14, Number.NaN)])).toThrow(outOfDomain);
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
    const looks = [{ at: dayOf(9), looked: 40, present: null, lost: { rot: 3 }, sorted: false }];
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
      { at: dayOf(9), looked: 4, present: 4, lost: { rot: 4, weevils: 4 }, sorted: true },
    ]);
    expect([rot?.share, weevils?.share]).toEqual([0.5, 0.5]);
  });
});
