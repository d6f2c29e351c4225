/**
 * Records of a table, some at a time, with where each begins and ends, so that reading can go on from there.
 *
 * A record whose quotes are not right is given as broken up to the end of its first line, and reading goes on with the
 * next: what a stray quote swallows is one line.
 */
import { createReadStream } from 'node:fs';
import { open } from 'node:fs/promises';
import { CsvError, type Options, type Parser, parse } from 'csv-parse';
import { SandlarderError } from '../../core/errors.js';
import { unread } from '../../core/model/file-words.js';

/** Longest record, bytes: a wide table of a thousand columns. */
const RECORD_bytes = 64 * 1024;

/** Broken records after which a file is taken to be no such table: each costs a new start of the parser, some ms. */
const MOST_BROKEN = 300;

/** Read at a time, bytes: about a thousand records. */
const READ_bytes = 64 * 1024;

export type Encoding = 'utf-8' | 'latin1';

export interface Place {
  /** Bytes before it. */
  readonly offset: number;
  /** Line on which it begins, from 1. */
  readonly line: number;
}

export interface TableRecord {
  readonly line: number;
  readonly fields: readonly string[];
  /** What is wrong with its quotes; its one field is then its first line as it came. */
  readonly broken?: string;
}

export interface Chunk {
  readonly records: readonly TableRecord[];
  /** Where what follows begins. */
  readonly next: Place;
}

export interface TableFormat {
  readonly separator: string;
  readonly encoding: Encoding;
}

/** RFC 4180, and lines that end in LF or CR alone. */
export const csvOptions = ({ separator, encoding }: TableFormat): Options => ({
  delimiter: separator,
  encoding: encoding === 'utf-8' ? 'utf8' : encoding,
  record_delimiter: ['\r\n', '\n', '\r'],
  relax_column_count: true,
  max_record_size: RECORD_bytes,
});

const LINE_END = /\r\n|\n|\r/g;

/**
 * @throws SandlarderError WRONG_USAGE where the file cannot be read; LIMIT_EXCEEDED where too many records are broken
 */
export async function* readRecords(file: string, format: TableFormat, from: Place): AsyncGenerator<Chunk> {
  let at = from;
  for (let broken = 0; ; broken += 1) {
    const end = yield* readSound(file, format, at);
    if (end.fault === undefined) return;
    if (!(broken < MOST_BROKEN))
      throw new SandlarderError(
        'LIMIT_EXCEEDED',
        `${file}, line ${end.at.line}: expected fewer than ${MOST_BROKEN} records with broken quotes, got more`,
      );
    const { text, bytes } = await firstLine(file, end.at, format);
    at = { offset: end.at.offset + bytes, line: end.at.line + 1 };
    const line = { line: end.at.line, fields: [text], broken: end.fault };
    yield { records: [line], next: at };
  }
}

interface End {
  /** Behind the last record that was given. */
  readonly at: Place;
  readonly fault?: string;
}

/** Up to a broken record, or to the end. */
async function* readSound(file: string, format: TableFormat, from: Place): AsyncGenerator<Chunk, End> {
  const gathering = gatheringParser(format, from);
  try {
    for await (const bytes of piecesOf(file, from.offset)) {
      const fault = await fed(gathering.parser, bytes);
      const chunk = gathering.take();
      if (chunk.records.length > 0) yield chunk;
      if (fault !== undefined) return { at: chunk.next, fault };
    }
    return { at: gathering.take().next };
  } finally {
    gathering.parser.destroy();
  }
}

interface Gathering {
  readonly parser: Parser;
  /** Records since the last time, and where the last one ended. */
  take(): Chunk;
}

/** Takes each record from the parser as it comes: only then does its count of bytes say where the record ended. */
function gatheringParser(format: TableFormat, from: Place): Gathering {
  const parser = parse({ ...csvOptions(format), bom: from.offset === 0 });
  const pass = parser.push.bind(parser);
  let records: TableRecord[] = [];
  let next = from;
  parser.push = (fields: string[] | null) => {
    if (fields === null) return pass(null);
    records.push({ line: next.line, fields });
    next = { offset: from.offset + parser.info.bytes, line: next.line + 1 + linesWithin(fields) };
    return true;
  };
  parser.resume();
  const take = (): Chunk => {
    const taken = { records, next };
    records = [];
    return taken;
  };
  return { parser, take };
}

function linesWithin(fields: readonly string[]): number {
  let lines = 0;
  for (const field of fields)
    if (field.includes('\n') || field.includes('\r')) lines += field.match(LINE_END)?.length ?? 0;
  return lines;
}

/** The file from a place on, and null at its end. */
async function* piecesOf(file: string, start: number): AsyncGenerator<Buffer | null> {
  try {
    yield* createReadStream(file, { start, highWaterMark: READ_bytes }) as AsyncIterable<Buffer>;
  } catch (error) {
    throw unreadable(file, error);
  }
  yield null;
}

/** @returns what is wrong where the parser could not go on; null ends it */
function fed(parser: Parser, bytes: Buffer | null): Promise<string | undefined> {
  return new Promise((resolve, reject) => {
    const onError = (error: Error): void => {
      if (error instanceof CsvError) resolve(faultOf(error));
      else reject(error);
    };
    const onDone = (error?: Error | null): void => {
      if (error) return;
      parser.off('error', onError);
      resolve(undefined);
    };
    parser.once('error', onError);
    if (bytes === null) parser.end(onDone);
    else parser.write(bytes, onDone);
  });
}

const FAULTS: Readonly<Record<string, string>> = {
  CSV_INVALID_CLOSING_QUOTE: 'expected a separator after the end of a quoted field',
  INVALID_OPENING_QUOTE: 'expected a quote only around a whole field',
  CSV_QUOTE_NOT_CLOSED: 'expected a quoted field to be closed',
  CSV_MAX_RECORD_SIZE: `expected a record of at most ${RECORD_bytes} bytes`,
};

const faultOf = ({ code, message }: CsvError): string => FAULTS[code] ?? message;

/** The text up to the next line end, as much of it as a record may have, and its bytes with the line end. */
async function firstLine(
  file: string,
  { offset }: Place,
  { encoding }: TableFormat,
): Promise<{ text: string; bytes: number }> {
  const handle = await open(file);
  try {
    let whole = 0;
    let text: string | undefined;
    const buffer = Buffer.alloc(RECORD_bytes);
    for (;;) {
      const { bytesRead } = await handle.read(buffer, 0, RECORD_bytes, offset + whole);
      const read = buffer.subarray(0, bytesRead);
      const end = read.findIndex((byte) => byte === 0x0a || byte === 0x0d);
      text ??= read.subarray(0, end < 0 ? bytesRead : end).toString(encoding === 'utf-8' ? 'utf8' : 'latin1');
      if (end < 0 && bytesRead > 0) whole += bytesRead;
      else return { text, bytes: whole + (end < 0 ? 0 : end + lineEndAt(read, end)) };
    }
  } finally {
    await handle.close();
  }
}

const lineEndAt = (bytes: Buffer, at: number): number =>
  bytes[at] === 0x0d && bytes[at + 1] === 0x0a ? 2 : 1;

export const unreadable = (file: string, error: unknown): SandlarderError =>
  new SandlarderError('WRONG_USAGE', unread(file, error), {
    cause: error,
  });
