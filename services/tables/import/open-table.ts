/** Looks at the beginning of a table: its separator, its header, and where its rows begin. */
import { open } from 'node:fs/promises';
import { parse } from 'csv-parse/sync';
import { SandlarderError } from '../../core/errors.js';
import type { Mapping } from './mapping.js';
import { csvOptions, type Place, type TableFormat, unreadable } from './records.js';

/** What is looked at to find the header, bytes. */
const HEAD_bytes = 256 * 1024;

const SEPARATORS = { ',': ',', ';': ';', tab: '\t' } as const;
export type SeparatorName = keyof typeof SEPARATORS;

export interface OpenTable extends TableFormat {
  readonly file: string;
  readonly bytes: number;
  readonly separatorName: SeparatorName;
  /** As the header has them; "#1" and so on where there is none. */
  readonly names: readonly string[];
  /** The number of columns that each row must have. */
  readonly width: number;
  readonly rows: Place;
}

/**
 * @throws SandlarderError WRONG_USAGE where the file cannot be read, or a column of the mapping is not in it
 */
export async function openTable(file: string, mapping: Mapping): Promise<OpenTable> {
  const { head, bytes } = await readHead(file);
  requireText(file, head);
  const start = skipLines(file, head, mapping.skip);
  const tried = (mapping.separator ? [mapping.separator] : (Object.keys(SEPARATORS) as SeparatorName[])).map(
    (name) => ({ name, ...firstRecord(head.subarray(start.offset), name, mapping) }),
  );
  const wanted = columnsOf(mapping);
  const lacking = tried.map(({ fields }) => missing(fields, wanted, mapping.header));
  const found = tried[lacking.findIndex((columns) => columns.length === 0)];
  if (!found) throw notFound(file, tried, lacking);
  const rows = mapping.header
    ? { offset: start.offset + found.bytes, line: start.line + found.lines }
    : start;
  return {
    ...{ file, bytes, separatorName: found.name, separator: SEPARATORS[found.name] },
    ...{ encoding: mapping.encoding, width: found.fields.length, rows },
    names: mapping.header ? found.fields : found.fields.map((_, at) => `#${at + 1}`),
  };
}

async function readHead(file: string): Promise<{ head: Buffer; bytes: number }> {
  try {
    const handle = await open(file);
    try {
      const { size } = await handle.stat();
      const { buffer, bytesRead } = await handle.read(Buffer.alloc(HEAD_bytes), 0, HEAD_bytes, 0);
      return { head: buffer.subarray(0, bytesRead), bytes: size };
    } finally {
      await handle.close();
    }
  } catch (error) {
    throw unreadable(file, error);
  }
}

function requireText(file: string, head: Buffer): void {
  const [first, second] = head;
  const isUtf16 = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
  if (isUtf16 || head.includes(0))
    throw new SandlarderError(
      'WRONG_USAGE',
      `${file}: expected text in UTF-8 or Latin-1, got ${isUtf16 ? 'UTF-16' : 'bytes that are no text'}: save it as CSV in UTF-8`,
    );
}

/** Past the byte order mark and the lines before the header. */
function skipLines(file: string, head: Buffer, skip: number): Place {
  let offset = 0;
  for (let line = 0; line < skip; line += 1) {
    const end = head.subarray(offset).findIndex((byte) => byte === 0x0a || byte === 0x0d);
    if (end < 0)
      throw new SandlarderError('WRONG_USAGE', `${file}: expected more than ${skip} lines, got ${line}`);
    offset += end + (head[offset + end] === 0x0d && head[offset + end + 1] === 0x0a ? 2 : 1);
  }
  return { offset, line: skip + 1 };
}

interface First {
  readonly fields: readonly string[];
  readonly bytes: number;
  readonly lines: number;
}

const NOTHING: First = { fields: [], bytes: 0, lines: 0 };

/** The first record of the rest of the head, which is cut off somewhere. */
function firstRecord(rest: Buffer, name: SeparatorName, { encoding }: Mapping): First {
  try {
    const options = csvOptions({ separator: SEPARATORS[name], encoding });
    const [first] = parse(rest, { ...options, bom: true, to: 1, info: true }) as unknown as {
      record: string[];
      info: { bytes: number };
    }[];
    if (!first) return NOTHING;
    const text = rest.subarray(0, first.info.bytes).toString('latin1');
    return {
      fields: first.record.map((field) => field.trim()),
      bytes: first.info.bytes,
      lines: text.match(/\r\n|\n|\r/g)?.length ?? 0,
    };
  } catch {
    // Cut or quoted otherwise by this separator: it is another.
    return NOTHING;
  }
}

/** Every column that a mapping names. */
export function columnsOf({ time, probe, values }: Mapping): string[] {
  return [
    ...time.column,
    ...(typeof probe === 'object' ? [probe.column] : []),
    ...values.flatMap(({ column, where }) => (where ? [column, where.column] : [column])),
  ];
}

/** `#3` is the third. */
const NUMBERED = /^#([1-9]\d{0,3})$/;

/** Place of a column from 0; undefined where there is none, or more than one of the name. */
export function placeOf(names: readonly string[], column: string): number | undefined {
  const [, number] = NUMBERED.exec(column) ?? [];
  if (number !== undefined) return Number(number) <= names.length ? Number(number) - 1 : undefined;
  const first = names.indexOf(column);
  return first >= 0 && first === names.lastIndexOf(column) ? first : undefined;
}

const missing = (names: readonly string[], wanted: readonly string[], header: boolean): string[] =>
  wanted.filter((column) => placeOf(header ? names : names.map(() => ''), column) === undefined);

type Tried = First & { readonly name: SeparatorName };

function notFound(file: string, tried: readonly Tried[], lacking: readonly string[][]): SandlarderError {
  const fewest = Math.min(...lacking.map(({ length }) => length));
  const at = lacking.findIndex(({ length }) => length === fewest);
  const { name, fields } = tried[at] as Tried;
  const [column = ''] = lacking[at] ?? [];
  const same = fields.filter((field) => field === column).length;
  const got =
    same > 1
      ? `got ${same} of that name: say which by its number, such as #${fields.indexOf(column) + 1}`
      : `got ${
          fields
            .map((field) => JSON.stringify(field))
            .join(', ')
            .slice(0, 500) || 'nothing'
        } (separated by ${name})`;
  return new SandlarderError('WRONG_USAGE', `${file}: expected a column ${JSON.stringify(column)}, ${got}`);
}
