import { describe, expect, test } from 'vitest';
import { blocksOf, volume_L } from '../../../../services/core/model/bed.js';
import {
  type Coverage,
  coverageOf,
  type PlaceChance,
} from '../../../../services/core/watch/coverage/index.js';
import { ask, BOX, FOUR, PIT, QUESTION } from './a-bed.js';

/**
 * Where more is to be found, a place may be found less by so much: more of a source may be more like its mirror image,
 * sand that cools elsewhere, and the watch then says nothing. On the average nothing is lost.
 */
const LESS = { at_a_place: 0.15, mean: 0.002 } as const;
/** The places at which the watch looks for a source are not mirrored. */
const MIRRORED = 0.12;

const usual = ask();

const chanceAt = (places: readonly PlaceChance[], x: number, y: number, depth: number): number =>
  places.find((place) => Math.hypot(place.x - x, place.y - y, place.depth - depth) < 1e-6)?.chance ??
  Number.NaN;

const mean = (places: readonly PlaceChance[]): number =>
  places.reduce((sum, { chance }) => sum + chance, 0) / places.length;

function expectNoLess(more: Coverage | undefined, less: Coverage): void {
  if (!more) throw new Error('expected one to compare with');
  for (const [index, { chance }] of less.places.entries())
    expect(more.places[index]?.chance).toBeGreaterThan(chance - LESS.at_a_place);
  expect(mean(more.places)).toBeGreaterThan(mean(less.places) - LESS.mean);
}

describe('the places', () => {
  test.each([
    ['box', BOX],
    ['pit', PIT],
  ])('of a %s stand for all of it, and no more', (_, bed) => {
    const { places } = ask([{ x: 50, y: 30, depth: 20 }], {}, bed);
    const together = places.reduce((sum, place) => sum + place.volume_L, 0);
    expect(together).toBeCloseTo(volume_L(blocksOf(bed.steps)), 6);
  });

  test('beside a probe are found, and far from all of them not', () => {
    const nearest = ({ x, y, depth }: PlaceChance): number =>
      Math.min(...FOUR.map((probe) => Math.hypot(probe.x - x, probe.y - y, probe.depth - depth)));
    const beside = usual.places.filter((place) => nearest(place) < 12);
    const off = usual.places.filter((place) => nearest(place) > 30);
    expect(beside.length).toBeGreaterThan(5);
    expect(off.length).toBeGreaterThan(5);
    expect(mean(beside)).toBeGreaterThan(0.9);
    expect(mean(off)).toBeLessThan(0.5);
  });

  test('of a symmetric bed with symmetric probes are as good in each half', () => {
    const half = (isIn: (place: PlaceChance) => boolean): number => mean(usual.places.filter(isIn));
    const [left, right] = [half(({ x }) => x < 40), half(({ x }) => x > 40)];
    const [near, far] = [half(({ y }) => y < 25), half(({ y }) => y > 25)];
    expect(Math.abs(left - right)).toBeLessThan(MIRRORED);
    expect(Math.abs(near - far)).toBeLessThan(MIRRORED);
  });
});

describe('what is found', () => {
  test('is as much as its places', () => {
    const found = usual.places.filter(({ chance }) => chance >= 0.9);
    const share = found.reduce((sum, place) => sum + place.volume_L, 0) / 200;
    expect(usual.share).toBeCloseTo(share, 9);
    expect(usual.share).toBeGreaterThan(0.1);
    expect(usual.share + usual.blindShare).toBeLessThan(1);
  });

  test('is not less for a stronger source', () => {
    const powers = [1, 2, 4].map((power_W) => ask(FOUR, { power_W }));
    for (const [index, less] of powers.slice(0, -1).entries()) expectNoLess(powers[index + 1], less);
    expect(powers.at(-1)?.share).toBeGreaterThan((powers[0]?.share ?? 1) + 0.2);
  });

  test('is not less in more days', () => {
    const spans = [3, 7, 21].map((days) => ask(FOUR, { days }));
    for (const [index, less] of spans.slice(0, -1).entries()) expectNoLess(spans[index + 1], less);
    expect(spans.at(-1)?.share).toBeGreaterThan((spans[0]?.share ?? 1) + 0.1);
  });

  test('is not less with one probe more', () => {
    const sets = [1, 2, 3, 4].map((count) => ask(FOUR.slice(0, count)));
    for (const [index, less] of sets.slice(0, -1).entries())
      expect(mean(sets[index + 1]?.places ?? [])).toBeGreaterThan(mean(less.places));
    expect(sets[3]?.share).toBeGreaterThan((sets[0]?.share ?? 1) + 0.1);
  });

  test('is less without a probe in the shade, and where fewer false alarms are allowed', () => {
    expect(ask(FOUR, { shade: false }).share).toBeLessThan(usual.share);
    const strict = { unpack_per_bed_month: 1e-6, check_per_bed_month: 0.1 };
    expect(mean(ask(FOUR, { rates: strict }).places)).toBeLessThan(mean(usual.places));
  });

  test('is the same when it is asked again', () => {
    expect(ask()).toEqual(usual);
  });
});

describe('blind spots', () => {
  test('of a bed without probes are all of it, never found', () => {
    const { share, blindShare, blindSpots } = ask([]);
    expect([share, blindShare]).toEqual([0, 1]);
    expect(blindSpots.length).toBeGreaterThan(0);
    for (const spot of blindSpots) expect(spot).not.toHaveProperty('foundAfter_days');
  });

  test('lie in the bed, hold blind places, come largest first, and none is told twice', () => {
    const { places, blindSpots, blindShare } = ask(FOUR.slice(0, 2));
    expect(blindSpots.length).toBeGreaterThan(0);
    for (const { x, y, depth } of blindSpots) expect(chanceAt(places, x, y, depth)).toBeLessThan(0.5);
    const shares = blindSpots.map(({ share }) => share);
    expect(shares).toEqual([...shares].sort((one, other) => other - one));
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeLessThanOrEqual(blindShare + 1e-9);
  });

  test('say after how many days they would be found, later than was asked', () => {
    const spots = ask(FOUR, { days: 2, power_W: 3 }).blindSpots;
    const days = spots.flatMap(({ foundAfter_days }) => foundAfter_days ?? []);
    expect(days.length).toBeGreaterThan(0);
    for (const count of days) expect([10, 14, 21]).toContain(count);
  });
});

describe('is refused', () => {
  test.each([
    ['no power', { power_W: 0 }, /power \(W\) must be in \[0.5, 8\], got 0/],
    ['a power that is no number', { power_W: Number.NaN }, /power \(W\)/],
    ['no days', { days: 0 }, /days must be in \[1, 21\], got 0/],
    ['more days than the watch looks back', { days: 22 }, /days/],
    ['days without end', { days: Number.POSITIVE_INFINITY }, /days/],
  ])('for %s', (_, change, message) => {
    expect(() => ask(FOUR, change)).toThrow(message);
  });

  test('for a probe outside the sand, a bed without steps, a bed too large, too many probes', () => {
    expect(() => ask([{ x: 90, y: 25, depth: 25 }])).toThrow(/expected a point inside the bed, got x 90/);
    expect(() => ask([{ x: Number.NaN, y: 25, depth: 25 }])).toThrow(/inside the bed/);
    expect(() => coverageOf({ kind: 'box', steps: [] }, [], QUESTION)).toThrow(/number of steps/);
    const large = { kind: 'box', steps: [{ length: 300, width: 300, height: 112 }] } as const;
    expect(() => coverageOf({ ...large, steps: [...large.steps] }, [], QUESTION)).toThrow(/at most 10000 L/);
    expect(() => ask(Array.from({ length: 21 }, () => ({ x: 40, y: 25, depth: 25 })))).toThrow(/at most 20/);
  });
});
