/**
 * Water in a sample of sand, weighed moist and dried, with its uncertainty.
 *
 * Source: ASTM D2216 (oven, 110 °C) and D4959 (direct heat), water as % of the dry mass; methods from memory.
 * Uncertainty: each of the three weighings is known to a step of the balance, rectangular [JCGM 100 F.2.2.1], and the
 * way of drying adds a share of the water found. What one sample says of a whole heap is not in it: take three.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import type { Weighing } from '../model/sand-samples.js';
import { type Dampness, GRAIN_DENSITY_kg_m3 } from '../physics/index.js';
import { type CitedLimit, cite, SAND_LIMITS, type SandLimits, sandLimits } from './sand-limits.js';
import type { Met } from './sand-verdict.js';
import { inDigits } from './sand-words.js';

const MOST_g = 1e6;

/** Of the expanded uncertainty, about 95 %. */
const COVERAGE = 2;

export interface SandMoisture {
  /** Of the dry mass; may lie below 0 by less than the uncertainty. */
  readonly water_percent: number;
  /** k = 1, in % of the dry mass. */
  readonly uncertainty_percent: number;
  readonly contributions: { readonly weighing_percent: number; readonly drying_percent: number };
  /** By the value alone. */
  readonly dampness: Dampness;
  /** All that it may be within the expanded uncertainty (k = 2), from the driest to the wettest. */
  readonly possible: readonly Dampness[];
  /** Whether the sand may be filled in: `unknown` where the uncertainty spans the limit. */
  readonly dryEnough: Met;
  readonly limits: readonly CitedLimit[];
  readonly method: string;
  readonly sentence: string;
}

const METHODS: Readonly<Record<Weighing['way'], string>> = {
  oven: 'ASTM D2216, oven at 110 °C (from memory)',
  pan: 'ASTM D4959, direct heat (from memory)',
};

/**
 * Water content with its verdict.
 *
 * @param weighing masses in g, moist and dry with the container; the moist one not below the dry by more than a step
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function moistureOf(weighing: Weighing, limits: SandLimits = sandLimits()): SandMoisture {
  requireWeighing(weighing);
  const { wet_g, dry_g, container_g, resolution_g, way } = weighing;
  const sand_g = dry_g - container_g;
  const water = (wet_g - dry_g) / sand_g;
  const step = resolution_g / Math.sqrt(12) / sand_g;
  const ofWay = way === 'oven' ? limits.sand_oven_uncertainty_percent : limits.sand_pan_uncertainty_percent;
  const contributions = {
    weighing_percent: 100 * step * Math.hypot(1, 1 + water, water),
    drying_percent: Math.abs(water) * ofWay,
  };
  const water_percent = 100 * water;
  const uncertainty_percent = Math.hypot(...Object.values(contributions));
  const judged = judge(water_percent, COVERAGE * uncertainty_percent, limits);
  return {
    water_percent,
    uncertainty_percent,
    contributions,
    ...judged,
    limits: NAMES.map((name) => cite(SAND_LIMITS, name, limits[name])),
    method: METHODS[way],
    sentence: sentenceOf(water_percent, COVERAGE * uncertainty_percent, judged, limits),
  };
}

const NAMES = ['sand_dry_enough_percent', 'sand_damp_from_percent', 'sand_wet_from_percent'] as const;

function requireWeighing({ wet_g, dry_g, container_g, resolution_g }: Weighing): void {
  requireInDomain('step of the balance, g,', resolution_g, 1e-6, 100);
  requireInDomain('mass of the container, g,', container_g, 0, MOST_g);
  requireInDomain('mass moist, g,', wet_g, 0, MOST_g);
  requireInDomain('mass dried, g,', dry_g, 0, MOST_g);
  if (!(dry_g - container_g >= resolution_g))
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `mass dried must be above that of the container by a step of the balance or more, got ${dry_g} and ${container_g} g`,
    );
  // A last digit of noise, in decimal fractions that binary arithmetic does not have.
  if (!(dry_g - wet_g <= resolution_g * (1 + 1e-6)))
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `mass dried must not be above that moist, got ${dry_g} and ${wet_g} g`,
    );
}

type Judged = Pick<SandMoisture, 'dampness' | 'possible' | 'dryEnough'>;

function judge(water_percent: number, expanded_percent: number, limits: SandLimits): Judged {
  const [low, high] = [water_percent - expanded_percent, water_percent + expanded_percent];
  const enough = limits.sand_dry_enough_percent;
  return {
    dampness: dampnessByWater(water_percent, limits),
    possible: dampnessFrom(low, high, limits),
    dryEnough: high <= enough ? 'met' : low > enough ? 'not met' : 'unknown',
  };
}

/** Each limit belongs to the wetter side, as where warmth tells dampness. */
export function dampnessByWater(water_percent: number, limits: SandLimits = sandLimits()): Dampness {
  requireInDomain('water, % of dry mass,', water_percent, -100, 1e5);
  if (water_percent >= limits.sand_wet_from_percent) return 'wet';
  return water_percent >= limits.sand_damp_from_percent ? 'damp' : 'dry';
}

function dampnessFrom(low_percent: number, high_percent: number, limits: SandLimits): readonly Dampness[] {
  const inBetween = [limits.sand_damp_from_percent, limits.sand_wet_from_percent].filter(
    (from) => from > low_percent && from <= high_percent,
  );
  const met = [Math.max(low_percent, -100), ...inBetween].map((water) => dampnessByWater(water, limits));
  return [...new Set(met)];
}

function sentenceOf(water: number, expanded: number, judged: Judged, limits: SandLimits): string {
  const enough = `up to ${limits.sand_dry_enough_percent} % is dry enough to fill in`;
  const found = `${water.toFixed(2)} % of water, give or take ${inDigits(expanded)} (k = 2)`;
  if (judged.dryEnough === 'met') return `Dry enough: ${found}; ${enough}.`;
  if (judged.dryEnough === 'unknown') return `Not sure: ${found}; ${enough}. Weigh a larger sample.`;
  const word = { dry: 'Nearly dry', damp: 'Damp', wet: 'Wet' }[judged.dampness];
  return `${word}: ${found}; ${enough}. Dry it more.`;
}

/**
 * Water as a share of the volume of sand.
 *
 * @param water_percent of the dry mass, 0 or more
 * @param dryDensity_kg_m3 of the sand in bulk, 1100 to 2000
 * @returns m3/m3
 * @throws SandlarderError OUT_OF_DOMAIN also for more than the pores hold
 */
export function waterByVolume(water_percent: number, dryDensity_kg_m3: number): number {
  requireInDomain('dry density in bulk, kg/m3,', dryDensity_kg_m3, 1100, 2000);
  requireInDomain('water, % of dry mass,', water_percent, 0, 1e5);
  const share = ((water_percent / 100) * dryDensity_kg_m3) / 1000;
  requireInDomain('water by volume, m3/m3,', share, 0, 1 - dryDensity_kg_m3 / GRAIN_DENSITY_kg_m3);
  return share;
}
