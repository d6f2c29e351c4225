/**
 * A body of one temperature whose surface is brought to another at one instant and held there: how fast a bed
 * forgets the warmth that it was filled with.
 *
 * Source: Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, 3.3, 7.6, 9.3 (clauses from memory), all
 * terms of the series that count.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import { besselJ1, zeroOfJ0 } from './bessel.js';
import { GREATEST_DISTANCE_m, GREATEST_TIME_s, requireDiffusivity } from './medium.js';
import type { Shape } from './shape.js';

/** At the least Fourier number the terms have died out by number 62; the limit makes a mistake visible. */
const TERMS = 100;

/** exp(-40) is 4e-18: nothing beyond it changes a sum of order 1. */
const NEGLIGIBLE_EXPONENT = 40;

/** Where the series is used. Earlier, only a skin has changed: the law of a deep solid (`surface-step.ts`) holds. */
const LEAST_FOURIER = 0.001;
const GREATEST_FOURIER = 1e6;

/** Eigenvalue of a mode, 1 first, and its weight. */
type Mode = (number: number) => { readonly eigenvalue: number; readonly weight: number };

const alternating = (number: number): 1 | -1 => (number % 2 === 1 ? 1 : -1);

const slabEigenvalue = (number: number): number => (number - 0.5) * Math.PI;

const CENTRE: Readonly<Record<Shape, Mode>> = {
  slab: (number) => {
    const eigenvalue = slabEigenvalue(number);
    return { eigenvalue, weight: (2 * alternating(number)) / eigenvalue };
  },
  cylinder: (number) => {
    const eigenvalue = zeroOfJ0(number);
    return { eigenvalue, weight: 2 / (eigenvalue * besselJ1(eigenvalue)) };
  },
  sphere: (number) => ({ eigenvalue: number * Math.PI, weight: 2 * alternating(number) }),
};

const MEAN: Readonly<Record<Shape, Mode>> = {
  slab: (number) => {
    const eigenvalue = slabEigenvalue(number);
    return { eigenvalue, weight: 2 / eigenvalue ** 2 };
  },
  cylinder: (number) => {
    const eigenvalue = zeroOfJ0(number);
    return { eigenvalue, weight: 4 / eigenvalue ** 2 };
  },
  sphere: (number) => ({ eigenvalue: number * Math.PI, weight: 6 / (number * Math.PI) ** 2 }),
};

function sumOfModes(mode: Mode, fourier: number): number {
  requireInDomain('Fourier number', fourier, LEAST_FOURIER, GREATEST_FOURIER);
  let sum = 0;
  for (let number = 1; number <= TERMS; number += 1) {
    const { eigenvalue, weight } = mode(number);
    const exponent = eigenvalue * eigenvalue * fourier;
    if (exponent > NEGLIGIBLE_EXPONENT && number > 1) return sum;
    sum += weight * Math.exp(-exponent);
  }
  throw new SandlarderError(
    'OUT_OF_DOMAIN',
    `series at Fourier number ${fourier} has not ended by term ${TERMS}`,
  );
}

/**
 * Elapsed time over the time that heat takes through a body: diffusivity t / R^2.
 *
 * @param diffusivity_m2_s m2/s
 * @param elapsed_s s, 0 or more
 * @param radius_m of the body; of a slab half its thickness, m
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function fourierNumber(diffusivity_m2_s: number, elapsed_s: number, radius_m: number): number {
  requireDiffusivity(diffusivity_m2_s);
  requireInDomain('elapsed time, s,', elapsed_s, 0, GREATEST_TIME_s);
  requireInDomain('radius, m,', radius_m, 1e-4, GREATEST_DISTANCE_m);
  return (diffusivity_m2_s * elapsed_s) / (radius_m * radius_m);
}

/**
 * Share of the first difference to the surface that is left in the middle of the body.
 *
 * @param shape of the body
 * @param fourier Fourier number, 0.001 to 1e6
 * @returns 0..1, to 1e-13; up to 1e-13 above 1 where nothing has arrived yet
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function centreRemainder(shape: Shape, fourier: number): number {
  return sumOfModes(CENTRE[shape], fourier);
}

/**
 * Share of the first difference to the surface that is left on the mean over the body: share of its heat.
 *
 * @param shape of the body
 * @param fourier Fourier number, 0.001 to 1e6
 * @returns 0..1, to 1e-13
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function meanRemainder(shape: Shape, fourier: number): number {
  return sumOfModes(MEAN[shape], fourier);
}
