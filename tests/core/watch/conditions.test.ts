import { expect, test } from 'vitest';
import { fromText, toText } from '../../../services/core/watch/checkpoint-text.js';
import { changesOf, type Standing } from '../../../services/core/watch/conditions.js';

const heating = (x: number, radius = 20): Standing => ({
  ...{ kind: 'heating', action: 'unpack', subject: '', priority: 'high' },
  evidence: { excess_C: 1 },
  place: { x, y: 50, depth: 30, radius },
});

test('a condition is raised once, refined where its place moves, and cleared when it is gone', () => {
  const first = changesOf([], [heating(40)]);
  expect(first.changes.map(({ type }) => type)).toEqual(['raise']);
  const second = changesOf(first.told, [heating(42)]);
  expect(second.changes).toEqual([]);
  const third = changesOf(second.told, [heating(48)]);
  expect(third.changes).toMatchObject([{ type: 'refine', place: { x: 48 } }]);
  expect(changesOf(third.told, []).changes).toMatchObject([
    { type: 'clear', kind: 'heating', action: 'unpack' },
  ]);
});

test('slow moves add up: a place is held against what was told, not against the hour before', () => {
  const { told } = changesOf([], [heating(40)]);
  const slowly = changesOf(told, [heating(42)]);
  expect(changesOf(slowly.told, [heating(44)]).changes.map(({ type }) => type)).toEqual(['refine']);
});

test('a fault of one probe is not that of another', () => {
  const fault = (subject: string): Standing => ({
    ...{ kind: 'probe-fault', action: 'service', subject, priority: 'low', evidence: {}, place: null },
  });
  const { told } = changesOf([], [fault('p01')]);
  expect(changesOf(told, [fault('p01'), fault('p02')]).changes).toMatchObject([
    { type: 'raise', subject: 'p02' },
  ]);
});

test('a state with arrays comes back from its text to the last bit', () => {
  const state = {
    f64: Float64Array.of(0.1, -0, Number.MIN_VALUE, 1e300),
    f32: Float32Array.of(0.1, -7),
    i16: Int16Array.of(-32768, 32767, 0),
    plain: [1, 'a', null],
  };
  expect(fromText(toText(state))).toEqual(state);
});
