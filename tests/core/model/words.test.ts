/** Ids, inspections, acknowledgements, units, and how a refusal is said. */
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { acknowledgeBodySchema } from '../../../services/core/model/alarm.js';
import { idSchema } from '../../../services/core/model/id.js';
import { inspectionBodySchema } from '../../../services/core/model/inspection.js';
import { describeIssue, issueWords, keyOf, shown } from '../../../services/core/model/problem.js';
import { QUANTITIES, STORABLE, STORED_UNIT, UNIT_RULES } from '../../../services/core/model/quantity.js';

describe('ids', () => {
  test.each(['p', '0', 'p01', 'ridge-station', 'a'.repeat(32)])('%s is one', (id) => {
    expect(idSchema.safeParse(id).success).toBe(true);
  });
  test.each(['', '-a', 'A', 'a_b', 'a.b', 'a b', 'a/b', 'é', 'a\n', '+', '#', 'a'.repeat(33)])(
    '%j is none',
    (id) => {
      expect(idSchema.safeParse(id).success).toBe(false);
    },
  );
});

describe('inspections', () => {
  const body = {
    at: '2026-06-01T09:00:00Z',
    by: 'keeper-1',
    opened: true,
    repacked: false,
    found: ['nothing'],
  };
  const refused = (part: object): string => {
    const parsed = inspectionBodySchema.safeParse({ ...body, ...part }, { reportInput: true });
    return parsed.success ? 'taken' : parsed.error.issues.map(describeIssue).join('; ');
  };
  test('one as the contract has it', () => {
    expect(refused({})).toBe('taken');
  });
  test.each([
    [
      'repacked and not opened',
      { opened: false, repacked: true },
      /opened: expected true where repacked is true/,
    ],
    [
      'nothing and rot',
      { found: ['rot', 'nothing'] },
      /found: expected "nothing" alone, or what was found, got rot, nothing$/,
    ],
    ['a time before 2000', { at: '1999-01-01T00:00:00Z' }, /at: .*got "1999/],
    ['a time in ms', { at: 1_780_000_000_000 }, /at: expected string/],
    ['by nobody', { by: ' ' }, /by: expected at least 1 characters/],
    ['opened as text', { opened: 'yes' }, /opened: expected boolean, got "yes"/],
    ['nothing found at all', { found: [] }, /found: expected at least 1 entries/],
    ['something else found', { found: ['snake'] }, /found\[0\]: expected "rot" or .*got "snake"/],
    ['a key too many', { weather: 'fine' }, /expected no key "weather"/],
  ])('%s is refused', (_, part, told) => {
    expect(refused(part)).toMatch(told);
  });
});

test('what may be one thing or another is told as both', () => {
  const schema = z.strictObject({ column: z.union([z.string(), z.array(z.string())]) });
  const told = (column: unknown) =>
    schema.safeParse({ column }, { reportInput: true }).error?.issues.map(describeIssue).join('; ');
  expect(told(undefined)).toBe('column: expected string or array, got nothing');
  expect(told(7)).toBe('column: expected string or array, got 7');
  expect(told('Date')).toBeUndefined();
});

describe('acknowledgements', () => {
  test('a note may be left out', () => {
    expect(acknowledgeBodySchema.parse({ by: ' keeper-1 ' })).toEqual({ by: 'keeper-1', note: '' });
  });
  test.each([
    ['by nobody', { note: 'seen' }],
    ['a note without end', { by: 'keeper-1', note: 'x'.repeat(1001) }],
    ['a key too many', { by: 'keeper-1', at: 0 }],
  ])('%s is refused', (_, body) => {
    expect(acknowledgeBodySchema.safeParse(body).success).toBe(false);
  });
});

describe('units', () => {
  test.each([
    ['temperature', 'Cel', 23.5, 23.5],
    ['temperature', 'K', 293.15, 20],
    ['temperature', 'K', 0, -273.15],
    ['humidity', '%RH', 85.4, 85.4],
    ['humidity', '/', 0.854, 85.4],
    ['battery', 'V', 3.1, 3.1],
    ['battery', '%EL', 80, 80],
  ])('%s in %s: %d is stored as %d', (name, unit, sent, stored) => {
    expect(UNIT_RULES[name]?.[unit]?.convert(sent)).toBe(stored);
  });
  test('there is no rule for another unit', () => {
    expect(UNIT_RULES['temperature']?.['F']).toBeUndefined();
    expect(UNIT_RULES['humidity']?.['Cel']).toBeUndefined();
  });
  test('every quantity has its limits and its unit, and every rule a quantity', () => {
    expect(Object.keys(STORABLE).sort()).toEqual([...QUANTITIES].sort());
    expect(Object.keys(STORED_UNIT).sort()).toEqual([...QUANTITIES].sort());
    const made = Object.values(UNIT_RULES).flatMap((rules) =>
      Object.values(rules).map(({ quantity }) => quantity),
    );
    expect([...new Set(made)].sort()).toEqual([...QUANTITIES].sort());
  });
});

describe('how a refusal is said', () => {
  test('keys', () => {
    expect(keyOf([])).toBe('the document');
    expect(keyOf(['probes', 1, 'placements', 0, 'depth'])).toBe('probes[1].placements[0].depth');
    expect(keyOf([0, 'id'])).toBe('[0].id');
  });
  test('a date, an integer and a choice are said in words, with what was there', () => {
    const choice = z.discriminatedUnion('kind', [
      z.object({ kind: z.literal('ice') }),
      z.object({ kind: z.literal('salt') }),
    ]);
    const said = (schema: z.ZodType, value: unknown): string | undefined =>
      schema.safeParse(value, { reportInput: true }).error?.issues.map(issueWords).join('; ');
    expect(said(z.iso.date(), '3 March')).toBe('expected a date such as 2026-03-01, got "3 March"');
    expect(said(z.int(), 1.5)).toBe('expected integer, got 1.5');
    expect(said(choice, { kind: 'sugar' })).toBe('expected "ice" or "salt", got "sugar"');
    expect(said(choice, {})).toBe('expected "ice" or "salt", got nothing');
    expect(said(z.number().positive(), 0)).toBe('expected more than 0, got 0');
    expect(said(z.union([z.literal(1), z.string()]), null)).toContain('got null');
  });

  test('values are cut at 80 characters, and what is not JSON is still said', () => {
    expect(shown('x'.repeat(200))).toHaveLength(81);
    expect(shown(undefined)).toBe('nothing');
    expect(shown(() => 1)).toContain('=>');
    expect(shown(Number.NaN)).toBe('NaN');
    expect(shown(-1.5)).toBe('-1.5');
  });
});
