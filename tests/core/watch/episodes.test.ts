import { describe, expect, test } from 'vitest';
import type { Episode } from '../../../services/core/model/alarm.js';
import { type TimedChange, toEpisodes } from '../../../services/core/watch/episodes.js';

const raise = (
  action: 'check' | 'unpack',
  at: number,
  kind: 'heating' | 'damp' = 'heating',
  subject = '',
): TimedChange => ({
  type: 'raise',
  ...{ kind, action, subject, at },
  priority: action === 'unpack' ? 'high' : 'medium',
  evidence: { probe: 'p01', excess_C: at },
  place: null,
});
const clear = (
  action: 'check' | 'unpack',
  at: number,
  kind: 'heating' | 'damp' = 'heating',
  subject = '',
): TimedChange => ({
  type: 'clear',
  ...{ kind, action, subject, at },
});
const PLACE = { x: 80, y: 35, depth: 40, radius: 15 };
const refine = (action: 'check' | 'unpack', at: number): TimedChange => ({
  type: 'refine',
  ...{ kind: 'heating', action, subject: '', at },
  evidence: { probe: 'p02', excess_C: at },
  place: PLACE,
});
const episode = (action: 'check' | 'unpack', raisedAt: number, clearedAt: number | null): Episode => ({
  bed: 'pit-a',
  kind: 'heating',
  ...{ action, subject: '' },
  priority: action === 'unpack' ? 'high' : 'medium',
  ...{ raisedAt, clearedAt },
  evidence: { probe: 'p01', excess_C: raisedAt },
  place: null,
});
const folded = (open: readonly Episode[], changes: readonly TimedChange[]): Episode[] =>
  toEpisodes('pit-a', Object.freeze([...open]), Object.freeze([...changes]));

describe('changes to episodes', () => {
  test('nothing open and nothing changed is nothing', () => {
    expect(folded([], [])).toEqual([]);
  });
  test('a raise opens an episode at its event time', () => {
    expect(folded([], [raise('check', 5)])).toEqual([episode('check', 5, null)]);
  });
  test('a clear ends it', () => {
    expect(folded([], [raise('check', 5), clear('check', 9)])).toEqual([episode('check', 5, 9)]);
  });
  test('what was open before stays in the answer, first', () => {
    const open = [episode('check', 1, null)];
    expect(folded(open, [])).toEqual(open);
    expect(folded(open, [raise('unpack', 5)])).toEqual([...open, episode('unpack', 5, null)]);
  });
  test('what was open before is ended', () => {
    expect(folded([episode('check', 1, null)], [clear('check', 5)])).toEqual([episode('check', 1, 5)]);
  });
  test('raised again after its end, it is another episode', () => {
    expect(folded([], [raise('check', 1), clear('check', 5), raise('check', 9)])).toEqual([
      episode('check', 1, 5),
      episode('check', 9, null),
    ]);
  });
  test('a second raise of what is open changes nothing', () => {
    expect(folded([], [raise('check', 1), raise('check', 5)])).toEqual([episode('check', 1, null)]);
    expect(folded([episode('check', 1, null)], [raise('check', 5)])).toEqual([episode('check', 1, null)]);
  });
  test('a clear of what is not open changes nothing', () => {
    expect(folded([], [clear('check', 5)])).toEqual([]);
    expect(folded([episode('check', 1, null)], [clear('unpack', 5)])).toEqual([episode('check', 1, null)]);
  });
  test('a refinement replaces evidence and place, and nothing else', () => {
    const refined = { ...episode('check', 1, null), evidence: { probe: 'p02', excess_C: 5 }, place: PLACE };
    expect(folded([], [raise('check', 1), refine('check', 5)])).toEqual([refined]);
    expect(folded([episode('check', 1, null)], [refine('check', 3), refine('check', 5)])).toEqual([refined]);
    expect(folded([episode('check', 1, null)], [refine('check', 5), clear('check', 9)])).toEqual([
      { ...refined, clearedAt: 9 },
    ]);
  });
  test('a refinement of what is not open changes nothing', () => {
    expect(folded([], [refine('check', 5)])).toEqual([]);
    expect(folded([episode('check', 1, null)], [refine('unpack', 5)])).toEqual([episode('check', 1, null)]);
    const over = [raise('check', 1), clear('check', 3), refine('check', 5)];
    expect(folded([], over)).toEqual([episode('check', 1, 3)]);
  });
  test('subjects are told apart', () => {
    const p01 = raise('check', 1, 'heating', 'p01');
    const p02 = raise('check', 2, 'heating', 'p02');
    const episodes = folded([], [p01, p02, clear('check', 5, 'heating', 'p02'), clear('check', 6)]);
    expect(episodes.map(({ subject, clearedAt }) => [subject, clearedAt])).toEqual([
      ['p01', null],
      ['p02', 5],
    ]);
  });
  test('kinds and actions are told apart', () => {
    const episodes = folded([], [raise('check', 1), raise('check', 1, 'damp'), clear('check', 5, 'damp')]);
    expect(episodes.map(({ kind, clearedAt }) => [kind, clearedAt])).toEqual([
      ['heating', null],
      ['damp', 5],
    ]);
  });
});
