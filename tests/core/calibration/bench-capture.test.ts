import { describe, expect, test } from 'vitest';
import {
  beginPoint,
  capture,
  giveUp,
  probesWaiting,
  type Settling,
  settlingOf,
  waitingWords,
} from '../../../services/core/calibration/index.js';
import { codeOf } from '../physics/refused.js';
import { approach, readings, START } from './bench-readings.js';
import { captured, frozen, inIce, MINUTE_ms, restingAt, saying, someBench } from './some-bench.js';

const AT = START + 6 * MINUTE_ms;
const SALT = {
  source: 'salt',
  salt: 'sodium-chloride',
  temperature_C: 20,
  temperatureUncertainty_C: 0.2,
} as const;

const steady = (value: number, minutes = 6, every_s = 10) => readings(every_s, minutes, () => value);
const overSalt = () => frozen(beginPoint(someBench('humidity'), SALT, START));

const refusal = (settlings: Readonly<Record<string, Settling>>, bench = inIce(), at = AT): string =>
  saying(() => capture(bench, Object.keys(settlings), new Map(Object.entries(settlings)), at));

describe('settling at a point', () => {
  test('readings from before it do not count', () => {
    const bench = beginPoint(someBench(), { source: 'ice-point' }, START + 5 * MINUTE_ms);
    const found = settlingOf(bench, 'p01', steady(20), 0.01);
    expect(found).toMatchObject({ settled: false });
    expect(found.reason).toContain('got 7 over 1 min');
  });

  test('one that rested in the bath before is judged anew', () => {
    const bench = beginPoint(inIce(), { source: 'ice-point' }, START + MINUTE_ms * 6);
    expect(restingAt(inIce(), 0).settled).toBe(true);
    expect(restingAt(bench, 0).settled).toBe(false);
  });

  // SOAK_LEAST_s: 20 min over salt, 5 min in a bath, 3 min in ice and boiling water.
  test('the shortest soak is that of the source', () => {
    const quiet = steady(76, 12);
    expect(settlingOf(overSalt(), 'p01', quiet, 0.01).remaining_s).toBe(480);
    const beside = { source: 'instrument', reference: 75, uncertainty: 1 } as const;
    const chamber = beginPoint(someBench('humidity'), beside, START);
    expect(settlingOf(chamber, 'p01', quiet, 0.01).settled).toBe(true);
  });

  // 0.02 a minute is too fast for a temperature (0.01) and slow enough for a humidity (0.03).
  test('the rule is that of the quantity', () => {
    const slow = readings(10, 30, (s) => 70 + (0.02 * s) / 60);
    expect(settlingOf(overSalt(), 'p01', slow, 0.01).settled).toBe(true);
    expect(settlingOf(inIce(), 'p01', slow, 0.01).settled).toBe(false);
  });

  test('the resolution counts where it is known', () => {
    expect(settlingOf(inIce(), 'p01', steady(0, 5), 0.01).settled).toBe(true);
    expect(settlingOf(inIce(), 'p01', steady(0, 5)).settled).toBe(false);
  });

  test('three hours of a reading every second are judged', () => {
    const long = steady(0, 180, 1);
    expect(long.length).toBeGreaterThan(10_000);
    expect(settlingOf(inIce(), 'p01', long, 0.01).settled).toBe(true);
  });

  test('no reading at all is none yet', () => {
    expect(settlingOf(inIce(), 'p01', []).settled).toBe(false);
  });

  test('before the first point it is refused', () => {
    expect(codeOf(() => settlingOf(someBench(), 'p01', steady(0)))).toBe('CONFLICT');
    expect(saying(() => settlingOf(someBench(), 'p01', steady(0)))).toContain(
      'expected a point to have begun',
    );
  });

  test('a stranger, readings out of order, and times that are none are refused', () => {
    const withTime = (time: number) => [...steady(0), { time, value: 0 }];
    expect(codeOf(() => settlingOf(inIce(), 'p09', steady(0)))).toBe('BAD_REQUEST');
    expect(codeOf(() => settlingOf(inIce(), 'p01', withTime(START + 1)))).toBe('BAD_REQUEST');
    expect(codeOf(() => settlingOf(inIce(), 'p01', withTime(Number.NaN)))).toBe('OUT_OF_DOMAIN');
    expect(codeOf(() => settlingOf(inIce(), 'p01', steady(0), 11))).toBe('OUT_OF_DOMAIN');
  });
});

describe('a capture', () => {
  test('is the mean of the window, with its scatter, count and uncertainty', () => {
    const noisy = readings(10, 6, (s) => 0.2 + (s % 20 === 0 ? 0.01 : -0.01));
    const found = settlingOf(inIce(), 'p01', noisy, 0.01);
    const after = capture(inIce(), ['p01'], new Map([['p01', found]]), AT);
    expect(after.points[0]?.captured).toEqual([
      {
        probe: 'p01',
        at: AT,
        from: START + MINUTE_ms,
        to: AT,
        indicated: found.window?.mean,
        scatter: found.window?.scatter,
        count: 31,
        uncertainty: found.window?.indicatedUncertainty,
        step: 0.01,
        stepFrom: 'given',
      },
    ]);
    // By hand: 16 of 0.21 and 15 of 0.19, or the other way round.
    expect(found.window?.mean).toBeCloseTo(0.2, 3);
    expect(found.window?.scatter).toBeCloseTo(0.01, 3);
  });

  test('takes several, and others later; the bench before stays as it was', () => {
    const bench = inIce();
    const two = captured(bench, { p01: 0.2, p03: -0.1 });
    expect(probesWaiting(bench)).toEqual(['p01', 'p02', 'p03']);
    expect(probesWaiting(two)).toEqual(['p02']);
    const all = captured(two, { p02: 0 });
    expect(all.points[0]?.captured.map(({ probe }) => probe)).toEqual(['p01', 'p03', 'p02']);
    expect(probesWaiting(all)).toEqual([]);
  });

  test('is of the latest point alone', () => {
    const next = beginPoint(captured(inIce(), { p01: 0.2 }), { source: 'ice-point' }, AT);
    const later = readings(10, 12, () => 0.1).map(({ time, value }) => ({ time: time + 360_000, value }));
    const found = settlingOf(next, 'p01', later, 0.01);
    const after = capture(next, ['p01'], new Map([['p01', found]]), AT + 12 * MINUTE_ms);
    expect(after.points[0]).toEqual(next.points[0]);
    expect(after.points[1]?.captured).toMatchObject([{ probe: 'p01', indicated: expect.closeTo(0.1, 12) }]);
  });
});

describe('a probe that cannot be captured is named with its reason', () => {
  const still: Settling = {
    settled: false,
    reason: 'made up',
    remaining_s: 345,
    window: {
      from: START,
      to: AT,
      count: 37,
      mean: 1,
      scatter: 0.02,
      slopePerMinute: -0.0402,
      slopeBound_perMinute: 0.05,
      indicatedUncertainty: 0.1,
      step: 0.01,
      stepFrom: 'seen',
    },
  };
  const withWindow = (part: object): Settling =>
    ({ ...still, window: { ...still.window, ...part } }) as Settling;
  const { remaining_s: _, ...unknown } = still;

  test.each([
    ['drifting', still, 'p03: still drifting by 0.04 °C a minute, about 6 min more'],
    ['drifting on', unknown, 'p03: still drifting by 0.04 °C a minute, for how long is unknown'],
    [
      'perhaps drifting',
      withWindow({ slopePerMinute: 0.002 }),
      'p03: may still drift by 0.05 °C a minute, about 6 min more',
    ],
    [
      'scattering',
      withWindow({ scatter: 0.6, slopePerMinute: 0.02 }),
      'p03: still scattering by 0.6 °C, about 6 min more',
    ],
    [
      'soaking',
      withWindow({ slopePerMinute: 0, slopeBound_perMinute: 0.01 }),
      'p03: quiet, but not long enough in this bath, about 6 min more',
    ],
    [
      'silent',
      settlingOf(inIce(), 'p03', []),
      'p03: too few readings yet, not judged before 5 min; about 5 min more',
    ],
  ])('%s', (_name, found, told) => {
    expect(refusal({ p03: found })).toBe(`point 1: nothing captured; ${told}`);
  });

  test('a humidity in its own unit', () => {
    expect(refusal({ p03: still }, overSalt())).toContain('drifting by 0.04 %RH a minute');
  });

  // 20 exp(-t / 2 min): 2.2 °C a minute between 1 and 6 min, less by least squares, and far from a straight line.
  test('a steep curve is no scatter, and has the time that it still takes', () => {
    const found = settlingOf(inIce(), 'p03', readings(10, 6, approach(0, -20, 120)), 0.01);
    expect(found.window?.scatter).toBeGreaterThan(0.15);
    expect(refusal({ p03: found })).toContain('p03: still drifting by 2 °C a minute, about 12 min more');
  });

  test('all of them, and nothing is captured of the others', () => {
    const told = refusal({ p01: restingAt(inIce(), 0.1), p02: still, p03: settlingOf(inIce(), 'p03', []) });
    expect(told).toContain('p02: still drifting');
    expect(told).toContain('p03: too few readings');
    expect(told).not.toContain('p01');
    expect(codeOf(() => capture(inIce(), ['p02'], new Map([['p02', still]]), AT))).toBe('CONFLICT');
  });

  test('captured at this point already', () => {
    const again = captured(inIce(), { p01: 0.2 });
    expect(refusal({ p01: restingAt(again, 0.2) }, again)).toContain(
      'p01: already captured, begin a new point',
    );
  });

  test('judged before this point began', () => {
    const next = beginPoint(inIce(), { source: 'ice-point' }, START + 2 * MINUTE_ms);
    expect(refusal({ p01: restingAt(inIce(), 0) }, next)).toContain('from before this point');
  });

  test('not judged, or settled on nothing', () => {
    expect(saying(() => capture(inIce(), ['p01'], new Map(), AT))).toContain('p01: not judged yet');
    expect(refusal({ p01: { settled: true, reason: 'made up' } })).toContain('p01: too few readings yet');
  });

  // Up to 25 s is taken: clocks of probe and station never quite agree.
  test('with a clock ahead, whose readings may be of the bath before', () => {
    expect(refusal({ p01: restingAt(inIce(), 0) }, inIce(), AT - 25_000)).toBe('no error');
    expect(refusal({ p01: restingAt(inIce(), 0) }, inIce(), AT - 26_000)).toContain(
      'p01: its clock is 26 s ahead',
    );
  });

  // GREATEST_CORRECTION: 30 °C. Such a point could never be fitted, nor left out of a fit.
  test('too far from the reference to be in the same unit', () => {
    expect(refusal({ p01: restingAt(inIce(), 29.9) })).toBe('no error');
    expect(refusal({ p01: restingAt(inIce(), 31) })).toContain(
      'p01: reference and indicated: expected at most',
    );
  });
});

describe('misuse', () => {
  const found = new Map([['p01', restingAt(inIce(), 0)]]);
  test.each([
    ['no probe', []],
    ['one twice', ['p01', 'p01']],
    ['a stranger', ['p01', 'p09']],
  ])('%s', (_, probes) => {
    expect(codeOf(() => capture(inIce(), probes, found, AT))).toBe('BAD_REQUEST');
  });

  test('a bench with no point, one that was given up, a time before the point, none', () => {
    expect(codeOf(() => capture(someBench(), ['p01'], found, AT))).toBe('CONFLICT');
    expect(codeOf(() => capture(giveUp(inIce(), 'rain', AT), ['p01'], found, AT))).toBe('CONFLICT');
    expect(codeOf(() => capture(inIce(), ['p01'], found, START - 1))).toBe('CONFLICT');
    expect(codeOf(() => capture(inIce(), ['p01'], found, Number.NaN))).toBe('OUT_OF_DOMAIN');
    expect(codeOf(() => probesWaiting(someBench()))).toBe('CONFLICT');
  });
});

describe('waiting in words', () => {
  test.each([
    ['settled', { settled: true }],
    ['about 6 min more', { remaining_s: 301 }],
    ['about 5 min more', { remaining_s: 300 }],
    ['about 1 min more', { remaining_s: 0 }],
    ['not yet: too few readings, or too far apart: five within 2 h are needed', {}],
    [
      'not judged before 5 min; about 3 min more',
      { shown: { count: 3, latest: { time: START, value: 20 } }, earliest: { needs_min: 5, left_s: 170 } },
    ],
    [
      'no reading yet, not judged before 20 min; about 20 min more',
      { earliest: { needs_min: 20, left_s: 1200 } },
    ],
    [
      'steps of 0.5 °C: needs 10 min of stillness, about 4 min more',
      { remaining_s: 200, stillness: { step: 0.5, isKnown: true, needs_min: 10, left_s: 200 } },
    ],
    [
      'steps not seen yet, 0.0625 °C taken: needs 10 min of stillness, about 4 min more',
      { remaining_s: 200, stillness: { step: 0.0625, isKnown: false, needs_min: 10, left_s: 200 } },
    ],
  ])('%s', (words, part) => {
    expect(waitingWords({ settled: false, reason: 'made up', ...part }, '°C')).toBe(words);
  });

  test('a steady drift: nobody knows', () => {
    const drifting = settlingOf(
      inIce(),
      'p01',
      readings(10, 12, (s) => s / 60),
    );
    expect(waitingWords(drifting, '°C')).toBe('not yet: still moving, for how long is unknown');
  });
});
