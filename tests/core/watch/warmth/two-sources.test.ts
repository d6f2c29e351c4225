import { expect, test } from 'vitest';
import { makingOf } from '../../../../services/commands/evaluation/scenarios.js';
import { seasonsOf } from '../../../../services/commands/evaluation/season.js';
import { watchHours } from '../../../../services/commands/evaluation/watched-season.js';
import { sandWatch } from '../../../../services/core/watch/sand-watch.js';

const SCENARIO = 'two sources';
const SEED = 13;

test('what the probes beside a source show that was told and left is put down to it, not to a fault of theirs', () => {
  const seed = 1104;
  const [season] = seasonsOf(SCENARIO, makingOf(SCENARIO)(seed), seed);
  if (!season) throw new Error('expected a season');
  const { changes } = watchHours(season.watched, season.hours, sandWatch);
  const raised = changes.flatMap((change) => (change.type === 'raise' ? [change] : []));
  expect(raised.filter(({ kind, action }) => kind === 'heating' && action === 'unpack')).toHaveLength(2);
  expect(raised.filter(({ kind }) => kind === 'probe-fault')).toEqual([]);
});

test('a second source is told while the first still stands, under a name and at a place of its own', () => {
  const [season] = seasonsOf(SCENARIO, makingOf(SCENARIO)(SEED), SEED);
  if (!season) throw new Error('expected a season');
  const raised = watchHours(season.watched, season.hours, sandWatch).changes.flatMap((change) =>
    change.type === 'raise' && change.kind === 'heating' && change.action === 'unpack' ? [change] : [],
  );
  expect(raised.map(({ subject }) => subject)).toEqual(['', 'second']);
  const rots = season.truth
    .filter((one) => one.kind === 'rot')
    .sort((one, other) => one.startDay - other.startDay);
  rots.forEach(({ startDay, place }, at) => {
    const told = raised[at];
    if (!told?.place) throw new Error('expected a place');
    expect((told.at - season.startAt) / 86_400_000).toBeGreaterThan(startDay);
    const { x, y, depth, radius } = told.place;
    expect(Math.hypot(x - place.x, y - place.y, depth - place.depth)).toBeLessThan(radius);
  });
});
