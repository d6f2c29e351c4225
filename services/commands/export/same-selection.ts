/** A folder that holds another export is not written over in silence. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { SandlarderError } from '../../core/errors.js';
import { textOf } from '../../files.js';
import { FILES } from '../../tables/export/index.js';

/** Longest text by which an export is cited, bytes: a site of thousands of beds. */
const CITATION_bytes = 16 * 1024 * 1024;

const selectionIn = (citation: string): string[] =>
  citation.split('\n').filter((line) => /^(?:Site|Trial|Beds|From|To|Quantities): /.test(line));

/**
 * @param citation of what is to be written there
 * @throws SandlarderError CONFLICT where the folder holds an export of another selection
 */
export function requireSame(folder: string, citation: string): void {
  const file = join(folder, FILES.citation);
  if (!existsSync(file)) return;
  const there = selectionIn(textOf(file, { flag: '--out', most_bytes: CITATION_bytes }));
  const wanted = selectionIn(citation);
  if (there.join('\n') === wanted.join('\n')) return;
  const other = there.find((line) => !wanted.includes(line)) ?? 'fewer lines in its citation.txt';
  throw new SandlarderError(
    'CONFLICT',
    `--out: expected a folder without another export, got ${folder}, which holds one of "${other}"; --again writes over it`,
  );
}
