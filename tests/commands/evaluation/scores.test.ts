import { describe, expect, test } from 'vitest';
import { scoreSeason } from '../../../services/commands/evaluation/score.js';
import { at, clear, DAYS, fault, ROT, raise, refine, type Saying, seasonWith } from './a-season.js';

describe('the score of a rot', () => {
  test('told after it began: its delays, and how far off its place was', () => {
    const { rots, falseUnpack } = scoreSeason(seasonWith([ROT], { warmFrom: 33 }), [
      raise(34, { place: at(62) }),
      refine(36, at(54, 10)),
      refine(39, at(90)),
    ]);
    expect(falseUnpack).toBe(0);
    expect(rots).toMatchObject([
      { foundDay: 34, fromOnset_h: 96, handDay: 42, beforeHand_days: 8, error_cm: 12, radius_cm: 20 },
    ]);
    expect(rots[0]).toMatchObject({ laterError_cm: 4, laterRadius_cm: 10 });
    expect(rots[0]?.fromKnowable_h).toBeCloseTo(23, 6);
  });

  test('told before it was knowable: a negative delay', () => {
    const [rot] = scoreSeason(seasonWith([ROT], { warmFrom: 36 }), [raise(34)]).rots;
    expect(rot?.fromKnowable_h).toBeCloseTo(-49, 6);
    expect(rot?.error_cm).toBeNull();
  });

  test('told before it began: false, and not found by it while it is open', () => {
    const { rots, falseUnpack } = scoreSeason(seasonWith([ROT]), [raise(20), raise(34)]);
    expect(falseUnpack).toBe(1);
    expect(rots[0]?.foundDay).toBeNull();
    const before = [raise(20, { place: at(90) }), clear(25)];
    const cleared = scoreSeason(seasonWith([ROT]), [...before, raise(34, { place: at(62) })]);
    expect(cleared.rots[0]).toMatchObject({ foundDay: 34, error_cm: 12 });
  });

  test.each([
    ['a look', raise(34, { action: 'check' })],
    ['another kind', raise(34, { kind: 'damp' })],
    ['more than forty days later', raise(70.1)],
  ])('not found by %s, which is not false either', (_, change) => {
    const { rots, falseUnpack, falseCheck } = scoreSeason(seasonWith([ROT]), [change]);
    expect([rots[0]?.foundDay, falseUnpack, falseCheck]).toEqual([null, 0, 0]);
  });

  test('a second call for the same rot is not false', () => {
    expect(scoreSeason(seasonWith([ROT]), [raise(34), clear(50), raise(60)]).falseUnpack).toBe(0);
  });

  test('one that was taken out counts for three days more, then a call is false', () => {
    const taken = seasonWith([{ ...ROT, endDay: 50 }]);
    expect(scoreSeason(taken, [raise(52.9)]).falseUnpack).toBe(0);
    const late = scoreSeason(taken, [raise(53.1)]);
    expect([late.falseUnpack, late.rots[0]?.foundDay]).toEqual([1, null]);
    expect(late.soundMonths).toBeCloseTo((DAYS - 23) / 30, 10);
  });

  test('of two, the place is held against the one that it points at', () => {
    const other = { ...ROT, place: { ...ROT.place, x: 120 } };
    const { rots } = scoreSeason(seasonWith([ROT, other]), [raise(34, { place: at(112) })]);
    expect(rots.map(({ foundDay }) => foundDay)).toEqual([34, 34]);
    expect(rots.map(({ error_cm }) => error_cm)).toEqual([null, 8]);
  });
});

describe('the score of a fault', () => {
  const told = (day: number, subject: string, kind: Saying['kind'] = 'probe-fault') =>
    raise(day, { kind, action: 'service', subject });
  const scored = (kind: Parameters<typeof fault>[0], ...changes: Parameters<typeof scoreSeason>[1]) =>
    scoreSeason(seasonWith([fault(kind, 'p02', 10, 40)]), changes);

  test.each([
    ['in time', 'stuck', told(12, 'p02'), true],
    ['as silence', 'silent', told(12, 'p02', 'probe-silent'), true],
    ['of another probe', 'stuck', told(12, 'p03'), false],
    ['too late', 'stuck', told(13.1, 'p02'), false],
    ['before it began', 'stuck', told(9, 'p02'), false],
    ['late, as a drift may', 'drift', told(30, 'p02'), true],
    ['too late even for a drift', 'drift', told(31.1, 'p02'), false],
    ['late, as rare spikes may', 'spikes', told(16.9, 'p02'), true],
    ['too late even for spikes', 'spikes', told(17.1, 'p02'), false],
    ['at an event time of before, as a clock set back makes it', 'clock-jump', told(5, 'p02'), true],
    ['too long before even for a clock', 'clock-jump', told(3.9, 'p02'), false],
  ] as const)('%s', (_, kind, change, recognised) => {
    expect(scored(kind, change).faults[0]?.recognised).toBe(recognised);
  });

  test('an alarm of an earlier fault of the probe tells the later one too while it is open', () => {
    const season = seasonWith([fault('noisy', 'p02', 5, 12), fault('stuck', 'p02', 10, 40)]);
    const recognised = (...changes: Parameters<typeof scoreSeason>[1]) =>
      scoreSeason(season, changes).faults.map((one) => one.recognised);
    expect(recognised(told(6, 'p02'))).toEqual([true, true]);
    const over = clear(9, { kind: 'probe-fault', action: 'service', subject: 'p02' });
    expect(recognised(told(6, 'p02'), over)).toEqual([true, false]);
  });

  test('told as rot: only on its own word, and only of a sound bed', () => {
    const asRot = (probe: string) => scored('drift', raise(20, { probe }));
    expect(asRot('p02').faults[0]?.toldAsRot).toBe(true);
    expect(asRot('p03').faults[0]?.toldAsRot).toBe(false);
    expect(asRot('p03')).toMatchObject({ falseUnpack: 1, unpackInFault: 1 });
    const rotten = scoreSeason(seasonWith([{ ...ROT, startDay: 15 }, fault('drift', 'p02', 10, 40)]), [
      raise(20, { probe: 'p02' }),
    ]);
    expect(rotten.faults[0]?.toldAsRot).toBe(false);
  });

  test('two at once do not make one call two', () => {
    const season = seasonWith([fault('drift', 'p02', 10, 40), fault('stuck', 'p03', 12, 40)]);
    expect(scoreSeason(season, [raise(20)]).unpackInFault).toBe(1);
  });

  test('an alarm of a sound probe is false', () => {
    expect(scored('stuck', told(12, 'p02'), told(12, 'p03')).falseFault).toBe(1);
    expect(scored('stuck', told(5, 'p02')).falseFault).toBe(1);
    expect(scored('clock-jump', told(5, 'p02')).falseFault).toBe(0);
  });
});

describe('the score of water', () => {
  const leak = {
    ...({ kind: 'leak', bed: 'pit-a', startDay: 18, litres_per_day: 3, nearest: null } as const),
    place: { x: 1, y: 1, depth: 0 },
  };
  const damping = { kind: 'damping', bed: 'pit-a', startDay: 18, litres_per_day: 1 } as const;
  const wetting = (day: number) => raise(day, { kind: 'wetting' });
  const damp = (day: number) => raise(day, { kind: 'damp', action: 'check' });

  test('hours from the front to its alarm; an earlier one is false', () => {
    const season = seasonWith([leak], { wetFrom: 20 });
    const score = scoreSeason(season, [wetting(10), clear(11, { kind: 'wetting' }), wetting(20.125)]);
    expect(score.wetting?.after_h).toBeCloseTo(2, 6);
    expect(score.falseWetting).toBe(1);
    const seen = raise(10, { kind: 'wetting', action: 'service' });
    expect(scoreSeason(season, [seen]).falseWetting).toBe(0);
    expect(scoreSeason(season, []).wetting).toEqual({ after_h: null });
    expect(scoreSeason(seasonWith([leak]), []).wetting).toBeNull();
  });

  test('hours from 97 % having lasted three days to the alarm', () => {
    const season = seasonWith([damping], { humid: [40, 60] });
    expect(scoreSeason(season, [damp(41)]).damping?.after_h).toBeCloseTo(-48, 6);
    expect(scoreSeason(season, [damp(10)]).damping).toEqual({ after_h: null });
    expect(scoreSeason(seasonWith([damping], { humid: [40, 42.9] }), []).damping).toBeNull();
    expect(scoreSeason(seasonWith([], { humid: [40, 60] }), []).damping).toBeNull();
  });

  test('a call to unpack for damp is false where no water was planted', () => {
    const call = raise(50, { kind: 'damp' });
    expect(scoreSeason(seasonWith([]), [call, damp(51)]).falseDamp).toBe(1);
    expect(scoreSeason(seasonWith([damping]), [call]).falseDamp).toBe(0);
  });
});
