/** What is thought of each unknown before anything was measured, and how far it may wander. Judgement throughout. */
import type { Global } from './layout.js';

export interface Prior {
  readonly mean: number;
  readonly deviation: number;
  /** Deviation of a day's wandering. */
  readonly daily: number;
}

const prior = (mean: number, deviation: number, daily = 0): Prior => ({ mean, deviation, daily });

/**
 * - `surface`, `open`: the air under the roof, the open ground, against the shade, °C
 * - `ground`, `deep`: the ground when the bed was filled, °C, and how it grows downwards
 * - `upper`, `lower`: the sand when it was filled or last moved, against a bed that was never so, °C
 * - `roots`: warmth of roots, a share; `fresh`: more of it at first; `q10`: logarithm; `settling`: logarithm of a time
 * - `rootsX`, `rootsY`, `rootsZ`: uneven roots, a share at the ends
 * - `faster`: logarithm of the diffusivity; `aroundBetter`: of what surrounds the sand: ground, or boards
 * - `sunk`: the surface against where it is said to be, cm
 */
export const PRIORS: Readonly<Record<Global, Prior>> = {
  surface: prior(1, 1.5, 0.08),
  open: prior(3, 3, 0.15),
  ground: prior(0, 2.5),
  deep: prior(0, 2.5, 0.02),
  upper: prior(0, 3),
  lower: prior(0, 3),
  roots: prior(0, 0.5, 0.01),
  fresh: prior(0.6, 0.6),
  q10: prior(0, 0.1),
  settling: prior(0, 0.5),
  rootsX: prior(0, 0.3),
  rootsY: prior(0, 0.3),
  rootsZ: prior(0, 0.3),
  faster: prior(0, 0.3, 0.002),
  aroundBetter: prior(0, 0.35, 0.002),
  sunk: prior(0, 1.5, 0.05),
};

/** Of each probe: offset °C (data sheets: 0.2 to 0.5), place along each axis cm, its own roots' share, daily wave's share. */
export const PROBE = {
  offset: prior(0, 0.35, 0.012),
  place: prior(0, 3),
  roots: prior(0, 0.12, 0.004),
  wave: prior(0, 0.4, 0.02),
} as const;

/** Without a shade probe the daily wave is not known: deviation under so much sand, °C. */
export const blindWave_C = (cover_cm: number): number => 1.2 * Math.exp(-cover_cm / 10) + 0.03;

/** A day's air under the roof against what the shade says, °C; without a shade probe, against the days before. */
export const SURFACE_DAY_C = 1;
export const SURFACE_DAY_BLIND_C = 2;
/** The least and the most that it is taken for, whatever was seen, °C. */
export const SURFACE_DAY_LEAST_C = 0.3;
export const SURFACE_DAY_MOST_C = 4;

/** Noise of a six-hour mean, °C: of the probe, and what the daily wave leaves under so much sand. */
const NOISE_C = 0.015;
const WAVE_NOISE_C = 0.3;
const WAVE_FADES_cm = 7.5;

export const noise_C = (cover_cm: number, blind: boolean): number =>
  (blind ? 2 : 1) * NOISE_C + WAVE_NOISE_C * Math.exp(-cover_cm / WAVE_FADES_cm);

/** Boards hold back as much as so much sand, cm: 0.3 W/(m K) over 3.1 W/(m2 K). Computed. */
export const BOARDS_AS_SAND_cm = 9.7;

/** Fresh roots have settled to 37 % of their surplus, h. */
export const SETTLING_h = 12 * 24;
/** Share by which fresh roots give more, where the rows need a size to be linear about. */
export const FRESH_SHARE = 0.6;

/** What handling does: to the sand's warmth °C, to places cm, to offsets °C, to the noise °C at first. */
export const HANDLED = {
  sand_C: 4,
  place_cm: 3,
  sunk_cm: 4,
  offset_C: 0.15,
  roots: 0.05,
  noise_C: 0.3,
  calmsBy: 0.8,
} as const;

/** A probe that was moved or became another: °C, cm. */
export const UNSETTLED = { offset_C: 2, place_cm: 4, roots: 0.05 } as const;
