/** Rot of seasons for evaluation: where it lies, how strong it becomes, when it begins. */
import { SandlarderError } from '../services/core/errors.js';
import { type EvaluationBed, fromProbes_cm, placesIn } from './evaluation-beds.js';
import type { Draws } from './evaluation-draws.js';
import { distance_cm, type Place } from './true-places.js';

type Rot = NonNullable<EvaluationBed['rots']>[number];
type Span = readonly [low: number, high: number];

export interface SourceWishes {
  /** To the nearest probe, as written down, cm. */
  readonly distance_cm: Span;
  readonly grown_W: Span;
  readonly startDay: Span;
}

/** A source near a probe: to be found. */
export const NEAR: SourceWishes = { distance_cm: [7, 27], grown_W: [1.5, 5], startDay: [12, 110] };
export const FAR: SourceWishes = { ...NEAR, distance_cm: [32, 48] };
export const WEAK: SourceWishes = { ...NEAR, grown_W: [0.8, 1.4] };
/** It begins while the bed is still being learned. */
export const EARLY: SourceWishes = { ...NEAR, startDay: [4, 9] };

const GROWTH_days: Span = [2, 8];

/** Roots lie so far from walls and floor, and under so much sand, at the least, cm. */
const CLEARANCE_cm = 7;
const DEPTH_cm = 10;

/** Two sources are so far apart at the least, cm. */
const APART_cm = 40;

/**
 * The bed with one source more. Where its probes leave no such place, the last of them is left out.
 *
 * @param name of the source, for its draws
 * @throws SandlarderError OUT_OF_DOMAIN where no number of probes leaves one
 */
export function withSource(
  bed: EvaluationBed,
  draws: Draws,
  wishes: SourceWishes,
  name = 'source',
): EvaluationBed {
  const rots = bed.rots ?? [];
  const places = placesIn(bed.steps, CLEARANCE_cm, DEPTH_cm).filter(
    (place) => fits(place, bed, wishes) && rots.every((rot) => distance_cm(place, rot) >= APART_cm),
  );
  const place = places[draws.whole(`${name} place`, 0, places.length - 1)];
  if (!place && bed.probes.length < 2)
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `no place for a ${name} ${wishes.distance_cm.join(' to ')} cm from the probes of ${bed.name}`,
    );
  if (!place) return withSource({ ...bed, probes: bed.probes.slice(0, -1) }, draws, wishes, name);
  const rot: Rot = {
    ...place,
    startDay: draws.between(`${name} start`, ...wishes.startDay),
    grown_W: draws.between(`${name} strength`, ...wishes.grown_W),
    growth_days: draws.between(`${name} growth`, ...GROWTH_days),
  };
  return { ...bed, rots: [...rots, rot] };
}

function fits(place: Place, bed: EvaluationBed, wishes: SourceWishes): boolean {
  const distance = fromProbes_cm(place, bed);
  return distance >= wishes.distance_cm[0] && distance <= wishes.distance_cm[1];
}
