/**
 * From what lay on each sieve to the share that is finer.
 *
 * Shares are of what was found on the sieves and in the pan, so that a loss falls on all sizes alike (ASTM C136 takes
 * the mass before sieving instead, from memory; the two differ by the loss).
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import type { Sieving } from '../model/sand-samples.js';
import { type SandLimits, sandLimits } from './sand-limits.js';
import { openingOfSieve_mm } from './sand-sieves.js';

export interface GradationPoint {
  readonly opening_mm: number;
  readonly retained_g: number;
  /** By mass, 0 to 100. */
  readonly finer_percent: number;
}

export interface Gradation {
  /** The coarsest sieve first. */
  readonly points: readonly GradationPoint[];
  readonly sum_g: number;
  /** Of the sample before sieving, below 0 where more was found; undefined where that was not weighed. */
  readonly loss_percent: number | undefined;
}

const MOST_g = 1e6;
const OPENING_mm = { least: 0.001, most: 1000 };
const LEAST_SIEVES = 2;

/**
 * @param sieving openings from the coarsest to the finest; masses in g, 0 or more
 * @throws SandlarderError OUT_OF_DOMAIN for openings that do not descend, masses below 0, nothing sieved at all, or a
 *   sum that is not that of the sample; TOO_FEW_SAMPLES for fewer than 2 sieves
 */
export function gradationOf(sieving: Sieving, limits: SandLimits = sandLimits()): Gradation {
  const sieves = sieving.sieves.map((sieve) => ({
    opening_mm: 'number' in sieve ? openingOfSieve_mm(sieve.number) : sieve.opening_mm,
    retained_g: sieve.retained_g,
  }));
  if (!(sieves.length >= LEAST_SIEVES))
    throw new SandlarderError('TOO_FEW_SAMPLES', `expected at least 2 sieves, got ${sieves.length}`);
  requireDescending(sieves.map(({ opening_mm }) => opening_mm));
  for (const { opening_mm, retained_g } of sieves)
    requireInDomain(`mass on the sieve of ${opening_mm} mm, g,`, retained_g, 0, MOST_g);
  requireInDomain('mass in the pan, g,', sieving.pan_g, 0, MOST_g);
  const sum_g = sieves.reduce((sum, { retained_g }) => sum + retained_g, sieving.pan_g);
  requireInDomain('sum of all masses, g,', sum_g, Number.MIN_VALUE, MOST_g);
  return {
    points: finerOf(sieves, sieving.pan_g),
    sum_g,
    loss_percent: lossOf(sum_g, sieving.total_g, limits),
  };
}

function requireDescending(openings_mm: readonly number[]): void {
  openings_mm.forEach((opening_mm, at) => {
    requireInDomain('opening of a sieve, mm,', opening_mm, OPENING_mm.least, OPENING_mm.most);
    const above_mm = openings_mm[at - 1] ?? Number.POSITIVE_INFINITY;
    if (!(opening_mm < above_mm))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `openings of sieves must descend, got ${opening_mm} mm after ${above_mm} mm`,
      );
  });
}

/** Summed from the pan upwards, so that nothing in the pan is exactly 0 % and not a rounding of it. */
function finerOf(
  sieves: readonly { readonly opening_mm: number; readonly retained_g: number }[],
  pan_g: number,
): GradationPoint[] {
  const sum_g = sieves.reduceRight((sum, { retained_g }) => sum + retained_g, pan_g);
  let finer_g = pan_g;
  const fromFinest = sieves.toReversed().map((sieve) => {
    const point = { ...sieve, finer_percent: (100 * finer_g) / sum_g };
    finer_g += sieve.retained_g;
    return point;
  });
  return fromFinest.reverse();
}

function lossOf(sum_g: number, total_g: number | undefined, limits: SandLimits): number | undefined {
  if (total_g === undefined) return undefined;
  requireInDomain('mass of the sample, g,', total_g, Number.MIN_VALUE, MOST_g);
  const loss_percent = (100 * (total_g - sum_g)) / total_g;
  const most_percent = limits.sand_loss_most_percent;
  if (!(Math.abs(loss_percent) <= most_percent))
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `masses on the sieves must sum up to the sample of ${total_g} g within ${most_percent} %, got ${Number(sum_g.toPrecision(6))} g`,
    );
  return loss_percent;
}
