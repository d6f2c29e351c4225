import { describe, expect, test } from 'vitest';
import { blocksOf, holdsPoint } from '../../../../services/core/model/bed.js';
import {
  coverageOf,
  enoughProbes,
  nextProbe,
  type ProbePlace,
} from '../../../../services/core/watch/coverage/index.js';
import { ask, BOX, FOUR, PIT, QUESTION } from './a-bed.js';

/** Shares with a probe more rest on a model made together with other candidates. */
const TOGETHER = 0.03;
/** One place in five is asked while probes are placed. */
const COARSE = 0.12;
/** Placed one after the other, each where it adds most, probes find less together than the best four placed at once. */
const ONE_BY_ONE = 0.15;

const plain = ({ x, y, depth }: ProbePlace) => ({ x, y, depth });

describe('the next probe', () => {
  test('goes where none is, and finds as much as it says', () => {
    const standing = FOUR.filter(({ x }) => x < 40);
    const before = ask(standing).share;
    const next = nextProbe(BOX, standing, QUESTION);
    if (!next) throw new Error('expected a place');
    expect(next.x).toBeGreaterThan(40);
    expect(next.share).toBeGreaterThan(before + 0.05);
    expect(Math.abs(ask([...standing, plain(next)]).share - next.share)).toBeLessThan(TOGETHER);
  });

  test('is the first one where none stands, inside the sand', () => {
    const first = nextProbe(PIT, [], QUESTION);
    if (!first) throw new Error('expected a place');
    expect(holdsPoint(blocksOf(PIT.steps), first.x, first.y, first.depth)).toBe(true);
    expect(first.depth).toBeGreaterThan(10);
  });

  test('is the same when it is asked again, and refused as a question of coverage is', () => {
    expect(nextProbe(PIT, [], QUESTION)).toEqual(nextProbe(PIT, [], QUESTION));
    expect(() => nextProbe(BOX, FOUR, { ...QUESTION, days: Number.NaN })).toThrow(/days/);
    const many = Array.from({ length: 20 }, () => ({ x: 40, y: 25, depth: 25 }));
    expect(() => nextProbe(BOX, many, QUESTION)).toThrow(/at most 20, got 21/);
  });
});

describe('probes placed from none', () => {
  const told: string[] = [];
  const { placed, taken, share } = enoughProbes(BOX, 4, QUESTION, Number.POSITIVE_INFINITY, (by, most) =>
    told.push(`${by} of ${most}`),
  );

  test('are as many as asked, each elsewhere, and find more and more', () => {
    expect(placed).toHaveLength(4);
    expect(new Set(placed.map((place) => JSON.stringify(plain(place)))).size).toBe(4);
    const chances = [1, 2, 3, 4].map((count) => {
      const { places } = coverageOf(BOX, placed.slice(0, count).map(plain), QUESTION);
      return places.reduce((sum, { chance }) => sum + chance, 0);
    });
    expect(chances).toEqual([...chances].sort((one, other) => one - other));
  });

  test('find about as much as they say, and not much less than four that somebody placed evenly', () => {
    const share = coverageOf(BOX, placed.map(plain), QUESTION).share;
    expect(Math.abs(share - (placed[3]?.share ?? 0))).toBeLessThan(COARSE);
    expect(share).toBeGreaterThan(ask().share - ONE_BY_ONE);
  });

  test('of too many are refused, of none are none', () => {
    expect(() => enoughProbes(BOX, 21, QUESTION, 1)).toThrow(/at most 20, got 21/);
    expect(enoughProbes(BOX, 0, QUESTION, 1)).toEqual({ placed: [], taken: 0, share: 0 });
  });

  test('are all taken where none suffice, as few as suffice else, with the share of every place', () => {
    expect(told).toEqual(['1 of 4', '2 of 4', '3 of 4', '4 of 4']);
    expect(taken).toBe(4);
    expect(Math.abs(ask(placed.map(plain)).share - share)).toBeLessThan(TOGETHER);
    const second = placed[1]?.share ?? 0;
    const few = enoughProbes(BOX, 2, QUESTION, second);
    expect(few.taken).toBe(placed.findIndex((one) => one.share >= second) + 1);
    expect(enoughProbes(BOX, 2, QUESTION, 0).taken).toBe(1);
  });
});
