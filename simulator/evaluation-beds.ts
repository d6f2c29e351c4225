/** Beds and probes of seasons for evaluation. */
import { type Block, blocksOf, holdsPoint, volume_L } from '../services/core/model/bed.js';
import type { Draws } from './evaluation-draws.js';
import type { ScenarioInput } from './scenario.js';
import { distance_cm, type Place } from './true-places.js';

export type EvaluationBed = ScenarioInput['beds'][number];
type Steps = EvaluationBed['steps'];
type Kind = EvaluationBed['kind'];

/** cm. Common practice: steps of 25 cm, and boxes that two people can carry empty. */
const SHAPES: Readonly<Record<Kind, readonly [Steps, ...Steps[]]>> = {
  'stepped-pit': [
    [
      { length: 150, width: 100, height: 25 },
      { length: 150, width: 60, height: 25 },
    ],
    [
      { length: 150, width: 60, height: 25 },
      { length: 100, width: 60, height: 25 },
      { length: 50, width: 60, height: 25 },
    ],
    [
      { length: 120, width: 90, height: 25 },
      { length: 120, width: 50, height: 30 },
    ],
  ],
  box: [
    [{ length: 100, width: 50, height: 75 }],
    [{ length: 120, width: 60, height: 60 }],
    [{ length: 80, width: 70, height: 70 }],
  ],
};

/** Roots to a litre of bed at the least, kg: 120 to 220 kg/m3 (computed from courses in 5 cm of sand each). */
const THINNEST_kg_L = 0.12;
const ROOT_kg = 0.28;

/** Probes stand so far from walls, floor and surface at the least, cm. */
const PROBE_CLEARANCE_cm = 10;
const PROBE_DEPTH_cm = 15;

/** How fine places are chosen, cm. */
const RASTER_cm = 5;

/**
 * A bed with its probes spread over it.
 *
 * @param number of the bed on its site, from 1
 * @param thickest_kg_L roots to a litre of bed at the most, kg
 */
export function drawBed(
  draws: Draws,
  number: number,
  kind: Kind,
  probes: number,
  thickest_kg_L: number,
): EvaluationBed {
  const steps = draws.pick(`bed ${number} shape`, SHAPES[kind]);
  const mass_kg =
    draws.between(`bed ${number} roots`, THINNEST_kg_L, thickest_kg_L) * volume_L(blocksOf(steps));
  const places = spread(draws, number, steps, probes);
  return {
    id: `${kind === 'box' ? 'box' : 'pit'}-${number}`,
    name: `${kind === 'box' ? 'Box' : 'Pit'} ${number}`,
    kind,
    steps,
    roots: { count: Math.round(mass_kg / ROOT_kg), mass_kg },
    probes: places.map((place, index) => ({ id: `p${number}${index + 1}`, ...place })),
  };
}

/** Each probe at one of the places furthest from those that stand already. */
function spread(draws: Draws, number: number, steps: Steps, count: number): Place[] {
  const places = placesIn(steps, PROBE_CLEARANCE_cm, PROBE_DEPTH_cm);
  const chosen: Place[] = [];
  for (let index = 0; index < count; index += 1) {
    const furthest = places
      .map((place) => ({ place, away_cm: nearest_cm(place, chosen) }))
      .sort((one, other) => other.away_cm - one.away_cm)
      .map(({ place }) => place);
    const from = chosen.length === 0 ? furthest : furthest.slice(0, Math.ceil(places.length / 8));
    const place = from[draws.whole(`bed ${number} probe ${index}`, 0, from.length - 1)];
    if (place) chosen.push(place);
  }
  return chosen;
}

const nearest_cm = (place: Place, others: readonly Place[]): number =>
  Math.min(1000, ...others.map((other) => distance_cm(place, other)));

/** Places in a bed, by a raster, that keep their distance from walls and floor, and from the surface. */
export function placesIn(steps: Steps, clearance_cm: number, depth_cm: number): Place[] {
  const blocks = blocksOf(steps);
  const places: Place[] = [];
  const [right, far] = [
    Math.max(...blocks.map((block) => block.right)),
    Math.max(...blocks.map((block) => block.far)),
  ];
  for (let x = 0; x <= right; x += RASTER_cm)
    for (let y = 0; y <= far; y += RASTER_cm)
      for (let depth = depth_cm; depth <= (blocks.at(-1)?.bottom ?? 0); depth += RASTER_cm)
        if (isClear(blocks, { x, y, depth }, clearance_cm)) places.push({ x, y, depth });
  return places;
}

const isClear = (blocks: readonly Block[], { x, y, depth }: Place, by_cm: number): boolean =>
  [x - by_cm, x + by_cm].every((at) => holdsPoint(blocks, at, y, depth)) &&
  [y - by_cm, y + by_cm].every((at) => holdsPoint(blocks, x, at, depth)) &&
  holdsPoint(blocks, x, y, depth + by_cm);

/** From a place to the nearest probe of a bed as it is written down, cm. */
export const fromProbes_cm = (place: Place, { probes }: EvaluationBed): number => nearest_cm(place, probes);
