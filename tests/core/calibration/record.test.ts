import { describe, expect, test } from 'vitest';
import {
  type CalibrationContext,
  type CalibrationRequest,
  calibrationOf,
  correctionAt,
  recordCautions,
} from '../../../services/core/calibration/index.js';
import type { CalibrationPoint } from '../../../services/core/model/calibration.js';
import type { Calibration } from '../../../services/core/model/calibration-record.js';
import { DAY_ms } from '../../../services/core/model/time.js';
import { BATH_POINTS, CALIBRATED_AT, SALT_POINTS } from '../../support/a-calibration.js';
import { beside, refusalOf, shiftedBy } from '../../support/calibrating.js';
import { frozen } from './some-bench.js';

const at = (day: number): number => CALIBRATED_AT + day * DAY_ms;

const request = (change: Partial<CalibrationRequest> = {}): CalibrationRequest =>
  frozen({
    ...{ site: 'hill-store', probe: 'probe-17', quantity: 'temperature', by: 'bench-hand' },
    ...{ reference: { name: 'station thermometer' }, conditions: {}, fit: {}, points: shiftedBy(-1) },
    ...{ from: at(0), doneAt: at(0) },
    ...change,
  });

function made(
  change: Partial<CalibrationRequest> = {},
  context: Partial<CalibrationContext> = {},
): Calibration {
  return calibrationOf(request(change), {
    ...{ id: 'new', records: [], existsSince: at(-100), tolerance: 0.5 },
    ...context,
  });
}

const refused = (change: Partial<CalibrationRequest>, context: Partial<CalibrationContext> = {}): string =>
  refusalOf(() => made(change, context));

/** Over a jar, on two temperatures or more. */
const overSalt = (indicated: number, reference: number, temperature_C?: number): CalibrationPoint =>
  beside(indicated, reference, {
    referenceUncertainty: 0.5,
    source: 'salt',
    ...(temperature_C !== undefined && { temperature_C }),
  });

describe('the step of the probe', () => {
  const step = { step: 0.5, stepFrom: 'seen' } as const;

  test('that the bench saw counts where none is given, and widens what is not known', () => {
    const { fit } = made({ step });
    expect(fit).toMatchObject({ resolution: 0.5, resolutionFrom: 'seen' });
    // By hand: the step alone adds 0.5 / sqrt(12) to what was there without it.
    const without = correctionAt(made().fit, 20).standardUncertainty;
    expect(correctionAt(fit, 20).standardUncertainty).toBeCloseTo(Math.hypot(without, 0.144338), 6);
  });

  test('that is given goes before it; without either none counts', () => {
    expect(made({ step, fit: { resolution: 0.1 } }).fit).toMatchObject({
      ...{ resolution: 0.1, resolutionFrom: 'given' },
    });
    expect(made().fit).not.toHaveProperty('resolution');
    expect(made().fit).not.toHaveProperty('resolutionFrom');
  });
});

describe('cautions', () => {
  // The tolerance is 0.5 °C: four of them are 2 °C.
  test('warn of one point that moves everything by more than four tolerances', () => {
    expect(recordCautions(made({ points: [beside(25, 22.9)] }))).toEqual([
      'one point only: it moves every value by -2.1 °C, more than 4 times the tolerance of 0.5 °C; was the reference entered rightly? A second point would tell.',
    ]);
    const leaveOut = [{ index: 1, reason: 'spilt' }];
    const points = [beside(25, 22.9), beside(30, 27)];
    expect(recordCautions(made({ points, fit: { leaveOut } }))).toHaveLength(1);
  });

  test('do not of less, nor of two points', () => {
    expect(recordCautions(made({ points: [beside(25, 23)] }))).toEqual([]);
    expect(recordCautions(made({ points: [beside(25, 22), beside(30, 27)] }))).toEqual([]);
  });
});

describe('a first calibration', () => {
  test('is the fit of its points, with what was asked beside it, and nothing before it', () => {
    const record = made({ bench: 'bench-1' });
    expect(record).toMatchObject({
      ...{ id: 'new', site: 'hill-store', probe: 'probe-17', quantity: 'temperature', by: 'bench-hand' },
      ...{ from: at(0), doneAt: at(0), before: null, supersedes: null, bench: 'bench-1' },
      fit: { form: 'offset', coefficients: [-1], range: [10, 30] },
    });
    expect(record).not.toHaveProperty('change');
    expect(correctionAt(record.fit, 20).corrected).toBe(19);
  });

  test('finds the probe off by its raw value less the reference', () => {
    expect(made().asFound).toMatchObject({ largest: 1, tolerance: 0.5, exceeds: true, certain: true });
    expect(made({ points: shiftedBy(-0.2) }).asFound).toMatchObject({ exceeds: false });
  });

  test('may be done long after the time from which it holds, and before', () => {
    expect(made({ from: at(-90), doneAt: at(0) }).from).toBe(at(-90));
    expect(made({ from: at(5), doneAt: at(0) }).from).toBe(at(5));
  });

  test('takes the form, the resolution and the points left out as asked', () => {
    const { fit } = made({
      points: BATH_POINTS,
      fit: { form: 'linear', resolution: 0.1, leaveOut: [{ index: 2, reason: 'bath opened' }] },
    });
    expect(fit).toMatchObject({
      form: 'linear',
      resolution: 0.1,
      leftOut: [{ index: 2, reason: 'bath opened' }],
    });
  });

  test('does not count a point that was left out as the probe being off', () => {
    const spoiled = [beside(10, 9.9), beside(20, 15), beside(30, 29.9)];
    const leaveOut = [{ index: 1, reason: 'the reference had fallen out of the bath' }];
    expect(made({ points: spoiled }).asFound).toMatchObject({ exceeds: true });
    const { asFound } = made({ points: spoiled, fit: { leaveOut } });
    expect(asFound.exceeds).toBe(false);
    expect(asFound.largest).toBeCloseTo(0.1, 9);
    expect([10, 30]).toContain(asFound.indicated);
  });
});

describe('a later calibration', () => {
  const first = made({ from: at(-30), doneAt: at(-30) }, { id: 'first' });

  test('names the one in force until then, judges by it, and says how the correction has changed', () => {
    const record = made({ points: shiftedBy(-1.3) }, { records: [first] });
    expect(record.before).toBe('first');
    expect(record.asFound.largest).toBeCloseTo(0.3, 9);
    expect(record.asFound.exceeds).toBe(false);
    expect(record.change?.change).toBeCloseTo(-0.3, 9);
  });

  test('of another range says nothing of a change', () => {
    const record = made({ points: [beside(40, 39), beside(60, 59)] }, { records: [first] });
    expect(record.before).toBe('first');
    expect(record).not.toHaveProperty('change');
  });

  test('dated back between two is judged by the one in force at its time', () => {
    const third = made(
      { from: at(30), doneAt: at(30), points: shiftedBy(-3) },
      { id: 'third', records: [first] },
    );
    const between = made({ from: at(10) }, { records: [third, first] });
    expect(between.before).toBe('first');
    expect(between.asFound.largest).toBeCloseTo(0, 9);
  });

  test('in the place of another is judged as if that had never been', () => {
    const second = made({ points: shiftedBy(4) }, { id: 'second', records: [first] });
    const record = made({ supersedes: 'second', from: at(1) }, { records: [first, second] });
    expect(record).toMatchObject({ before: 'first', supersedes: 'second' });
    expect(record.asFound.exceeds).toBe(false);
    expect(made({ supersedes: 'first' }, { records: [first] }).before).toBeNull();
  });
});

describe('refused, each in a sentence', () => {
  const first = made({}, { id: 'first' });
  const second = made({ from: at(5), supersedes: 'first' }, { id: 'second', records: [first] });

  test('a time before the probe was known', () => {
    expect(refused({ from: at(-101) })).toBe(
      'CONFLICT: from: expected a time since which probe probe-17 is known, 2025-12-04T09:00:00Z, got 2025-12-03T09:00:00Z; a calibration that was done before holds from a later "from" on',
    );
    expect(made({ from: at(-100) }).from).toBe(at(-100));
  });

  test('a time that is none', () => {
    expect(() => made({ from: Number.NaN })).toThrow();
  });

  test('two from the same instant, and how to go on', () => {
    expect(refused({}, { records: [first] })).toBe(
      'CONFLICT: from: expected a time of its own, got 2026-03-14T09:00:00Z, from which calibration first of the temperature of probe probe-17 holds; name it in "supersedes" to take its place',
    );
    expect(made({ supersedes: 'first' }, { records: [first] }).supersedes).toBe('first');
    expect(made({ from: at(0) + 1 }, { records: [first] }).before).toBe('first');
    // The instant of one that was replaced is free again.
    expect(made({}, { records: [first, second] }).before).toBeNull();
  });

  test('the place of one that is none, or that another has taken', () => {
    expect(refused({ supersedes: 'nowhere' }, { records: [first] })).toBe(
      'CONFLICT: supersedes: expected a calibration of the temperature of probe probe-17 that stands, got "nowhere", which is none',
    );
    expect(refused({ supersedes: 'first', from: at(9) }, { records: [first, second] })).toMatch(
      /got "first", which another has taken the place of$/,
    );
  });

  test.each<[string, Partial<CalibrationRequest>, RegExp]>([
    ['no point', { points: [] }, /^TOO_FEW_SAMPLES: calibration: expected at least one point, got none$/],
    [
      'a gain of points at one temperature',
      { points: [beside(20, 19), beside(20.5, 19.4)], fit: { form: 'linear' } },
      /^TOO_FEW_SAMPLES: calibration: a gain needs points at two temperatures at least 10 °C apart/,
    ],
    [
      'every point left out',
      { points: [beside(20, 19)], fit: { leaveOut: [{ index: 0, reason: 'spilt' }] } },
      /^TOO_FEW_SAMPLES: .*not left out/,
    ],
    [
      'kelvin beside degrees',
      { points: [beside(20, 293.15)] },
      /^OUT_OF_DOMAIN: point 0: reference and indicated: expected at most 30 °C apart and in the same unit/,
    ],
  ])('%s', (_, change, sentence) => {
    expect(refused(change)).toMatch(sentence);
  });
});

/** What a humidity is corrected by in use is worked out with every reading: what that refuses must never be kept. */
describe('a humidity that no reading could be corrected by is refused before it is kept', () => {
  const humidity = (points: readonly CalibrationPoint[]) => ({ quantity: 'humidity', points }) as const;

  test.each<[string, CalibrationPoint[], RegExp]>([
    [
      'a jar too hot',
      [overSalt(74, 75, 55)],
      /^OUT_OF_DOMAIN: temperature of the bath, °C, must be in \[0, 50\], got 55$/,
    ],
    ['a frozen jar', [overSalt(74, 75, -5)], /^OUT_OF_DOMAIN: temperature of the bath/],
    [
      'a reference known to nothing',
      [beside(74, 75, { referenceUncertainty: 25 })],
      /^OUT_OF_DOMAIN: standard uncertainty of the reference, %RH, must be in \[0, 20\], got 25$/,
    ],
    [
      'a value beyond what counts',
      [overSalt(-15, 5, 20)],
      /^OUT_OF_DOMAIN: indicated humidity, %RH, must be in/,
    ],
    [
      'more points than are reckoned with',
      Array.from({ length: 201 }, () => overSalt(74, 75, 20)),
      /^LIMIT_EXCEEDED: humidity calibration: expected at most 200 points, got 201$/,
    ],
  ])('%s', (_, points, sentence) => {
    expect(refused({ ...humidity(points) }, { tolerance: 50 })).toMatch(sentence);
  });

  test('salts over which it was really held are taken', () => {
    expect(made({ ...humidity(SALT_POINTS) }, { tolerance: 5 }).quantity).toBe('humidity');
  });
});
