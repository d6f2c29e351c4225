/** A folder that holds another export is not written over in silence. */
import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { SandlarderError } from '../../core/errors.js';
import { textOf } from '../../files.js';
import { FILES, rowsFile } from '../../tables/export/index.js';

/** Longest text by which an export is cited, bytes: a site of thousands of beds. */
const CITATION_bytes = 16 * 1024 * 1024;

const selectionIn = (citation: string): string[] =>
  citation.split('\n').filter((line) => /^(?:Site|Trial|Beds|From|To|Quantities): /.test(line));

/** Where the rows of the other format would be. */
const otherRows = (folder: string, format: 'csv' | 'parquet'): string =>
  join(folder, rowsFile(format === 'csv' ? 'parquet' : 'csv'));

/** Rows that what is written beside them does not describe: another export's, in the other format. */
export const removeOtherRows = (folder: string, format: 'csv' | 'parquet'): void =>
  rmSync(otherRows(folder, format), { force: true });

/**
 * @param citation of what is to be written there
 * @throws SandlarderError CONFLICT where the folder holds an export of another selection, or in the other format
 */
export function requireSame(folder: string, citation: string, format: 'csv' | 'parquet'): void {
  const other = otherRows(folder, format);
  if (existsSync(other))
    throw isThere(folder, `${other}, which what is written beside it would not describe`);
  const file = join(folder, FILES.citation);
  if (!existsSync(file)) return;
  const there = selectionIn(textOf(file, { flag: '--out', most_bytes: CITATION_bytes }));
  const wanted = selectionIn(citation);
  if (there.join('\n') === wanted.join('\n')) return;
  const line = there.find((one) => !wanted.includes(one)) ?? 'fewer lines in its citation.txt';
  throw isThere(folder, `one of "${line}"`);
}

const isThere = (folder: string, what: string): SandlarderError =>
  new SandlarderError(
    'CONFLICT',
    `--out: expected a folder without another export, got ${folder}, which holds ${what}; --again writes over it`,
  );
