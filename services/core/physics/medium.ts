/** A solid that conducts heat, the same everywhere and at all times: what each law of this folder is true for. */
import { requireInDomain } from '../errors.js';

export interface Medium {
  /** W/(m K) */
  readonly conductivity_W_mK: number;
  /** m2/s: conductivity over volumetric heat capacity. */
  readonly diffusivity_m2_s: number;
}

/** From insulating foam to copper; anything else is a mistaken unit. W/(m K), m2/s. */
const CONDUCTIVITY_W_mK = { least: 0.001, greatest: 500 };
const DIFFUSIVITY_m2_s = { least: 1e-9, greatest: 1e-3 };

/** The longest distance that these laws are used for, m, and the longest time, s (about 300 years). */
export const GREATEST_DISTANCE_m = 1000;
export const GREATEST_TIME_s = 1e10;

/** @throws SandlarderError OUT_OF_DOMAIN for what no solid has, in W/(m K) */
export function requireConductivity(conductivity_W_mK: number): void {
  const { least, greatest } = CONDUCTIVITY_W_mK;
  requireInDomain('conductivity, W/(m K),', conductivity_W_mK, least, greatest);
}

/** @throws SandlarderError OUT_OF_DOMAIN for what no solid has, in m2/s */
export function requireDiffusivity(diffusivity_m2_s: number): void {
  const { least, greatest } = DIFFUSIVITY_m2_s;
  requireInDomain('diffusivity, m2/s,', diffusivity_m2_s, least, greatest);
}

/** @throws SandlarderError OUT_OF_DOMAIN */
export function requireMedium({ conductivity_W_mK, diffusivity_m2_s }: Medium): void {
  requireConductivity(conductivity_W_mK);
  requireDiffusivity(diffusivity_m2_s);
}
