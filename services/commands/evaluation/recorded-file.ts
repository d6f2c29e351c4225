/**
 * Recorded readings from a file: CSV with a header, or one JSON object a line. Of the columns (or keys) `probe` and
 * `time` are needed, `temperature` (°C) and `humidity` (%RH) are used, others are not looked at.
 */
import { createReadStream } from 'node:fs';
import { createInterface } from 'node:readline';
import { SandlarderError } from '../../core/errors.js';
import { csvRecords } from '../../core/model/csv-lines.js';
import { unread } from '../../core/model/file-words.js';
import { parseTime } from '../../core/model/time.js';
import type { Sample } from '../../core/watch/watch.js';

/** Readings in a file at the most: 30 seasons of a bed with six probes, some hundred bytes of memory each. */
const MOST_ROWS = 5_000_000;

export interface RecordedReading extends Sample {
  readonly probe: string;
}

type Cells = Readonly<Record<string, unknown>>;

/** How the rows behind a first line are read; for CSV the first line is the header, and no row. */
interface Shape {
  readonly header: boolean;
  readonly cellsOf: (line: string) => Cells;
}

/** The fields of a line. A field that spans lines is none of a reading's. */
function fieldsOf(line: string): readonly string[] {
  const record = csvRecords(line, ',')[0];
  if (record?.fault !== undefined) throw new Error(record.fault);
  return (record?.fields ?? []).map((field) => field.trim());
}

function objectOf(line: string): Cells {
  const json: unknown = JSON.parse(line);
  if (typeof json !== 'object' || json === null || Array.isArray(json))
    throw new Error(`expected a JSON object, got ${line.slice(0, 40)}`);
  return json as Cells;
}

function shapeOf(first: string): Shape {
  if (first.startsWith('{')) return { header: false, cellsOf: objectOf };
  const names = fieldsOf(first);
  const missing = ['probe', 'time'].filter((name) => !names.includes(name));
  if (missing.length > 0 || !(names.includes('temperature') || names.includes('humidity')))
    throw new Error(
      'expected a header with probe, time and temperature or humidity in small letters, separated by commas, or a JSON object on each line',
    );
  return {
    header: true,
    cellsOf: (line) => {
      const cells = fieldsOf(line);
      if (cells.length !== names.length)
        throw new Error(`expected ${names.length} fields as in the header, got ${cells.length}`);
      return Object.fromEntries(names.map((name, at) => [name, cells[at] ?? '']));
    },
  };
}

function numberOf(cells: Cells, name: string): number | undefined {
  const cell = cells[name];
  if (cell === undefined || cell === null || cell === '') return undefined;
  const value = typeof cell === 'number' || typeof cell === 'string' ? Number(cell) : Number.NaN;
  if (!Number.isFinite(value)) throw new Error(`${name}: expected a number, got ${JSON.stringify(cell)}`);
  return value;
}

function readingOf(cells: Cells): RecordedReading {
  const { probe, time } = cells;
  if (typeof probe !== 'string' || probe === '')
    throw new Error(`probe: expected an id, got ${JSON.stringify(probe)}`);
  const at = typeof time === 'string' ? parseTime(time) : undefined;
  if (at === undefined)
    throw new Error(
      `time: expected an RFC 3339 time such as 2026-05-04T08:00:00Z, got ${JSON.stringify(time)}`,
    );
  const temperature = numberOf(cells, 'temperature');
  const humidity = numberOf(cells, 'humidity');
  return {
    ...{ probe, at },
    ...(temperature !== undefined && { temperature }),
    ...(humidity !== undefined && { humidity }),
  };
}

/** @throws SandlarderError WRONG_USAGE with the file, the line, what was expected and what was there */
export async function* readRecorded(file: string): AsyncGenerator<RecordedReading> {
  let number = 0;
  let rows = 0;
  let shape: Shape | undefined;
  try {
    for await (const text of createInterface({ input: createReadStream(file, 'utf8') })) {
      number += 1;
      const line = text.replace(/^\uFEFF/, '').trim();
      if (line === '') continue;
      const first = shape === undefined;
      shape ??= shapeOf(line);
      if (first && shape.header) continue;
      rows += 1;
      if (!(rows <= MOST_ROWS)) throw new Error(`expected at most ${MOST_ROWS} readings, got more`);
      yield readingOf(shape.cellsOf(line));
    }
  } catch (error) {
    if (number === 0 && 'code' in (error as Error))
      throw new SandlarderError('WRONG_USAGE', unread(file, error));
    const where = number > 0 ? `${file}, line ${number}` : file;
    throw new SandlarderError('WRONG_USAGE', `${where}: ${(error as Error).message}`);
  }
  if (rows === 0) throw new SandlarderError('WRONG_USAGE', `${file}: expected readings, got none`);
}
