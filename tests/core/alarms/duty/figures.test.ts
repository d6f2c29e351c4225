/** Figures of telling, computed by hand. */
import { describe, expect, test } from 'vitest';
import { figuresOf, RECOMMENDED_RATES } from '../../../../services/core/alarms/duty/figures.js';
import type { ToldRecord } from '../../../../services/core/alarms/duty/types.js';
import { clock } from './a-site.js';

const record = (alarm: string, otherwise: Partial<ToldRecord> = {}): ToldRecord => ({
  ...{ message: `m-${alarm}`, alarm, bed: 'pit-a', person: 'ana', event: 'raised', at: clock('10:00') },
  ...{ way: { via: 'sms', to: '+260970000000' }, step: 0, form: 'single', pace: 'at-once' },
  ...{ caution: false, closing: false, delivered: true },
  ...otherwise,
});
const answered = (id: string, minutes: number) => ({
  ...{ id, action: 'unpack' as const },
  acknowledgement: { by: 'ana', note: '', at: clock('10:00') + minutes * 60_000 },
});
const WEEKS = { from: clock('00:00'), to: clock('00:00', 15) };

test('messages a week: those of a bundle are one, what was given up is none', () => {
  const told = [
    record('a1'),
    record('c1', { message: 'b1', at: clock('06:30', 2), form: 'bundle' }),
    record('c2', { message: 'b1', at: clock('06:30', 2), form: 'bundle' }),
    record('a2', { message: 'm2', delivered: false }),
    record('a1', { message: 'm3', person: 'ben', delivered: null }),
    record('a9', { message: 'm9', at: WEEKS.to }),
    record('a0', { message: 'm0', at: WEEKS.from - 1 }),
  ];
  expect(figuresOf({ ...WEEKS, told, alarms: [] }).people).toEqual([
    { person: 'ana', messages: 2, messages_per_week: 1 },
    { person: 'ben', messages: 1, messages_per_week: 0.5 },
  ]);
});

test('the time to an answer: median and 90th percentile of the answered, and the share of them', () => {
  const minutes = [10, 20, 30, 40, 50, 60, 70, 80, 90, 100];
  const alarms = [
    ...minutes.map((wait, at) => answered(`a${at}`, wait)),
    { id: 'open', action: 'check' as const, acknowledgement: null },
    { id: 'mute', action: 'none' as const, acknowledgement: null },
  ];
  const told = alarms.flatMap(({ id }) => [
    record(id),
    record(id, { message: `later-${id}`, person: 'ben', at: clock('10:05') }),
  ]);
  expect(figuresOf({ ...WEEKS, told, alarms })).toMatchObject({
    ...{ told: 11, answered: 10, answered_share: 10 / 11 },
    answer_min: { median: 55, percentile_90: 91 },
  });
});

test('a repeat does not begin the time anew, and a telling before the time is not of it', () => {
  const told = [record('a1'), record('a1', { message: 'again', at: clock('10:00', 2) })];
  const alarms = [answered('a1', 24 * 60 + 30)];
  expect(figuresOf({ ...WEEKS, told, alarms }).answer_min?.median).toBe(24 * 60 + 30);
  const second = { from: clock('00:00', 2), to: clock('00:00', 3) };
  expect(figuresOf({ ...second, told, alarms })).toMatchObject({ told: 0, answered_share: null });
});

test('an answer before the telling counts as 0', () => {
  const figures = figuresOf({ ...WEEKS, told: [record('a1')], alarms: [answered('a1', -5)] });
  expect(figures.answer_min).toEqual({ median: 0, percentile_90: 0 });
});

test('alarms for a keeper and a day stand beside the recommendation', () => {
  const told = [
    ...['a1', 'a2', 'a3'].map((id) => record(id)),
    record('a1', { message: 'm2', person: 'ben' }),
    record('a1', { message: 'm3', event: 'cleared' }),
    record('a1', { message: 'm4', at: clock('10:00', 2) }),
  ];
  const figures = figuresOf({ ...WEEKS, told, alarms: [] });
  expect(figures.alarms_per_keeper_day).toBeCloseTo(4 / 2 / 14, 12); // exact but for rounding
  expect(figures.recommended).toBe(RECOMMENDED_RATES);
  // ANSI/ISA-18.2, from memory
  expect(RECOMMENDED_RATES).toMatchObject({ acceptable_per_day: 150, most_per_day: 300 });
  expect(RECOMMENDED_RATES.source).toMatch(/from memory/);
});

describe('nothing and nonsense', () => {
  test('of nothing there are no figures', () => {
    expect(figuresOf({ ...WEEKS, told: [], alarms: [] })).toMatchObject({
      ...{ people: [], told: 0, answered: 0, answered_share: null, answer_min: null },
      alarms_per_keeper_day: null,
    });
  });
  test.each([
    ['no length', { from: WEEKS.from, to: WEEKS.from }],
    ['turned round', { from: WEEKS.to, to: WEEKS.from }],
    ['no time', { from: Number.NaN, to: WEEKS.to }],
    ['no end', { from: WEEKS.from, to: Number.POSITIVE_INFINITY }],
  ])('%s is refused', (_, time) => {
    expect(() => figuresOf({ ...time, told: [], alarms: [] })).toThrow(/(from|to), ms must be in/);
  });
});
