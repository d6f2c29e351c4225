import { describe, expect, test } from 'vitest';
import { readinessOf } from '../../../services/core/keeping/readiness.js';
import { overrideReadiness } from '../../../services/core/keeping/readiness-override.js';
import { HOUR_ms } from '../../../services/core/model/time.js';
import { AT, answering, LIMITS, PIT } from './a-bed-to-fill.js';
import { codeOf } from './some-sand.js';

const NOT_READY = Object.freeze(readinessOf(answering({ polesFirm: false, ditchDug: undefined }), LIMITS));
const OVERRIDE = Object.freeze({
  by: 'head of the station',
  at: AT + HOUR_ms,
  reason: 'Rain comes tomorrow; poles are set after filling.',
});

describe('filled all the same', () => {
  const overridden = overrideReadiness(NOT_READY, OVERRIDE);

  test('the verdict, the items and what was found stay', () => {
    expect(overridden.verdict).toBe('not ready');
    expect(overridden.items).toBe(NOT_READY.items);
    expect(overridden.notMet).toEqual(['poles']);
    expect(NOT_READY.overrides).toEqual([]);
  });

  test('who, when, why and against what is kept', () => {
    expect(overridden.overrides).toEqual([{ ...OVERRIDE, verdict: 'not ready', points: ['poles', 'ditch'] }]);
  });

  test('and told', () => {
    expect(overridden.sentence).toBe(
      'Not ready: 1 of 21 points is not met (poles). Not known: ditch. head of the station has it filled all the same ' +
        '(2026-06-10T07:20:00Z): Rain comes tomorrow; poles are set after filling.',
    );
  });

  test('a second is kept beside the first', () => {
    const twice = overrideReadiness(overridden, { ...OVERRIDE, by: 'owner', at: AT + 2 * HOUR_ms });
    expect(twice.overrides.map(({ by }) => by)).toEqual(['head of the station', 'owner']);
    expect(twice.sentence).toMatch(/head of the station .* owner /);
  });

  test('what is only not known can be overridden too', () => {
    const unknown = readinessOf(answering({ ditchDug: undefined }), LIMITS);
    expect(overrideReadiness(unknown, OVERRIDE).overrides[0]).toMatchObject({
      verdict: 'unknown',
      points: ['ditch'],
    });
  });
});

describe('refused', () => {
  test('where the bed is ready', () => {
    expect(codeOf(() => overrideReadiness(readinessOf(PIT, LIMITS), OVERRIDE))).toBe('CONFLICT');
  });

  test.each([
    ['a reason of 9 characters', { reason: 'no time !' }],
    ['a reason of blanks', { reason: ' '.repeat(30) }],
    ['a reason of 501 characters', { reason: 'x'.repeat(501) }],
    ['nobody', { by: '  ' }],
    ['before it was judged', { at: AT - 1 }],
    ['no time', { at: Number.NaN }],
  ])('%s', (_, part) => {
    expect(codeOf(() => overrideReadiness(NOT_READY, { ...OVERRIDE, ...part }))).toBe('OUT_OF_DOMAIN');
  });

  test('one before the last', () => {
    const once = overrideReadiness(NOT_READY, OVERRIDE);
    expect(codeOf(() => overrideReadiness(once, { ...OVERRIDE, at: AT }))).toBe('OUT_OF_DOMAIN');
  });
});

test.each([10, 500])('a reason of %d characters is taken', (length) => {
  expect(codeOf(() => overrideReadiness(NOT_READY, { ...OVERRIDE, reason: 'x'.repeat(length) }))).toBe(
    'no error',
  );
});
