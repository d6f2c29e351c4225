/** What requests about a bed to be filled may say, and what is kept of them. */
import { describe, expect, test } from 'vitest';
import type { z } from 'zod';
import { describeIssue } from '../../../services/core/model/problem.js';
import {
  handAnswersSchema,
  overrideSchema,
  readinessBodySchema,
  readinessRecordSchema,
} from '../../../services/core/model/readiness.js';
import { sievingSchema, weighingSchema } from '../../../services/core/model/sand-samples.js';

const refused = (schema: z.ZodType, body: unknown): string => {
  const parsed = schema.safeParse(body, { reportInput: true });
  return parsed.success ? 'taken' : parsed.error.issues.map(describeIssue).join('; ');
};

const SIEVING = {
  sieves: [
    { opening_mm: 2, retained_g: 10 },
    { number: 200, retained_g: 80 },
  ],
  pan_g: 10,
};
const WEIGHING = { wet_g: 804, dry_g: 800, container_g: 300, resolution_g: 1, way: 'pan' };

describe('answers', () => {
  test('none at all is taken: nothing was looked at', () => {
    expect(handAnswersSchema.parse({})).toEqual({});
  });

  test('all of them are taken', () => {
    const all = {
      curing: { days: 5, temperature_C: 30, humidity_RH: 90 },
      woundsHealed: true,
      rootsSorted: ['cut', 'rotten', 'weevil-tunnelled', 'frozen'],
      rootsCooled: true,
      roofOver: true,
      ditchDug: false,
      polesFirm: true,
      pitOpen_days: 4,
      sandSieved: true,
      sieving: SIEVING,
      weighing: WEIGHING,
      sandTemperature_C: 24,
      rodentsKeptOut: true,
      probesInSand: ['p01'],
      nextLook: { by: 'keeper', at: '2026-06-20T06:00:00Z' },
    };
    const parsed = handAnswersSchema.parse(all);
    expect(parsed).toEqual({ ...all, nextLook: { by: 'keeper', at: Date.parse('2026-06-20T06:00:00Z') } });
  });

  test.each([
    ['"yes" for true', { roofOver: 'yes' }, /roofOver/],
    ['a question that is not asked', { weather: true }, /expected no key "weather"/],
    ['a kind of root twice', { rootsSorted: ['cut', 'cut'] }, /rootsSorted: expected each kind once/],
    ['another kind of root', { rootsSorted: ['small'] }, /rootsSorted\[0\]/],
    ['days below 0', { curing: { days: -1 } }, /curing\.days/],
    ['curing without days', { curing: { humidity_RH: 90 } }, /curing\.days/],
    ['a look by nobody', { nextLook: { by: ' ', at: '2026-06-20T06:00:00Z' } }, /nextLook\.by/],
    [
      'a look at no time',
      { nextLook: { by: 'keeper', at: 'Monday' } },
      /nextLook\.at: expected an RFC 3339 time/,
    ],
    ['sand as hot as a fire', { sandTemperature_C: 400 }, /sandTemperature_C/],
  ])('%s is refused', (_, answers, told) => {
    expect(refused(handAnswersSchema, answers)).toMatch(told);
  });
});

describe('samples', () => {
  test.each([
    ['one sieve', { ...SIEVING, sieves: [{ opening_mm: 2, retained_g: 10 }] }, /sieves: expected at least 2/],
    [
      'a sieve with number and opening',
      {
        ...SIEVING,
        sieves: [
          { opening_mm: 2, number: 10, retained_g: 10 },
          { number: 200, retained_g: 1 },
        ],
      },
      /sieves\[0\]: expected \{ opening_mm, retained_g \} or \{ number, retained_g \}/,
    ],
    ['no pan', { sieves: SIEVING.sieves }, /pan_g/],
    ['a pan below 0', { ...SIEVING, pan_g: -1 }, /pan_g/],
    ['a sample of nothing', { ...SIEVING, total_g: 0 }, /total_g/],
  ])('a sieving with %s is refused', (_, sieving, told) => {
    expect(refused(sievingSchema, sieving)).toMatch(told);
  });

  test.each([
    ['no container', { ...WEIGHING, container_g: undefined }, /container_g/],
    ['a balance without a step', { ...WEIGHING, resolution_g: 0 }, /resolution_g/],
    ['another way of drying', { ...WEIGHING, way: 'sun' }, /way/],
    ['kilograms of a lorry', { ...WEIGHING, wet_g: 2e6 }, /wet_g/],
  ])('a weighing with %s is refused', (_, weighing, told) => {
    expect(refused(weighingSchema, weighing)).toMatch(told);
  });
});

describe('override', () => {
  const override = { by: 'owner', at: '2026-06-10T08:00:00Z', reason: 'rain comes' };

  test('a reason of 10 characters is taken', () => {
    expect(refused(overrideSchema, override)).toBe('taken');
  });

  test.each([
    ['9 characters', { reason: 'rain come' }, /reason: expected at least 10/],
    ['blanks around 9 characters', { reason: ' rain come ' }, /reason: expected at least 10/],
    ['501 characters', { reason: 'x'.repeat(501) }, /reason: expected at most 500/],
    ['nobody', { by: '' }, /by/],
    ['no time', { at: 0 }, /at/],
  ])('of %s is refused', (_, part, told) => {
    expect(refused(overrideSchema, { ...override, ...part })).toMatch(told);
  });

  test('is not part of what is judged', () => {
    const body = { at: '2026-06-10T06:00:00Z', by: 'keeper', answers: {} };
    expect(refused(readinessBodySchema, body)).toBe('taken');
    expect(refused(readinessBodySchema, { ...body, override })).toMatch(/expected no key "override"/);
  });
});

describe('record', () => {
  const at = Date.parse('2026-06-10T06:00:00Z');
  const record = {
    id: 'r1',
    bed: 'pit-1',
    at,
    by: 'keeper',
    kind: 'stepped-pit',
    items: [],
    answers: { roofOver: false, nextLook: { by: 'keeper', at: at + 1 } },
    verdict: 'not ready',
    notMet: ['roof'],
    unknown: ['ditch'],
    overrides: [
      { by: 'owner', at: at + 1, reason: 'rain comes', verdict: 'not ready', points: ['roof', 'ditch'] },
    ],
  };

  test('is read back as it was kept', () => {
    expect(readinessRecordSchema.parse(JSON.parse(JSON.stringify(record)))).toEqual(record);
  });

  test.each([
    ['a time as text', { at: '2026-06-10T06:00:00Z' }, /at/],
    ['another verdict', { verdict: 'good' }, /verdict/],
    ['an item that is not on the list', { notMet: ['moon'] }, /notMet\[0\]/],
    [
      'an override of a bed that is ready',
      { overrides: [{ ...record.overrides[0], verdict: 'ready' }] },
      /overrides\[0\]\.verdict/,
    ],
    [
      'an override of nothing',
      { overrides: [{ ...record.overrides[0], points: [] }] },
      /overrides\[0\]\.points/,
    ],
  ])('with %s is refused', (_, part, told) => {
    expect(refused(readinessRecordSchema, { ...record, ...part })).toMatch(told);
  });
});
