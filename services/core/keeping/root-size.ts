/** How large a root of some mass is, and how much floor it takes in a course. */
import { requireInDomain } from '../errors.js';
import { figureOf } from './plan-figures.js';

export interface RootSize {
  readonly mass_kg: number;
  readonly volume_L: number;
  readonly length_cm: number;
  /** Also how thick it lies. */
  readonly width_cm: number;
  /** Of the course, with the sand around the root, cm2. */
  readonly floor_cm2: number;
}

/** Mean masses of roots that anybody would keep, kg. Judgement. */
export const ROOT_MASS_kg = { low: 0.05, high: 2 } as const;

/**
 * A root as a spheroid, 1.8 times as long as it is wide.
 *
 * @param mass_kg mean mass, 0.05 to 2 kg
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function sizeOfRoot(mass_kg: number = figureOf('root_kg')): RootSize {
  requireInDomain('mass of a root, kg,', mass_kg, ROOT_MASS_kg.low, ROOT_MASS_kg.high);
  const slenderness = figureOf('root_length_by_width');
  const volume_L = mass_kg / figureOf('root_density');
  const width_cm = Math.cbrt((6 * volume_L * 1000) / (Math.PI * slenderness));
  const length_cm = slenderness * width_cm;
  const floor_cm2 = (Math.PI * length_cm * width_cm) / 4 / figureOf('root_cover');
  return { mass_kg, volume_L, length_cm, width_cm, floor_cm2 };
}

/** Sand beside a root that spreads its course evenly, so that length and width with it make up its floor, cm. */
export function gapBeside_cm({ length_cm, width_cm, floor_cm2 }: RootSize): number {
  const half = (length_cm + width_cm) / 2;
  return Math.sqrt(half ** 2 + floor_cm2 - length_cm * width_cm) - half;
}
