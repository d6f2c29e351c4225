/**
 * A point of bench work as it begins: the value that its bath or jar has, and how well that is known.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import type { Bench, BenchPoint, BenchPointBody, BenchPointSource } from '../model/bench.js';
import type { CalibratedQuantity } from '../model/calibration.js';
import { STORED_UNIT } from '../model/quantity.js';
import { requireOpenAt } from './bench.js';
import type { BenchSource } from './bench-cautions.js';
import { boilingPoint, ICE_POINT } from './fixed-points.js';
import { PAIR_UNITS, type PairUnit } from './pair-columns.js';
import { saltOf, saltPoint } from './salts.js';
import { UNIT } from './words.js';

/** What stands on the bench for each source: its cautions and its shortest soak go by that. */
export const BENCH_SOURCE: Readonly<Record<BenchPointSource, BenchSource>> = {
  instrument: 'bath',
  'ice-point': 'ice',
  'boiling-point': 'boiling-water',
  salt: 'salt',
};

/** More than anybody makes; the whole bench is written anew with every step. */
const POINTS_MOST = 40;

/** °C and %RH: references that a calibration takes. A reading in K without its unit lies outside. */
const REFERENCE_RANGE: Readonly<Record<CalibratedQuantity, readonly [number, number]>> = {
  temperature: [-60, 160],
  humidity: [0, 100],
};

type Body<Source extends BenchPointSource> = Extract<BenchPointBody, { source: Source }>;
type Value = Pick<
  BenchPoint,
  'reference' | 'referenceUncertainty' | 'salt' | 'temperature_C' | 'label' | 'basis'
>;

/**
 * Begins the next point; the one before takes no more captures.
 *
 * @param at when the probes went into the bath, ms
 * @throws SandlarderError CONFLICT on a bench that has ended, and for a time before what was done last; BAD_REQUEST for
 * a source or unit of the other quantity; OUT_OF_DOMAIN for a value outside its range; LIMIT_EXCEEDED above 40 points
 */
export function beginPoint(bench: Bench, body: BenchPointBody, at: number): Bench {
  requireOpenAt(bench, at);
  if (!(bench.points.length < POINTS_MOST))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `bench ${bench.id}: expected at most ${POINTS_MOST} points, got one more`,
    );
  const point: BenchPoint = {
    number: bench.points.length + 1,
    startedAt: at,
    source: body.source,
    ...pointValueOf(body, bench.quantity),
    captured: [],
  };
  return { ...bench, points: [...bench.points, point] };
}

function pointValueOf(body: BenchPointBody, quantity: CalibratedQuantity): Value {
  switch (body.source) {
    case 'instrument':
      return besideInstrument(body, quantity);
    case 'ice-point':
      requireQuantity(quantity, 'temperature', 'ice point');
      return inIce(body);
    case 'boiling-point':
      requireQuantity(quantity, 'temperature', 'boiling point');
      return inBoilingWater(body);
    case 'salt':
      requireQuantity(quantity, 'humidity', 'salt');
      return overSalt(body);
  }
}

function requireQuantity(quantity: CalibratedQuantity, needed: CalibratedQuantity, what: string): void {
  if (quantity !== needed)
    throw new SandlarderError(
      'BAD_REQUEST',
      `${what}: expected a bench for ${needed}, got one for ${quantity}`,
    );
}

function besideInstrument(body: Body<'instrument'>, quantity: CalibratedQuantity): Value {
  const { temperature_C, unit = STORED_UNIT[quantity] } = body;
  if (temperature_C !== undefined) requireQuantity(quantity, 'humidity', 'temperature of the chamber');
  const { value, difference } = unitFor(unit, quantity);
  const reference = value(body.reference);
  const [low, high] = REFERENCE_RANGE[quantity];
  requireInDomain(`reference, ${UNIT[quantity]},`, reference, low, high);
  return {
    reference,
    referenceUncertainty: difference(body.uncertainty),
    ...(temperature_C !== undefined && { temperature_C }),
    label: 'beside instrument',
    basis: `read from the reference: ${body.reference} ${unit}; ${body.uncertainty} ${unit}, k = 1, as entered`,
  };
}

function unitFor(unit: string, quantity: CalibratedQuantity): PairUnit {
  const rule = PAIR_UNITS.get(unit);
  if (rule?.quantity === quantity) return rule;
  const expected = [...PAIR_UNITS].filter(([, { quantity: of }]) => of === quantity).map(([name]) => name);
  throw new SandlarderError(
    'BAD_REQUEST',
    `reference and probe in different units: expected ${expected.join(' or ')} for ${quantity}, got ${unit}`,
  );
}

function inIce({ uncertainty }: Body<'ice-point'>): Value {
  return {
    reference: ICE_POINT.temperature_C,
    referenceUncertainty: uncertainty ?? ICE_POINT.standardUncertainty_C,
    label: 'ice point',
    basis:
      uncertainty === undefined
        ? ICE_POINT.source
        : `melting ice of clean water; ${uncertainty} °C, k = 1, as entered`,
  };
}

function inBoilingWater({ pressure_hPa, pressureUncertainty_hPa }: Body<'boiling-point'>): Value {
  const { temperature_C, standardUncertainty_C, source } = boilingPoint(
    pressure_hPa,
    pressureUncertainty_hPa,
  );
  return {
    reference: temperature_C,
    referenceUncertainty: standardUncertainty_C,
    label: `boiling point at ${pressure_hPa} hPa`,
    basis: `${source}; pressure known to ${pressureUncertainty_hPa} hPa, k = 1, as entered`,
  };
}

function overSalt(body: Body<'salt'>): Value {
  const { salt, temperature_C, temperatureUncertainty_C, probeDifference_C } = body;
  const { humidity_RH, standardUncertainty_RH, source } = saltPoint(
    salt,
    temperature_C,
    temperatureUncertainty_C,
    probeDifference_C,
  );
  const apart = probeDifference_C === undefined ? '' : `, probes within ${probeDifference_C} °C of it`;
  return {
    reference: humidity_RH,
    referenceUncertainty: standardUncertainty_RH,
    salt,
    temperature_C,
    label: `saturated ${saltOf(salt).formula} at ${temperature_C} °C`,
    basis: `${source}; jar known to ${temperatureUncertainty_C} °C, k = 1${apart}, as entered`,
  };
}
