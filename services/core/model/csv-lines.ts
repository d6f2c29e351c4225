/**
 * Comma- or semicolon-separated text into records, strictly [RFC 4180 section 2]: a field is quoted as a whole or not
 * at all, a quote within is doubled, a quoted field may hold line breaks. Lines may end in CR LF, LF or CR; a byte order
 * mark is passed over, and so are empty lines.
 */

export interface CsvRecord {
  /** Line that the record begins on, from 1. */
  readonly line: number;
  readonly fields: readonly string[];
  /** What is wrong with it, in a clause; its fields are then as far as they were read. */
  readonly fault?: string;
}

export type Separator = ',' | ';';

const LINE_END = /\r\n|\n|\r/g;

/** Quoted or bare, and what follows: the separator, a line end or the end of the text; anything else is a fault. */
const fieldPattern = (separator: Separator): RegExp =>
  new RegExp(`(?:"([^"]*(?:""[^"]*)*)"|([^"${separator}\\r\\n]*))(${separator}|\\r\\n|\\n|\\r|$)`, 'y');

/**
 * Splits text into records.
 *
 * @remarks A faulty record is given up to the end of its line; reading goes on with the next line. Takes time in
 * proportion to the text.
 */
export function csvRecords(text: string, separator: Separator): CsvRecord[] {
  const pattern = fieldPattern(separator);
  const records: CsvRecord[] = [];
  let line = 1;
  let at = text.startsWith('\uFEFF') ? 1 : 0;
  while (at < text.length) {
    const { fields, fault, end } = recordAt(text, at, pattern);
    if (fault !== undefined) records.push({ line, fields, fault });
    else if (fields.length > 1 || fields[0] !== '') records.push({ line, fields });
    line += text.slice(at, end).match(LINE_END)?.length ?? 0;
    at = end;
  }
  return records;
}

interface Read {
  readonly fields: readonly string[];
  readonly fault?: string;
  readonly end: number;
}

function recordAt(text: string, start: number, pattern: RegExp): Read {
  const fields: string[] = [];
  let at = start;
  for (;;) {
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    if (match === null) return { fields, fault: faultAt(text, at), end: nextLine(text, at) };
    const [all, quoted, bare, next] = match;
    fields.push(quoted === undefined ? (bare as string) : quoted.replaceAll('""', '"'));
    at += all.length;
    if (next !== ',' && next !== ';') return { fields, end: at };
  }
}

const faultAt = (text: string, at: number): string =>
  text[at] === '"'
    ? 'expected a quoted field to be closed, and then a separator'
    : 'expected a quote only around a whole field';

function nextLine(text: string, from: number): number {
  LINE_END.lastIndex = from;
  return LINE_END.exec(text) === null ? text.length : LINE_END.lastIndex;
}
