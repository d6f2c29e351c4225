/** What requests about bench work may say. */
import { describe, expect, test } from 'vitest';
import type { z } from 'zod';
import {
  benchBodySchema,
  benchPointBodySchema,
  captureBodySchema,
  closeBodySchema,
  finishBodySchema,
} from '../../../services/core/model/bench.js';
import { describeIssue } from '../../../services/core/model/problem.js';

const refused = (schema: z.ZodType, body: unknown): string => {
  const parsed = schema.safeParse(body, { reportInput: true });
  return parsed.success ? 'taken' : parsed.error.issues.map(describeIssue).join('; ');
};

describe('beginning', () => {
  const body = {
    site: 'ridge',
    probes: ['p01', 'p02'],
    quantity: 'humidity',
    by: 'bench-hand',
    reference: { name: 'chilled mirror' },
  };

  test('conditions may be left out', () => {
    expect(benchBodySchema.parse(body)).toEqual({ ...body, conditions: {} });
  });

  test('sixty probes are taken', () => {
    const probes = Array.from({ length: 60 }, (_, at) => `p${at}`);
    expect(refused(benchBodySchema, { ...body, probes })).toBe('taken');
    expect(refused(benchBodySchema, { ...body, probes: [...probes, 'p60'] })).toMatch(/at most 60 entries/);
  });

  test.each([
    ['no probe', { probes: [] }, /probes: expected at least 1 entries/],
    ['a probe twice', { probes: ['p01', 'p01'] }, /probes: expected each probe once/],
    ['a probe that is no id', { probes: ['P 1'] }, /probes\[0\]: expected 1 to 32/],
    ['another quantity', { quantity: 'battery' }, /quantity: expected "temperature" or "humidity"/],
    ['nobody', { by: ' ' }, /by: expected at least 1 characters/],
    ['a reference without a name', { reference: {} }, /reference\.name: expected string/],
    ['points', { points: [] }, /expected no key "points"/],
  ])('%s is refused', (_, part, told) => {
    expect(refused(benchBodySchema, { ...body, ...part })).toMatch(told);
  });
});

describe('a point', () => {
  const instrument = { source: 'instrument', reference: 25, uncertainty: 0.05 };
  const boiling = { source: 'boiling-point', pressure_hPa: 1013, pressureUncertainty_hPa: 1 };
  const salt = {
    source: 'salt',
    salt: 'sodium-chloride',
    temperature_C: 20,
    temperatureUncertainty_C: 0.2,
  };

  test.each([
    [instrument],
    [{ ...instrument, unit: 'K', temperature_C: 21 }],
    [{ source: 'ice-point' }],
    [{ source: 'ice-point', uncertainty: 0.02 }],
    [boiling],
    [salt],
    [{ ...salt, probeDifference_C: 0 }],
  ])('%j is taken', (body) => {
    expect(benchPointBodySchema.parse(body)).toEqual(body);
  });

  test.each([
    ['from a file', { ...instrument, source: 'file' }, /source/],
    [
      'of no source',
      { reference: 25, uncertainty: 0.05 },
      /^source: expected "instrument" or "ice-point" or "boiling-point" or "salt", got nothing$/,
    ],
    ['known for certain', { ...instrument, uncertainty: 0 }, /uncertainty: expected more than 0/],
    ['without uncertainty', { source: 'instrument', reference: 25 }, /uncertainty: expected number/],
    ['in °F', { ...instrument, unit: 'F' }, /unit: expected "Cel" or "K" or "%RH" or "\/"/],
    ['that is no number', { ...instrument, reference: Number.NaN }, /reference: expected number, got NaN/],
    ['without end', { ...instrument, reference: Number.POSITIVE_INFINITY }, /reference: expected number/],
    ['in a chamber in kelvin', { ...instrument, temperature_C: 293 }, /temperature_C: expected at most 60/],
    ['ice known for certain', { source: 'ice-point', uncertainty: 0 }, /more than 0/],
    ['ice with a value', { source: 'ice-point', reference: 0 }, /no key "reference"/],
    ['boiling at no pressure', { source: 'boiling-point' }, /pressure_hPa: expected number/],
    ['of an unknown salt', { ...salt, salt: 'sugar' }, /salt: expected "lithium-chloride" or/],
    ['of salt at no temperature', { ...salt, temperature_C: undefined }, /temperature_C: expected number/],
    ['of salt less than sure', { ...salt, temperatureUncertainty_C: -1 }, /at least 0/],
  ])('%s is refused', (_, body, told) => {
    expect(refused(benchPointBodySchema, body)).toMatch(told);
  });
});

describe('capturing and giving up', () => {
  test('probes may be left out', () => {
    expect(captureBodySchema.parse({})).toEqual({});
    expect(captureBodySchema.parse({ probes: ['p01'] })).toEqual({ probes: ['p01'] });
  });
  test.each([{ probes: [] }, { probes: ['p01', 'p01'] }, { probes: 'p01' }, { at: 0 }])(
    '%j is refused',
    (body) => {
      expect(refused(captureBodySchema, body)).not.toBe('taken');
    },
  );
  test('a reason is trimmed', () => {
    expect(closeBodySchema.parse({ reason: ' rain ' })).toEqual({ reason: 'rain' });
  });
  test.each([{}, { reason: ' ' }, { reason: 'x'.repeat(501) }])('%j is no reason', (body) => {
    expect(refused(closeBodySchema, body)).not.toBe('taken');
  });
});

describe('finishing', () => {
  const left = { probe: 'p01', point: 2, reason: 'fell out of the jar' };
  const leaving = (...leaveOut: object[]) => ({ fit: { leaveOut } });

  test('everything may be left out', () => {
    expect(finishBodySchema.parse({})).toEqual({ fit: {} });
  });

  test('as much as can be said', () => {
    const fit = { form: 'linear', weighting: 'weighted', resolution: 0.1, leaveOut: [left] };
    const supersedes = [{ probe: 'p01', calibration: 'c1' }];
    const body = { from: '2026-05-04T08:00:00Z', fit, probes: ['p01'], supersedes, close: true };
    expect(finishBodySchema.parse(body)).toEqual({ ...body, from: Date.UTC(2026, 4, 4, 8) });
  });

  test('the same point of two probes, and two points of one', () => {
    const body = leaving(left, { ...left, probe: 'p02' }, { ...left, point: 3 });
    expect(refused(finishBodySchema, body)).toBe('taken');
  });

  test.each([
    ['the same point of a probe twice', leaving(left, left), /leaveOut: expected each point of a probe once/],
    ['a point 0', leaving({ ...left, point: 0 }), /point: expected more than 0/],
    ['half a point', leaving({ ...left, point: 1.5 }), /point: expected integer, got 1\.5/],
    [
      'the place of two calibrations of a probe',
      { supersedes: ['c1', 'c2'].map((calibration) => ({ probe: 'p01', calibration })) },
      /supersedes: expected each probe once/,
    ],
    [
      'a place of none',
      { supersedes: [{ probe: 'p01', calibration: '' }] },
      /calibration: expected at least 1/,
    ],
    ['closed as text', { close: 'yes' }, /close: expected boolean, got "yes"/],
    ['left out by index', leaving({ index: 0, reason: 'x' }), /probe: expected string/],
    ['left out for no reason', leaving({ ...left, reason: '' }), /reason: expected at least 1/],
    ['another form', { fit: { form: 'cubic' } }, /form: expected "offset"/],
    ['no probe', { probes: [] }, /at least 1 entries/],
    ['a time in ms', { from: 1_780_000_000_000 }, /from: expected string/],
  ])('%s is refused', (_, body, told) => {
    expect(refused(finishBodySchema, body)).toMatch(told);
  });
});
