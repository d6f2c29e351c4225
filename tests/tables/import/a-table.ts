/** Tables of tests: written to a file, read by a mapping. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Mapping, readMapping } from '../../../services/tables/import/mapping.js';
import { openTable } from '../../../services/tables/import/open-table.js';
import { readRecords } from '../../../services/tables/import/records.js';
import { type RowSink, rowReader } from '../../../services/tables/import/row-reader.js';
import { temporaryDirectory } from '../../support/open.js';

export const LATEST = Date.UTC(2027, 0, 1);

/** @returns the name of a file that is gone after the test */
export function tableFile(content: string | Uint8Array, name = 'table.csv'): string {
  const file = join(temporaryDirectory(), name);
  writeFileSync(file, content);
  return file;
}

/** One probe with temperature and humidity; what is given takes the place of that. */
export const mappingWith = (rest: object = {}): Mapping =>
  readMapping('map.json', {
    ...{ version: 1, site: 'test-ridge', probe: 'p01', time: { column: 'time' } },
    values: [
      { column: 'T', quantity: 'temperature', unit: '°C' },
      { column: 'RH', quantity: 'humidity', unit: '%RH' },
    ],
    ...rest,
  });

/** Reads a whole table. */
export async function readTable(content: string | Uint8Array, rest: object = {}) {
  const mapping = mappingWith(rest);
  const file = tableFile(content);
  const table = await openTable(file, mapping);
  const read = rowReader(mapping, table, LATEST);
  const sink: RowSink = { readings: [], refused: [], empty: 0 };
  for await (const { records } of readRecords(file, table, table.rows))
    for (const record of records) read(record, sink);
  return { table, ...sink };
}

/** Each reading in a line. */
export const linesOf = ({ readings }: Pick<RowSink, 'readings'>): string[] =>
  readings.map(
    ({ line, probe, time, values }) =>
      `${line} ${probe} ${new Date(time).toISOString().slice(11, 16)} ${JSON.stringify(values)}`,
  );

/** Each refused line with its reason. */
export const reasonsOf = ({ refused }: Pick<RowSink, 'refused'>): string[] =>
  refused.map(({ line, column, reason }) => `${line} ${column} ${reason}`);
