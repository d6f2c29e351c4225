/** Where one more probe adds most to what is found. */
import type { Point } from '../warmth/responses.js';
import { requireAskable } from './asking.js';
import { candidatesIn } from './candidates.js';
import { everyPlace, shareFound } from './coverage.js';
import type { BedShape } from './learned.js';
import { volumesOf_L } from './places.js';
import { type Pool, pick, poolOf } from './pool.js';
import { Sight } from './sight.js';
import { distance_cm } from './spots.js';
import { type CoverageQuestion, FOUND, type PlaceChance, type ProbePlace } from './types.js';

/** Of all candidates, so many are tried in earnest: those with most that is not found about them. */
const TRIED = 6;
/** One place in so many is asked when probes are compared. */
const COARSE = 5;
/** What a probe may find, to choose which are tried: all up to here, nothing beyond, cm. */
const FINDS_ALL_cm = 15;
const FINDS_NOTHING_cm = 40;
/** A candidate so near to a probe is the same place, cm. */
const SAME_cm = 8;

/** The bed with all places for probes: those that stand first. */
interface Search {
  readonly bed: BedShape;
  readonly question: CoverageQuestion;
  readonly pool: Pool;
  /** By place: what it stands for. */
  readonly volumes_L: readonly number[];
}

function searchIn(bed: BedShape, points: readonly Point[], question: CoverageQuestion): Search {
  const isFree = (one: Point): boolean => points.every((point) => distance_cm(one, point) > SAME_cm);
  const pool = poolOf(bed, [...points, ...candidatesIn(bed).filter(isFree)]);
  return { bed, question, pool, volumes_L: volumesOf_L(bed, pool.sources.places) };
}

/** Chances with some of the pool's probes, at one place in so many. */
function chancesWith(
  { bed, question, pool, volumes_L }: Search,
  probes: readonly number[],
  every: number,
  look: 'all' | 'last' = 'all',
): PlaceChance[] {
  const points = probes.map((probe) => pool.points[probe] as Point);
  const sight =
    probes.length > 0 ? new Sight({ bed, points, model: pick(pool, probes), ...question }) : undefined;
  return pool.sources.places.flatMap(({ x, y, depth }, index) => {
    if (index % every !== 0) return [];
    const asked = [index, question.power_W, question.days] as const;
    const chance = (look === 'all' ? sight?.chance(...asked) : sight?.chanceAtEnd(...asked)) ?? 0;
    return [{ x, y, depth, volume_L: volumes_L[index] as number, chance }];
  });
}

/** About how much a probe at a place would find of what is not found yet, litres. */
function promiseOf(point: Point, places: readonly PlaceChance[]): number {
  return places.reduce((sum, place) => {
    const within = (FINDS_NOTHING_cm - distance_cm(place, point)) / (FINDS_NOTHING_cm - FINDS_ALL_cm);
    return sum + place.volume_L * Math.max(0, FOUND - place.chance) * Math.min(1, Math.max(0, within));
  }, 0);
}

/**
 * What is found, litres: each place by its chance, up to that at which it counts as found. Nearly found is better than
 * blind: by the share found alone, the first of several probes would be put anywhere.
 */
const worthOf = (places: readonly PlaceChance[]): number =>
  places.reduce((sum, { chance, volume_L }) => sum + Math.min(chance, FOUND) * volume_L, 0);

interface Added {
  readonly probe: number;
  readonly places: readonly PlaceChance[];
}

/**
 * Candidates are compared by what is told at the last, which is most of it; the best of them is then looked at closely.
 *
 * @returns the candidate with which most is found; undefined where none is left
 */
function bestAdded(
  search: Search,
  standing: readonly number[],
  now: readonly PlaceChance[],
): Added | undefined {
  const best = search.pool.points
    .map((point, probe) => ({ probe, promise: promiseOf(point, now) }))
    .filter(({ probe }) => !standing.includes(probe))
    .sort((one, other) => other.promise - one.promise || one.probe - other.probe)
    .slice(0, TRIED)
    .map(({ probe }): Added => ({ probe, places: chancesWith(search, [...standing, probe], COARSE, 'last') }))
    .reduce<Added | undefined>(
      (best, one) => (best && worthOf(best.places) >= worthOf(one.places) ? best : one),
      undefined,
    );
  return best && { ...best, places: chancesWith(search, [...standing, best.probe], COARSE) };
}

function placeOf({ pool }: Search, probe: number, share: number): ProbePlace {
  const { x, y, depth } = pool.points[probe] as Point;
  return { x, y, depth, share };
}

/**
 * Where one more probe adds most to what is found.
 *
 * @param points of the probes that stand, cm from the north-west corner of the opening; none give the best first one
 * @returns one of at most 30 places all over the bed, with the share found once a probe is there, or undefined where
 * none adds anything
 * @throws SandlarderError as `coverageOf`
 */
export function nextProbe(
  bed: BedShape,
  points: readonly Point[],
  question: CoverageQuestion,
): ProbePlace | undefined {
  requireAskable(bed, points, question, points.length + 1);
  const search = searchIn(bed, points, question);
  const standing = points.map((_, probe) => probe);
  const now = chancesWith(search, standing, COARSE);
  const best = bestAdded(search, standing, now);
  if (!best || !(worthOf(best.places) > worthOf(now))) return undefined;
  const every = everyPlace(search.volumes_L.length);
  return placeOf(search, best.probe, shareFound(chancesWith(search, [...standing, best.probe], every)));
}

/** Told of each probe that is placed: how many are by now, of how many at the most. */
export type OnPlaced = (placed: number, most: number) => void;

/** Probes in the order of placing, each with the share found by it and those before it, from one place in five. */
function placing(search: Search, count: number, onPlaced: OnPlaced): { probe: number; share: number }[] {
  const placed: { probe: number; share: number }[] = [];
  let now: readonly PlaceChance[] = chancesWith(search, [], COARSE);
  while (placed.length < count) {
    const standing = placed.map(({ probe }) => probe);
    const best = bestAdded(search, standing, now);
    if (!best) break;
    now = best.places;
    placed.push({ probe: best.probe, share: shareFound(now) });
    onPlaced(placed.length, count);
  }
  return placed;
}

const placesOf = (search: Search, placed: readonly { probe: number; share: number }[]): ProbePlace[] =>
  placed.map(({ probe, share }) => placeOf(search, probe, share));

export interface EnoughProbes {
  /** In the order of placing, each with the share found by it and those before it, from one place in five. */
  readonly placed: readonly ProbePlace[];
  /** So many of them, from the first, suffice; all where none do. */
  readonly taken: number;
  /** Found by those, from every place as `coverageOf` has it. */
  readonly share: number;
}

/**
 * Places probes in a bed that has none, one after the other, each where it adds most, and takes as few as find enough of
 * the bed. Fewer are placed where the candidates are used up.
 *
 * @param count of probes at the most, whole, in [1, 20]
 * @param enough share of the bed from which on no more probes are taken; all are taken where it is above 1
 * @throws SandlarderError as `coverageOf`
 */
export function enoughProbes(
  bed: BedShape,
  count: number,
  question: CoverageQuestion,
  enough: number,
  onPlaced: OnPlaced = () => undefined,
): EnoughProbes {
  requireAskable(bed, [], question, count);
  const search = searchIn(bed, [], question);
  const placed = placing(search, count, onPlaced);
  const first = placed.findIndex(({ share }) => share >= enough);
  const taken = first === -1 ? placed.length : first + 1;
  const probes = placed.slice(0, taken).map(({ probe }) => probe);
  const share = shareFound(chancesWith(search, probes, everyPlace(search.volumes_L.length)));
  return { placed: placesOf(search, placed), taken, share };
}
