import { describe, expect, test } from 'vitest';
import {
  beginPoint,
  finished,
  fitCalibration,
  giveUp,
  openBench,
  pointNumbersOf,
  pointProblem,
  pointsOf,
} from '../../../services/core/calibration/index.js';
import { codeOf, refuses } from '../physics/refused.js';
import { START } from './bench-readings.js';
import { BODY, captured, inIce, MINUTE_ms, saying, someBench } from './some-bench.js';

const LATER = START + 60 * MINUTE_ms;

test('bench work begins open, with no point', () => {
  expect(someBench()).toEqual({
    ...BODY,
    id: 'b1',
    startedAt: START,
    points: [],
    state: 'open',
    endedAt: null,
    reason: null,
    calibrations: [],
  });
});

describe('its end', () => {
  test('given up, with the reason', () => {
    const before = captured(inIce(), { p01: 0.2 });
    expect(giveUp(before, 'the ice ran out', LATER)).toEqual({
      ...before,
      state: 'given-up',
      endedAt: LATER,
      reason: 'the ice ran out',
    });
  });

  test('finished, with what came of it', () => {
    const ids = Object.freeze(['c1', 'c2']);
    expect(finished(inIce(), ids, LATER)).toEqual({
      ...inIce(),
      state: 'finished',
      endedAt: LATER,
      calibrations: ['c1', 'c2'],
    });
  });

  test('finished with nothing is refused', () => {
    expect(codeOf(() => finished(inIce(), [], LATER))).toBe('TOO_FEW_SAMPLES');
  });

  const ended = [
    ['finished', finished(inIce(), ['c1'], LATER)],
    ['given up', giveUp(inIce(), 'rain', LATER)],
  ] as const;
  test.each(ended)('%s work is neither given up nor finished nor gone on with', (state, bench) => {
    const steps = [
      () => giveUp(bench, 'again', LATER),
      () => finished(bench, ['c2'], LATER),
      () => beginPoint(bench, { source: 'ice-point' }, LATER),
    ];
    expect(steps.map(codeOf)).toEqual(['CONFLICT', 'CONFLICT', 'CONFLICT']);
    expect(saying(steps[0] as () => unknown)).toBe(`bench b1: expected it to be open, but it is ${state}`);
  });
});

describe('time', () => {
  refuses('a time', (at) => giveUp(someBench(), 'x', at), [0, -1, 5e12]);
  refuses('a time', (at) => finished(someBench(), ['c1'], at), [0]);

  test.each([
    ['the start', someBench(), START],
    ['the point', beginPoint(someBench(), { source: 'ice-point' }, LATER), LATER],
    ['the last capture', captured(inIce(), { p01: 0.2 }), START + 6 * MINUTE_ms],
  ])('before %s is refused, at it is taken', (_, bench, last) => {
    expect(codeOf(() => giveUp(bench, 'x', last - 1))).toBe('CONFLICT');
    expect(saying(() => giveUp(bench, 'x', last - 1))).toContain('is the clock right?');
    expect(giveUp(bench, 'x', last).endedAt).toBe(last);
  });
});

describe('points of a probe', () => {
  const first = captured(inIce(), { p01: 0.2, p02: -0.1 });
  const empty = beginPoint(first, { source: 'ice-point' }, START + 6 * MINUTE_ms);
  // Its readings are those of START to 6 min, so that it begins there too.
  const bench = captured(
    {
      ...empty,
      points: [
        ...empty.points,
        {
          number: 3,
          startedAt: START,
          source: 'instrument',
          reference: 24.9,
          referenceUncertainty: 0.05,
          label: 'beside instrument',
          basis: 'made up',
          captured: [],
        },
      ],
    },
    { p01: 25.3 },
  );

  test('are its captures, with the point each was made at', () => {
    const common = { at: START + 6 * MINUTE_ms, indicatedScatter: expect.closeTo(0, 12) };
    expect(pointsOf(bench, 'p01')).toEqual([
      {
        ...common,
        indicated: expect.closeTo(0.2, 12),
        indicatedCount: 31,
        reference: 0,
        referenceUncertainty: 0.05,
        source: 'ice-point',
        label: 'ice point',
      },
      {
        ...common,
        indicated: expect.closeTo(25.3, 12),
        indicatedCount: 31,
        reference: 24.9,
        referenceUncertainty: 0.05,
        source: 'instrument',
        label: 'beside instrument',
      },
    ]);
  });

  test('a point without its capture is left away, and the numbers stay those of the points', () => {
    expect(pointNumbersOf(bench, 'p01')).toEqual([1, 3]);
    expect(pointNumbersOf(bench, 'p02')).toEqual([1]);
    expect(pointNumbersOf(bench, 'p03')).toEqual([]);
    expect(pointsOf(bench, 'p03')).toEqual([]);
  });

  test('are frozen, and such as a fit takes', () => {
    const points = pointsOf(bench, 'p01');
    expect([points, ...points].every(Object.isFrozen)).toBe(true);
    expect(points.map((point) => pointProblem(point, 'temperature'))).toEqual([undefined, undefined]);
    // Corrections of -0.2 and -0.4 °C.
    expect(fitCalibration(points, { quantity: 'temperature', form: 'linear' }).coefficients[1]).toBeCloseTo(
      -0.2 / 25.1,
      9,
    );
  });

  test('a humidity keeps the temperature of its jar', () => {
    const body = {
      source: 'salt',
      salt: 'sodium-chloride',
      temperature_C: 20,
      temperatureUncertainty_C: 0,
    } as const;
    const jar = beginPoint(openBench({ ...BODY, quantity: 'humidity' }, 'b2', START), body, START);
    const point = jar.points[0];
    const one = { probe: 'p01', at: LATER, from: START, to: LATER, indicated: 77, scatter: 0.1, count: 9 };
    const withOne = {
      ...jar,
      points: [{ ...point, captured: [{ ...one, uncertainty: 0.1 }] }],
    } as typeof jar;
    expect(pointsOf(withOne, 'p01')).toMatchObject([{ temperature_C: 20, indicatedScatter: 0.1 }]);
  });

  test('of a probe that is not on the bench are refused', () => {
    expect(codeOf(() => pointsOf(bench, 'p09'))).toBe('BAD_REQUEST');
    expect(codeOf(() => pointNumbersOf(bench, 'p09'))).toBe('BAD_REQUEST');
    expect(saying(() => pointsOf(bench, 'p09'))).toContain('p09');
  });
});
