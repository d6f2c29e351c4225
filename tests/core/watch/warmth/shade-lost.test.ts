import { expect, test } from 'vitest';
import { makingOf } from '../../../../services/commands/evaluation/scenarios.js';
import { seasonsOf } from '../../../../services/commands/evaluation/season.js';
import { watchHours } from '../../../../services/commands/evaluation/watched-season.js';
import { sandWatch } from '../../../../services/core/watch/sand-watch.js';
import { History } from '../../../../services/core/watch/warmth/history.js';

/** Both are drawn with a shade probe that falls silent in the middle of a day. */
const SCENARIO = 'shade probe missing';
const SEED = 1101;

test('a shade probe that falls silent in the middle of a day makes no rot', () => {
  for (const season of seasonsOf(SCENARIO, makingOf(SCENARIO)(SEED), SEED)) {
    expect(season.truth.map((one) => (one.kind === 'fault' ? one.fault : one.kind))).toEqual(['silent']);
    const calls = watchHours(season.watched, season.hours, sandWatch).changes.filter(
      (change) => change.type === 'raise' && change.kind === 'heating' && change.action === 'unpack',
    );
    expect(calls).toEqual([]);
  }
});

test('air that is missing is taken to be as it was at that time a day ago', () => {
  const history = new History(150, 20);
  expect(history.usualAir()).toBe(0);
  for (const air of [3, -1, -4, 2]) history.add(air, 0);
  expect(history.usualAir()).toBe(3);
  history.add(history.usualAir(), 0);
  expect(history.usualAir()).toBe(-1);
});
