/**
 * Columns of a file of calibration pairs, and how numbers and units in them are read.
 */
import { z } from 'zod';
import { SandlarderError } from '../errors.js';
import type { CalibratedQuantity } from '../model/calibration.js';
import type { CsvRecord, Separator } from '../model/csv-lines.js';
import { UNIT_RULES } from '../model/quantity.js';

/**
 * - `indicated`, `reference` what the probe and the reference showed, in one unit
 * - `uncertainty` standard uncertainty of the reference (k = 1), `uncertainty_k2` expanded (k = 2): one of them
 * - `unit` of all four, or `indicated_unit` and `reference_unit`; `Cel`, `K`, `%RH` or `/`
 * - `probe` its id, `time` RFC 3339, `quantity` temperature or humidity
 * - `temperature` of the bath or chamber, °C whatever the unit
 */
export const PAIR_COLUMNS = [
  'probe',
  'time',
  'quantity',
  'indicated',
  'reference',
  'uncertainty',
  'uncertainty_k2',
  'unit',
  'indicated_unit',
  'reference_unit',
  'temperature',
] as const;

export type PairColumn = (typeof PAIR_COLUMNS)[number];

export const DECIMAL_COLUMNS: readonly PairColumn[] = [
  'indicated',
  'reference',
  'uncertainty',
  'uncertainty_k2',
  'temperature',
];

/** Place of each column that a file has, from 0. */
export type Places = ReadonlyMap<PairColumn, number>;

export type DecimalMark = '.' | ',';

export interface PairFormat {
  readonly separator: Separator;
  readonly places: Places;
  readonly mark: DecimalMark;
}

const columnSchema = z.enum(PAIR_COLUMNS);

/** Semicolon where the header has one, which leaves the comma to decimals. */
export const separatorOf = (text: string): Separator =>
  (/^[^\r\n]*/.exec(text)?.[0] ?? '').includes(';') ? ';' : ',';

/**
 * Place of each column.
 *
 * @throws SandlarderError BAD_REQUEST for a header that lacks a column, has one twice or one unknown
 */
export function placesOf(header: CsvRecord | undefined): Places {
  const places = new Map<PairColumn, number>();
  if (header === undefined) throw badHeader('expected a header and pairs, got nothing');
  if (header.fault !== undefined) throw badHeader(header.fault);
  header.fields.forEach((field, place) => {
    const name = columnSchema.safeParse(field.trim().toLowerCase());
    if (!name.success)
      throw badHeader(`expected columns of ${PAIR_COLUMNS.join(', ')}, got "${field.trim()}"`);
    if (places.has(name.data)) throw badHeader(`expected column ${name.data} once, got it twice`);
    places.set(name.data, place);
  });
  for (const needed of ['indicated', 'reference'] as const)
    if (!places.has(needed)) throw badHeader(`expected a column ${needed}, got none`);
  if (places.has('uncertainty') && places.has('uncertainty_k2'))
    throw badHeader('expected one of the columns uncertainty (k = 1) and uncertainty_k2, got both');
  if (places.has('unit') && (places.has('indicated_unit') || places.has('reference_unit')))
    throw badHeader('expected a column unit, or indicated_unit and reference_unit, got both');
  if (places.has('indicated_unit') !== places.has('reference_unit'))
    throw badHeader('expected both indicated_unit and reference_unit, got one of them');
  return places;
}

const badHeader = (message: string): SandlarderError =>
  new SandlarderError('BAD_REQUEST', `header of the pairs: ${message}`);

const NUMBER: Readonly<Record<DecimalMark, RegExp>> = {
  '.': /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d{1,3})?$/i,
  ',': /^[+-]?(\d+(,\d*)?|,\d+)(e[+-]?\d{1,3})?$/i,
};

/** Undefined for what is no finite decimal number with this mark. */
export function numberOf(text: string, mark: DecimalMark): number | undefined {
  if (!NUMBER[mark].test(text)) return undefined;
  const value = Number(text.replace(',', '.'));
  return Number.isFinite(value) ? value : undefined;
}

export interface PairUnit {
  readonly quantity: CalibratedQuantity;
  readonly value: (number: number) => number;
  /** A difference or an uncertainty: no zero point. */
  readonly difference: (number: number) => number;
}

const same = (number: number): number => number;

/** Units in which pairs may be given. */
export const PAIR_UNITS: ReadonlyMap<string, PairUnit> = new Map(
  (['temperature', 'humidity'] as const).flatMap((quantity) =>
    Object.entries(UNIT_RULES[quantity] ?? {}).map(([unit, { convert }]) => [
      unit,
      { quantity, value: convert, difference: unit === '/' ? (number) => number * 100 : same },
    ]),
  ),
);
