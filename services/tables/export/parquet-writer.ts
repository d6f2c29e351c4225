/**
 * An export as Parquet, a row group at a time. The file holds no time of its making and no chance: the same rows give
 * the same bytes.
 */
import { ByteWriter, type ColumnSource, ParquetWriter } from 'hyparquet-writer';
import type { ExportChunk, ExportChunks } from './chunk.js';
import { COLUMNS, type Column } from './columns.js';

/** Rows of a group: they are in memory together, and are written in about a tenth of a second. */
export const ROWS_TOGETHER = 10_000;

type Schema = ConstructorParameters<typeof ParquetWriter>[0]['schema'];
type Element = Schema[number];
type Cell = string | number | Date | null;

const TYPES: Readonly<Record<Column['type'], Pick<Element, 'type' | 'converted_type'>>> = {
  datetime: { type: 'INT64', converted_type: 'TIMESTAMP_MILLIS' },
  string: { type: 'BYTE_ARRAY', converted_type: 'UTF8' },
  number: { type: 'DOUBLE' },
  integer: { type: 'INT32' },
};

const SCHEMA: Schema = [
  { name: 'readings', num_children: COLUMNS.length },
  ...COLUMNS.map(
    ({ name, type, isRequired }): Element => ({
      ...{ name, ...TYPES[type], repetition_type: isRequired ? 'REQUIRED' : 'OPTIONAL' },
    }),
  ),
];

/** Keeps what the library writes until it is taken. */
class Pieces extends ByteWriter {
  take(): Buffer {
    const bytes = Buffer.from(this.buffer.slice(0, this.index));
    this.index = 0;
    return bytes;
  }
}

/** @param createdBy program and version */
export async function* parquetOf(chunks: ExportChunks, createdBy: string): AsyncGenerator<Buffer> {
  const pieces = new Pieces();
  const writer = new ParquetWriter({ writer: pieces, schema: SCHEMA, createdBy });
  let columns = emptyColumns();
  const write = (): Buffer => {
    const columnData = COLUMNS.map(({ name }, at): ColumnSource => ({ name, data: columns[at] as Cell[] }));
    writer.write({ columnData, rowGroupSize: ROWS_TOGETHER });
    columns = emptyColumns();
    return pieces.take();
  };
  for await (const chunk of chunks)
    for (let at = 0; at < chunk.time.length; at += 1) {
      addRows(columns, chunk, at);
      if ((columns[0] as Cell[]).length >= ROWS_TOGETHER) yield write();
    }
  if ((columns[0] as Cell[]).length > 0) yield write();
  writer.finish();
  yield pieces.take();
}

const emptyColumns = (): Cell[][] => COLUMNS.map(() => []);

function addRows(columns: readonly Cell[][], chunk: ExportChunk, at: number): void {
  const { place, treatment, of, time, quantities } = chunk;
  const { site, bed, probe, position } = place;
  const instant = new Date(time[at] as number);
  for (const { quantity, unit, raw, corrected, uncertainty, flags, judged, spread } of quantities) {
    const value = raw[at];
    if (value == null) continue;
    const hour = judged?.[at];
    const cells: Cell[] = [
      ...[instant, site, bed, treatment, probe, position?.x ?? null, position?.y ?? null],
      ...[position?.depth ?? null, quantity, unit, of, value, corrected?.[at] ?? value],
      ...[uncertainty?.[at] ?? null, flags?.[at] ?? null],
      ...[hour?.expected ?? null, hour?.band ?? null, hour?.excess ?? null],
      ...[spread?.count[at] ?? null, spread?.least[at] ?? null, spread?.greatest[at] ?? null],
    ];
    for (let column = 0; column < cells.length; column += 1)
      (columns[column] as Cell[]).push(cells[column] as Cell);
  }
}
