/**
 * A body that cools or warms through a film of air or a board on its surface: its slowest mode, which is all that is
 * left once the Fourier number has passed 0.2. A box of sand in a hut goes by this.
 *
 * Source: one-term coefficients as tabulated in Incropera & DeWitt, Fundamentals of Heat and Mass Transfer,
 * table 5.1 (from memory); eigenvalue conditions solved here by bisection, not read from the table.
 */
import { requireInDomain } from '../errors.js';
import { besselJ0, besselJ1, zeroOfJ0 } from './bessel.js';
import type { Shape } from './shape.js';

/** Film coefficient times radius over conductivity. Below, the body has one temperature; above, its surface is held. */
const LEAST_BIOT = 1e-4;
const GREATEST_BIOT = 1e4;

/** Below this Fourier number the modes left out are more than 2 % of what is left. Incropera & DeWitt, 5.5.2 (from memory). */
const LEAST_FOURIER = 0.2;

/** Halvings of the interval that holds the eigenvalue: 60 leave less than the last binary digit. */
const HALVINGS = 60;

interface Condition {
  /** Grows through zero at the eigenvalue. */
  readonly excess: (eigenvalue: number, biot: number) => number;
  /** Eigenvalue for a surface that is held: the upper end of the interval. */
  readonly held: number;
  /** Weight of the mode in the middle of a body of one temperature. */
  readonly weight: (eigenvalue: number) => number;
}

const CONDITIONS: Readonly<Record<Shape, Condition>> = {
  slab: {
    excess: (z, biot) => z * Math.sin(z) - biot * Math.cos(z),
    held: Math.PI / 2,
    weight: (z) => (4 * Math.sin(z)) / (2 * z + Math.sin(2 * z)),
  },
  cylinder: {
    excess: (z, biot) => z * besselJ1(z) - biot * besselJ0(z),
    held: zeroOfJ0(1),
    weight: (z) => (2 / z) * (besselJ1(z) / (besselJ0(z) ** 2 + besselJ1(z) ** 2)),
  },
  sphere: {
    excess: (z, biot) => (1 - biot) * Math.sin(z) - z * Math.cos(z),
    held: Math.PI,
    weight: (z) => (4 * (Math.sin(z) - z * Math.cos(z))) / (2 * z - Math.sin(2 * z)),
  },
};

export interface SlowestMode {
  /** Its square times the Fourier number is the exponent of the decay. */
  readonly eigenvalue: number;
  /** Share of the first difference that it carries in the middle of the body, 1 to 2. */
  readonly weight: number;
}

/**
 * Slowest mode of a body under a film.
 *
 * @param shape of the body
 * @param biot film coefficient times radius (of a slab half its thickness) over conductivity, 1e-4 to 1e4
 * @throws SandlarderError OUT_OF_DOMAIN
 * @remarks Bisection to the last digit, 60 halvings.
 */
export function slowestMode(shape: Shape, biot: number): SlowestMode {
  requireInDomain('Biot number', biot, LEAST_BIOT, GREATEST_BIOT);
  const { excess, held, weight } = CONDITIONS[shape];
  let low = 0;
  let high = held;
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const middle = (low + high) / 2;
    if (excess(middle, biot) > 0) high = middle;
    else low = middle;
  }
  const eigenvalue = (low + high) / 2;
  return { eigenvalue, weight: weight(eigenvalue) };
}

/**
 * Share of the first difference to the air that is left in the middle of the body.
 *
 * @param shape of the body
 * @param biot as of `slowestMode`
 * @param fourier Fourier number, 0.2 or more: one term holds within 2 % there, and better with every later hour
 * @returns 0..1
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function centreRemainderUnderFilm(shape: Shape, biot: number, fourier: number): number {
  requireInDomain('Fourier number', fourier, LEAST_FOURIER, 1e6);
  const { eigenvalue, weight } = slowestMode(shape, biot);
  return weight * Math.exp(-eigenvalue * eigenvalue * fourier);
}
