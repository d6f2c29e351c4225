/**
 * What a probe can measure, in which units it may say so, and how far a value may lie before it is no
 * measurement at all. The limits only keep nonsense out of the archive: a value that a broken sensor really
 * sends (-127, 85.0) is stored, and judged later by the watch.
 */

export const QUANTITIES = ['temperature', 'humidity', 'battery', 'charge'] as const;

/**
 * - `temperature` in degC
 * - `humidity` relative humidity in %RH
 * - `battery` its voltage in V
 * - `charge` what is left in the battery, in %EL
 */
export type Quantity = (typeof QUANTITIES)[number];

export interface UnitRule {
  readonly quantity: Quantity;
  /** From the unit sent to the unit stored. */
  readonly convert: (value: number) => number;
}

const asIs = (value: number): number => value;

/** Keeps a converted value free of the last digits that binary arithmetic adds: 293.15 K is 20 degC. */
const toMicro = (value: number): number => Math.round(value * 1e6) / 1e6;

/** The last part of the SenML name and the unit (RFC 8428 section 12.1), to the quantity stored. */
export const UNIT_RULES: Readonly<Record<string, Readonly<Record<string, UnitRule>>>> = {
  temperature: {
    Cel: { quantity: 'temperature', convert: asIs },
    K: { quantity: 'temperature', convert: (value) => toMicro(value - 273.15) },
  },
  humidity: {
    '%RH': { quantity: 'humidity', convert: asIs },
    '/': { quantity: 'humidity', convert: (value) => toMicro(value * 100) },
  },
  battery: {
    V: { quantity: 'battery', convert: asIs },
    '%EL': { quantity: 'charge', convert: asIs },
  },
};

/** Lowest and highest value that is stored, in the unit stored. */
export const STORABLE: Readonly<Record<Quantity, readonly [number, number]>> = {
  temperature: [-273.15, 1000],
  humidity: [-20, 130],
  battery: [0, 1000],
  charge: [0, 100],
};

/** The unit stored, as SenML writes it. */
export const STORED_UNIT: Readonly<Record<Quantity, string>> = {
  temperature: 'Cel',
  humidity: '%RH',
  battery: 'V',
  charge: '%EL',
};
