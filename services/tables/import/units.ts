/** Units that a table may be in, and the quantity and unit in which they are stored. */
import { type Quantity, UNIT_RULES, type UnitRule } from '../../core/model/quantity.js';

export const IMPORT_UNITS = ['°C', '°F', 'K', '%RH', 'ratio', 'V', '%EL'] as const;
export type ImportUnit = (typeof IMPORT_UNITS)[number];
export type ImportQuantity = 'temperature' | 'humidity' | 'battery';

/** Keeps a converted value free of the last digits that binary arithmetic adds: 68 °F is 20 °C. */
const toMicro = (value: number): number => Math.round(value * 1e6) / 1e6;

const rule = (name: ImportQuantity, senml: string): UnitRule => UNIT_RULES[name]?.[senml] as UnitRule;

const RULES: Readonly<Record<ImportQuantity, Partial<Record<ImportUnit, UnitRule>>>> = {
  temperature: {
    '°C': rule('temperature', 'Cel'),
    '°F': { quantity: 'temperature', convert: (value) => toMicro((value - 32) / 1.8) },
    K: rule('temperature', 'K'),
  },
  humidity: { '%RH': rule('humidity', '%RH'), ratio: rule('humidity', '/') },
  battery: { V: rule('battery', 'V'), '%EL': rule('battery', '%EL') },
};

/** What is wrong with a unit; undefined where nothing is. */
export function unitProblem(quantity: ImportQuantity, unit: ImportUnit): string | undefined {
  const fitting = Object.keys(RULES[quantity]);
  return fitting.includes(unit) ? undefined : `expected ${fitting.join(' or ')} for ${quantity}, got ${unit}`;
}

export interface StoredAs {
  readonly quantity: Quantity;
  readonly convert: (value: number) => number;
}

/** @param unit one that fits the quantity */
export const storedAs = (quantity: ImportQuantity, unit: ImportUnit): StoredAs =>
  RULES[quantity][unit] as StoredAs;
