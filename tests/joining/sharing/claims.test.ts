import { describe, expect, test } from 'vitest';
import {
  type Holdings,
  type NextStep,
  nextStep,
  PATIENCE_ms,
} from '../../../services/joining/sharing/claims.js';

const holdings = (over: Partial<Holdings>): Holdings => ({
  ...{ partitions: 6, mine: [], self: 'w2', others: new Map(), free: new Map() },
  ...over,
});

const freeFor = (free_ms: number, ...partitions: number[]): ReadonlyMap<number, number> =>
  new Map(partitions.map((partition) => [partition, free_ms]));

const takes = (step: NextStep): readonly number[] => ('take' in step ? step.take : []);

describe('a free partition', () => {
  test('is taken by a worker that is alone', () => {
    expect(takes(nextStep(holdings({ free: freeFor(0, 0, 1, 2) })))).toEqual([0, 1, 2]);
  });

  test('is taken by one that holds no more than any other', () => {
    const others = new Map([['w1', [0]]]);
    expect(takes(nextStep(holdings({ mine: [1], others, free: freeFor(0, 2) })))).toEqual([2]);
  });

  test('is left to one that holds less, for a while', () => {
    const others = new Map([['w1', []]]);
    const mine = [1];
    expect(nextStep(holdings({ mine, others, free: freeFor(PATIENCE_ms - 1, 2) }))).toEqual({ wait: true });
    expect(takes(nextStep(holdings({ mine, others, free: freeFor(PATIENCE_ms, 2) })))).toEqual([2]);
  });

  test('is reached for by each worker from another place', () => {
    const free = freeFor(0, 0, 1, 2, 3, 4, 5);
    const names = ['w1', 'w2', 'w3'];
    const firsts = names.map((self) => {
      const others = new Map(names.filter((name) => name !== self).map((name) => [name, []]));
      return takes(nextStep(holdings({ self, others, free })))[0];
    });
    expect(firsts).toEqual([0, 2, 4]);
  });
});

describe('a partition that is held', () => {
  test('is left to a worker that holds two less', () => {
    const others = new Map([['w1', [0]]]);
    expect(nextStep(holdings({ mine: [1, 2, 3], others }))).toEqual({ leave: 3 });
  });

  test('stays where another holds one less: nothing would be won', () => {
    expect(nextStep(holdings({ mine: [1, 2], others: new Map([['w1', [0]]]) }))).toEqual({ wait: true });
  });

  test('is left by one worker at a time: who holds most, or the first by name', () => {
    const others = (mine: number[]) =>
      new Map([
        ['w1', mine],
        ['w3', []],
      ]);
    expect(nextStep(holdings({ mine: [3, 4], others: others([0, 1, 2]) }))).toEqual({ wait: true });
    expect(nextStep(holdings({ mine: [3, 4], others: others([0, 1]) }))).toEqual({ wait: true });
    expect(nextStep(holdings({ mine: [3, 4], others: others([0, 1]), self: 'w0' }))).toEqual({ leave: 4 });
  });

  test('stays while another is free: that one is taken first', () => {
    const others = new Map([['w1', []]]);
    expect(nextStep(holdings({ mine: [1, 2, 3], others, free: freeFor(0, 0) }))).toEqual({ wait: true });
  });
});

/** Workers that look one after the other, as often as it takes; a step of each is done at once. */
function settle(held: Map<string, number[]>, partitions: number): number {
  for (let round = 1; round <= 100; round += 1) {
    let changed = false;
    for (const [self, mine] of held) {
      const others = new Map([...held].filter(([name]) => name !== self));
      const all = Array.from({ length: partitions }, (_, partition) => partition);
      const free = freeFor(PATIENCE_ms, ...all.filter((one) => ![...held.values()].flat().includes(one)));
      const step = nextStep({ partitions, mine, others, self, free });
      if ('leave' in step)
        held.set(
          self,
          mine.filter((one) => one !== step.leave),
        );
      const [taken] = takes(step);
      if (taken !== undefined) held.set(self, [...mine, taken]);
      changed ||= 'leave' in step || taken !== undefined;
    }
    if (!changed) return round;
  }
  return Number.POSITIVE_INFINITY;
}

test.each([
  [1, 6],
  [3, 12],
  [5, 12],
  [4, 3],
  [7, 24],
])('%i workers come to rest, each with its share of %i', (workers, partitions) => {
  const names = Array.from({ length: workers }, (_, index) => `w${index}`);
  const held = new Map(names.map((name, index) => [name, index === 0 ? [...Array(partitions).keys()] : []]));
  expect(settle(held, partitions)).toBeLessThan(100);
  const counts = [...held.values()].map(({ length }) => length);
  expect([...held.values()].flat().sort((one, other) => one - other)).toEqual([...Array(partitions).keys()]);
  expect(Math.max(...counts) - Math.min(...counts)).toBeLessThanOrEqual(1);
  held.delete('w0');
  if (workers === 1) return;
  expect(settle(held, partitions)).toBeLessThan(100);
  expect([...held.values()].flat()).toHaveLength(partitions);
});
