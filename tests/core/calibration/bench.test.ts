import { describe, expect, test } from 'vitest';
import {
  beginPoint,
  dropPoint,
  finished,
  fitCalibration,
  giveUp,
  openBench,
  pointNumbersOf,
  pointProblem,
  pointsOf,
  probesUnfinished,
  stepOf,
} from '../../../services/core/calibration/index.js';
import { codeOf, refuses } from '../physics/refused.js';
import { START } from './bench-readings.js';
import { BODY, captured, inIce, MINUTE_ms, saying, someBench } from './some-bench.js';

const LATER = START + 60 * MINUTE_ms;
const MADE = Object.freeze([
  { probe: 'p01', calibration: 'c1' },
  { probe: 'p02', calibration: 'c2' },
  { probe: 'p03', calibration: 'c3' },
]);

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
    finishedProbes: [],
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
    expect(finished(inIce(), MADE, LATER)).toEqual({
      ...inIce(),
      state: 'finished',
      endedAt: LATER,
      calibrations: ['c1', 'c2', 'c3'],
      finishedProbes: ['p01', 'p02', 'p03'],
    });
  });

  test('finished with nothing is refused', () => {
    expect(codeOf(() => finished(inIce(), [], LATER))).toBe('TOO_FEW_SAMPLES');
    expect(codeOf(() => finished(inIce(), [], LATER, true))).toBe('TOO_FEW_SAMPLES');
  });

  const ended = [
    ['finished', finished(inIce(), MADE, LATER)],
    ['given up', giveUp(inIce(), 'rain', LATER)],
  ] as const;
  test.each(ended)('%s work is neither given up nor finished nor gone on with', (state, bench) => {
    const steps = [
      () => giveUp(bench, 'again', LATER),
      () => finished(bench, MADE, LATER),
      () => beginPoint(bench, { source: 'ice-point' }, LATER),
    ];
    expect(steps.map(codeOf)).toEqual(['CONFLICT', 'CONFLICT', 'CONFLICT']);
    expect(saying(steps[0] as () => unknown)).toBe(`bench b1: expected it to be open, but it is ${state}`);
  });
});

describe('finished one by one', () => {
  const one = finished(inIce(), MADE.slice(0, 1), LATER);

  test('it stays open for the others, and ends with the last of them', () => {
    expect(one).toMatchObject({ state: 'open', endedAt: null, calibrations: ['c1'] });
    expect(probesUnfinished(one)).toEqual(['p02', 'p03']);
    const all = finished(one, MADE.slice(1), LATER);
    expect(all).toMatchObject({ state: 'finished', calibrations: ['c1', 'c2', 'c3'] });
    expect(probesUnfinished(all)).toEqual([]);
  });

  test('it ends before where it is closed, with some of them or none more', () => {
    expect(finished(one, MADE.slice(1, 2), LATER, true)).toMatchObject({
      ...{ state: 'finished', endedAt: LATER, finishedProbes: ['p01', 'p02'] },
    });
    expect(finished(one, [], LATER, true)).toMatchObject({ state: 'finished', calibrations: ['c1'] });
  });

  test('a probe twice is refused, and a stranger', () => {
    expect(codeOf(() => finished(one, MADE, LATER))).toBe('CONFLICT');
    expect(saying(() => finished(one, MADE, LATER))).toBe(
      'bench b1: expected probes that are not finished yet, but p01 is finished already',
    );
    expect(codeOf(() => finished(one, [{ probe: 'p09', calibration: 'c9' }], LATER))).toBe('BAD_REQUEST');
  });

  test('work that was kept before that has none finished', () => {
    const { finishedProbes: _, ...old } = inIce();
    expect(probesUnfinished(old)).toEqual(['p01', 'p02', 'p03']);
    expect(finished(old, MADE.slice(0, 1), LATER).finishedProbes).toEqual(['p01']);
  });
});

describe('a point that is dropped', () => {
  const second = beginPoint(captured(inIce(), { p01: 0.2 }), { source: 'ice-point' }, LATER);

  test('is gone, its number with it, and the one before takes no more captures', () => {
    const after = dropPoint(second, LATER);
    expect(after.points.map(({ number, captured: taken }) => [number, taken.length])).toEqual([[1, 1]]);
    expect(saying(() => dropPoint(after, LATER))).toBe(
      'bench b1: expected a point to have begun, got none since the last was dropped',
    );
    expect(beginPoint(after, { source: 'ice-point' }, LATER).points.at(-1)).toMatchObject({ number: 2 });
    expect(pointNumbersOf(after, 'p01')).toEqual([1]);
  });

  test('the only one leaves none', () => {
    expect(dropPoint(inIce(), LATER).points).toEqual([]);
  });

  test('is refused once a probe was captured at it, before the first, and on a bench that has ended', () => {
    const taken = captured(inIce(), { p01: 0.2, p02: 0 });
    expect(codeOf(() => dropPoint(taken, LATER))).toBe('CONFLICT');
    expect(saying(() => dropPoint(taken, LATER))).toBe(
      'point 1: expected one at which nothing was captured, but p01, p02 were: leave it out when you finish, with a reason',
    );
    expect(codeOf(() => dropPoint(someBench(), LATER))).toBe('CONFLICT');
    expect(codeOf(() => dropPoint(giveUp(inIce(), 'rain', LATER), LATER))).toBe('CONFLICT');
    expect(codeOf(() => dropPoint(second, START))).toBe('CONFLICT');
  });
});

describe('the step of a probe', () => {
  const withSteps = (...steps: object[]) =>
    ({
      ...inIce(),
      points: steps.map((step, at) => ({
        ...inIce().points[0],
        number: at + 1,
        captured: [{ probe: 'p01', ...step }],
      })),
    }) as unknown as ReturnType<typeof inIce>;

  test.each([
    [
      'the smallest that was seen',
      [
        { step: 0.2, stepFrom: 'seen' },
        { step: 0.1, stepFrom: 'seen' },
      ],
      0.1,
      'seen',
    ],
    [
      'one that was seen, not a usual one',
      [
        { step: 0.0625, stepFrom: 'usual' },
        { step: 0.5, stepFrom: 'seen' },
      ],
      0.5,
      'seen',
    ],
    ['a usual one where none was seen', [{ step: 0.0625, stepFrom: 'usual' }, {}], 0.0625, 'usual'],
  ])('is %s', (_, steps, step, stepFrom) => {
    expect(stepOf(withSteps(...steps), 'p01')).toMatchObject({ step, stepFrom });
  });

  test('is unknown where no capture says it, and of a stranger refused', () => {
    expect(stepOf(withSteps({}, {}), 'p01')).toBeUndefined();
    expect(stepOf(withSteps({ step: 0.1, stepFrom: 'seen' }), 'p02')).toBeUndefined();
    expect(codeOf(() => stepOf(inIce(), 'p09'))).toBe('BAD_REQUEST');
  });
});

describe('time', () => {
  refuses('a time', (at) => giveUp(someBench(), 'x', at), [0, -1, 5e12]);
  refuses('a time', (at) => finished(someBench(), MADE, at), [0]);

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
        label: 'point 1: ice point',
      },
      {
        ...common,
        indicated: expect.closeTo(25.3, 12),
        indicatedCount: 31,
        reference: 24.9,
        referenceUncertainty: 0.05,
        source: 'instrument',
        label: 'point 3: beside instrument',
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
