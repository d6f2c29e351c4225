/** A plain table of a trial: comma- or semicolon-separated text with named columns, one line a bed. */
import { CsvError, parse } from 'csv-parse/sync';
import { SandlarderError } from '../../core/errors.js';
import { textOf } from '../../files.js';

/** Thirty beds take a kilobyte, roots one by one some hundred. */
const FILE_bytes = 8 * 1024 * 1024;

export interface Row {
  /** From 1, as an editor counts. */
  readonly line: number;
  /** By column, trimmed; '' where nothing stands. */
  readonly cells: Readonly<Record<string, string>>;
}

export const wrongTable = (file: string, message: string): SandlarderError =>
  new SandlarderError('WRONG_USAGE', `${file}: ${message}`);

/** @throws SandlarderError WRONG_USAGE for a file that cannot be read or is longer than any trial */
export const tableText = (file: string): string => textOf(file, { most_bytes: FILE_bytes });

/**
 * Reads the rows.
 *
 * @param columns that must be there; others are kept too
 * @throws SandlarderError WRONG_USAGE naming the line, and the column where it is one
 */
export function rowsOf(file: string, text: string, columns: readonly string[]): Row[] {
  const records = recordsOf(file, text);
  const [head, ...rows] = records;
  const names = head?.record.map((name) => name.trim()) ?? [];
  const twice = names.find((name, at) => names.indexOf(name) !== at);
  if (twice !== undefined)
    throw wrongTable(file, `line 1: expected each column once, got ${JSON.stringify(twice)} twice`);
  const missing = columns.filter((name) => !names.includes(name));
  if (missing.length > 0)
    throw wrongTable(
      file,
      `line 1: expected columns ${columns.join(', ')}, got ${names.join(', ') || 'nothing'}: ${missing.join(', ')} missing`,
    );
  if (rows.length === 0)
    throw wrongTable(file, 'expected a line a bed under the names of the columns, got none');
  return rows.map(({ line, record }) => {
    if (record.length !== names.length)
      throw wrongTable(file, `line ${line}: expected ${names.length} cells, got ${record.length}`);
    return {
      line,
      cells: Object.fromEntries(names.map((name, at) => [name, (record[at] as string).trim()])),
    };
  });
}

interface Parsed {
  readonly record: readonly string[];
  readonly line: number;
}

function recordsOf(file: string, text: string): Parsed[] {
  const [first = ''] = text.split(/\r?\n|\r/, 1);
  try {
    const read = parse(text, {
      ...{ bom: true, info: true, relax_column_count: true, skip_empty_lines: true },
      delimiter: first.includes(';') && !first.includes(',') ? ';' : ',',
    }) as unknown as { readonly record: string[]; readonly info: { readonly lines: number } }[];
    return read.map(({ record, info }) => ({ record, line: info.lines }));
  } catch (error) {
    if (error instanceof CsvError) throw wrongTable(file, `line ${error['lines'] ?? '?'}: ${error.message}`);
    throw error;
  }
}

/** @throws SandlarderError WRONG_USAGE for an empty cell */
export function textAt(file: string, { line, cells }: Row, column: string): string {
  const text = cells[column] ?? '';
  if (text === '') throw wrongTable(file, `line ${line}, column ${column}: expected a value, got nothing`);
  return text;
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/** @throws SandlarderError WRONG_USAGE unless it is a number with a decimal point */
export function numberAt(file: string, row: Row, column: string, low = -Number.MAX_VALUE): number {
  const text = textAt(file, row, column);
  const value = NUMBER.test(text) ? Number(text) : Number.NaN;
  if (!(value >= low && Number.isFinite(value)))
    throw wrongTable(
      file,
      `line ${row.line}, column ${column}: expected a number${low > -Number.MAX_VALUE ? ` of ${low} or more` : ''}${text.includes(',') ? ' with a decimal point' : ''}, got ${JSON.stringify(text)}`,
    );
  return value;
}
