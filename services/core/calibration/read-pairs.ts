/**
 * Calibration pairs from the text of a CSV file: every line that cannot be taken is named with what was expected.
 */
import { SandlarderError } from '../errors.js';
import { csvRecords } from '../model/csv-lines.js';
import { DECIMAL_COLUMNS, type PairColumn, type Places, placesOf, separatorOf } from './pair-columns.js';
import { type Pair, type PairDefaults, pairOf } from './pair-line.js';

/** Lines of a file: a year of hourly pairs; protects memory. */
export const MOST_PAIRS = 10_000;

/** Characters of a file: 200 a line. */
export const MOST_CHARACTERS = 200 * MOST_PAIRS;

export interface BadLine {
  /** Of the file, from 1. */
  readonly line: number;
  /** What was expected and what was there, in one sentence that begins with the line. */
  readonly message: string;
}

export interface Pairs {
  readonly pairs: readonly Pair[];
  readonly badLines: readonly BadLine[];
}

/**
 * Reads pairs.
 *
 * @param text separated by semicolons where the header is, else by commas; a decimal comma only with semicolons, and
 * then throughout
 * @throws SandlarderError BAD_REQUEST for a header that cannot be used; LIMIT_EXCEEDED above 10,000 lines or 2,000,000
 * characters
 */
export function readPairs(text: string, defaults: PairDefaults = {}): Pairs {
  requireAtMost('characters', text.length, MOST_CHARACTERS);
  const separator = separatorOf(text);
  const [header, ...records] = csvRecords(text, separator);
  const places = placesOf(header);
  requireUncertainty(places, defaults);
  requireAtMost('lines', records.length, MOST_PAIRS);
  const hasComma = records.some(({ fields }) =>
    DECIMAL_COLUMNS.some((column) => fields[places.get(column) ?? -1]?.includes(',')),
  );
  const format = { separator, places, mark: separator === ';' && hasComma ? ',' : '.' } as const;
  const pairs: Pair[] = [];
  const badLines: BadLine[] = [];
  for (const record of records) {
    const pair = pairOf(record, format, defaults);
    if (typeof pair === 'string')
      badLines.push({ line: record.line, message: `line ${record.line}: ${pair}` });
    else pairs.push(pair);
  }
  return { pairs, badLines };
}

const UNCERTAINTY: readonly PairColumn[] = ['uncertainty', 'uncertainty_k2'];

function requireUncertainty(places: Places, { referenceUncertainty }: PairDefaults): void {
  if (referenceUncertainty === undefined && !UNCERTAINTY.some((column) => places.has(column)))
    throw new SandlarderError(
      'BAD_REQUEST',
      'header of the pairs: expected a column uncertainty (k = 1) or uncertainty_k2, got neither',
    );
}

function requireAtMost(what: string, count: number, most: number): void {
  if (!(count <= most))
    throw new SandlarderError('LIMIT_EXCEEDED', `pairs: expected at most ${most} ${what}, got ${count}`);
}
