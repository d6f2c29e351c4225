/**
 * How much of the daily swing of the air reaches a place in dry sand, and how late: from above in a pit, through every
 * wall as well in a box.
 *
 * Source: the wave in a deep solid (Carslaw & Jaeger, physics/periodic-wave) from each face; near an edge what the
 * faces bring is put together as 1 - product of (1 - wave), which is the sum far from edges and the whole swing at a
 * face. An approximation: of 252 simulated probes in drawn boxes the way so found was 0.2 damping depths too short in
 * the mean, with 0.33 of scatter (2026-11-28).
 */
import { DAY_s, dampingDepth_m, mediumOfBed, waveAmplitudeShare } from '../physics/index.js';
import { type CoveredBed, faces_cm } from '../watch/dampness/cover.js';
import { DAMPNESS } from '../watch/dampness/parameters.js';

export interface Place {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

const { porosity, rootShare } = DAMPNESS;

/** Of dry sand with roots, cm. */
export const DRY_DAMPING_cm =
  100 * dampingDepth_m(mediumOfBed(porosity, 0, rootShare).diffusivity_m2_s, DAY_s);

/** What sand alone does to the swing. */
export interface ThroughSand {
  /** Share of the amplitude that is left, 0..1. */
  readonly share: number;
  /** Radians by which it is later; may exceed a turn. */
  readonly lag: number;
}

/**
 * @param place cm from the north-west corner of the opening, inside the bed
 * @throws SandlarderError OUT_OF_DOMAIN for a place further than 3 m from a face
 */
export function throughSand(bed: CoveredBed, place: Place): ThroughSand {
  let wave: Wave = [0, 0];
  for (const face_cm of faces_cm(bed, place)) wave = besides(wave, throughFace(Math.max(0, face_cm)));
  const share = Math.min(1, Math.hypot(...wave));
  return { share, lag: lagNear(-Math.atan2(wave[1], wave[0]), -Math.log(share)) };
}

/** In phase with the air, and a quarter of a turn ahead of it. */
type Wave = readonly [real: number, imaginary: number];

function throughFace(face_cm: number): Wave {
  const share = waveAmplitudeShare(face_cm / 100, DRY_DAMPING_cm / 100);
  const angle = face_cm / DRY_DAMPING_cm;
  return [share * Math.cos(angle), -share * Math.sin(angle)];
}

/** 1 - (1 - one) (1 - other), without taking small numbers from 1. */
const besides = ([a, b]: Wave, [c, d]: Wave): Wave => [a + c - a * c + b * d, b + d - a * d - b * c];

/** Of the lags that differ by whole turns, the one that fits the amplitude best; radians. */
export const lagNear = (lag: number, byShare: number): number =>
  lag + 2 * Math.PI * Math.round((byShare - lag) / (2 * Math.PI));
