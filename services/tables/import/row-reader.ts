/** From a record of a table to readings by the mapping, and why what is not taken is not. */

import { idSchema } from '../../core/model/id.js';
import type { Quantity } from '../../core/model/quantity.js';
import { STORABLE, STORED_UNIT } from '../../core/model/quantity.js';
import type { MappedValue, Mapping } from './mapping.js';
import { type OpenTable, placeOf } from './open-table.js';
import { timeReader } from './read-time.js';
import type { TableRecord } from './records.js';
import type { Refusal, RefusedLine } from './refusal.js';
import { storedAs } from './units.js';

export type Values = Partial<Record<Quantity, number>>;

/** What one probe measured at one time, by one line. */
export interface TableReading {
  readonly line: number;
  readonly probe: string;
  readonly time: number;
  readonly values: Values;
}

/** Readings of a line go to `readings`, and what is not taken to `refused`. */
export interface RowSink {
  readonly readings: TableReading[];
  readonly refused: RefusedLine[];
  /** Lines in which nothing was measured. */
  empty: number;
}

export type RowReader = (record: TableRecord, sink: RowSink) => void;

interface Column {
  readonly at: number;
  readonly name: string;
  readonly quantity: Quantity;
  readonly convert: (value: number) => number;
  readonly where: { readonly at: number; readonly is: string } | undefined;
}

/** Columns of one probe; of that which the row names where it has no id. */
interface Group {
  readonly probe: string | undefined;
  readonly columns: readonly Column[];
}

const DECIMALS = {
  '.': /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i,
  ',': /^[+-]?(?:\d+,?\d*|,\d+)(?:e[+-]?\d+)?$/i,
} as const;

/** @param latest later times are of a wrong clock, ms */
export function rowReader(
  mapping: Mapping,
  { names, width, separator }: OpenTable,
  latest: number,
): RowReader {
  const place = (column: string): number => placeOf(names, column) as number;
  const readTime = timeReader(mapping.time, latest);
  const timePlaces = mapping.time.column.map(place);
  const timeName = mapping.time.column.join(' ');
  const groups = groupsOf(mapping, place);
  const readProbe = probeReader(mapping, place);
  const readNumber = numberReader(mapping);
  return (record, sink) => {
    const { line, fields, broken } = record;
    const refuse = (column: string, { reason, detail }: Refusal): void => {
      sink.refused.push({ line, column, reason, detail, text: fields.join(separator) });
    };
    if (broken !== undefined) return refuse('', { reason: 'quotes', detail: broken });
    if (fields.length === 1 && fields[0]?.trim() === '') return;
    if (fields.length !== width)
      return refuse('', { reason: 'columns', detail: `expected ${width} columns, got ${fields.length}` });
    const cell = (at: number): string => (fields[at] as string).trim();
    const time = readTime(timePlaces.map(cell).join(' '));
    if (typeof time !== 'number') return refuse(timeName, time);
    const named = readProbe?.(cell);
    if (typeof named === 'object') return refuse(named.column, named);
    const before = sink.readings.length + sink.refused.length;
    for (const { probe = named as string, columns } of groups) {
      let values: Values | undefined;
      for (const { at, name, quantity, convert, where } of columns) {
        if (where && cell(where.at) !== where.is) continue;
        const value = readNumber(cell(at));
        if (value === undefined) continue;
        const stored = typeof value === 'number' ? inRange(quantity, convert(value)) : value;
        if (typeof stored !== 'number') refuse(name, stored);
        else {
          values ??= {};
          values[quantity] = stored;
        }
      }
      if (values) sink.readings.push({ line, probe, time, values });
    }
    if (sink.readings.length + sink.refused.length === before) sink.empty += 1;
  };
}

function groupsOf({ probe, values }: Mapping, place: (column: string) => number): Group[] {
  const byProbe = new Map<string | undefined, Column[]>();
  for (const value of values) {
    const whose = value.probe ?? (typeof probe === 'string' ? probe : undefined);
    const known = byProbe.get(whose);
    const column = columnOf(value, place);
    if (known) known.push(column);
    else byProbe.set(whose, [column]);
  }
  return [...byProbe].map(([whose, columns]) => ({ probe: whose, columns }));
}

const columnOf = (
  { column, quantity, unit, where }: MappedValue,
  place: (column: string) => number,
): Column => ({
  ...{ at: place(column), name: column, ...storedAs(quantity, unit) },
  where: where && { at: place(where.column), is: where.is },
});

type Cell = (at: number) => string;

/** The id of the probe that a row names. */
function probeReader(
  { probe }: Mapping,
  place: (column: string) => number,
): ((cell: Cell) => string | (Refusal & { readonly column: string })) | undefined {
  if (typeof probe !== 'object') return undefined;
  const { column, names } = probe;
  const at = place(column);
  const known = new Map(Object.entries(names ?? {}));
  const expected = names ? 'a name that the mapping has' : 'the id of a probe';
  return (cell) => {
    const text = cell(at);
    const id = known.get(text);
    if (id !== undefined) return id;
    if (names === undefined && idSchema.safeParse(text).success) {
      if (known.size < MOST_IDS) known.set(text, text);
      return text;
    }
    return {
      column,
      reason: 'probe-unreadable',
      detail: `expected ${expected}, got ${JSON.stringify(text)}`,
    };
  };
}

/** Ids remembered as sound. */
const MOST_IDS = 20_000;

/** Undefined where nothing was measured. */
function numberReader({ decimal, missing }: Mapping): (text: string) => number | Refusal | undefined {
  const pattern = DECIMALS[decimal];
  const nothing = new Set(['', ...missing]);
  return (text) => {
    if (nothing.has(text)) return undefined;
    if (pattern.test(text)) return Number(decimal === ',' ? text.replace(',', '.') : text);
    return {
      reason: 'value-unreadable',
      detail: `expected a number with ${decimal === ',' ? 'a decimal comma' : 'a decimal point'}, got ${JSON.stringify(text.slice(0, 100))}`,
    };
  };
}

function inRange(quantity: Quantity, value: number): number | Refusal {
  const [low, high] = STORABLE[quantity];
  if (value >= low && value <= high) return value;
  return {
    reason: 'value-out-of-range',
    detail: `expected ${low} to ${high} ${STORED_UNIT[quantity]}, got ${value}`,
  };
}
