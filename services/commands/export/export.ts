/** `sandlarder export`: readings into a folder, from the data directory itself, whether or not a service runs on it. */
import { createHash } from 'node:crypto';
import { closeSync, openSync, readFileSync, renameSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { ARCHIVE_SCHEMA, createArchive, makeFolder, openForReading } from '../../archive/index.js';
import { InfluxReader } from '../../archive/influx/index.js';
import { SandlarderError } from '../../core/errors.js';
import { QUANTITIES, type Quantity } from '../../core/model/quantity.js';
import { formatTime, parseTime } from '../../core/model/time.js';
import { writeFile, written as writing } from '../../files.js';
import type { ExportFormat, ExportQuery } from '../../http/index.js';
import { Calibrations } from '../../joining/calibrations.js';
import { Directory } from '../../joining/directory.js';
import { ExportDesk } from '../../joining/export-desk.js';
import type { OlderPages } from '../../joining/export-older.js';
import { VERSION } from '../../program.js';
import { createRegistry, REGISTRY_SCHEMA } from '../../registry/index.js';
import { FILES, rowsFile, type Written } from '../../tables/export/index.js';
import { withInflux } from '../archive/setup.js';
import { onOutput, type Say } from '../say.js';
import { removeOtherRows, requireSame } from './same-selection.js';

export interface ExportFlags {
  readonly data: string;
  readonly influx?: string;
  readonly out: string;
  readonly bed?: string;
  readonly beds?: string;
  readonly site?: string;
  readonly trial?: string;
  readonly from?: string;
  readonly to?: string;
  readonly format: string;
  readonly shade?: boolean;
  readonly quantities?: string;
  readonly again?: boolean;
  readonly json?: boolean;
}

/** @throws SandlarderError WRONG_USAGE; NOT_FOUND; STORE_UNAVAILABLE */
export async function exportReadings(flags: ExportFlags, say: Say = onOutput): Promise<void> {
  const [query, format] = [queryOf(flags), formatOf(flags.format)];
  const { influx } = flags;
  if (influx === undefined) return await exportWith(undefined, query, format, flags, say);
  await withInflux('--influx', influx, (connection) =>
    exportWith(new InfluxReader(connection), query, format, flags, say),
  );
}

async function exportWith(
  older: OlderPages | undefined,
  query: ExportQuery,
  format: ExportFormat,
  flags: ExportFlags,
  say: Say,
): Promise<void> {
  const { desk, close } = openDesk(flags.data, older);
  try {
    const rows = await desk.rows(query, format);
    if (flags.again !== true) requireSame(flags.out, desk.document(query, 'citation', format), format);
    prepare(flags.out);
    const written = await writeRows(join(flags.out, rowsFile(format)), rows);
    for (const [document, name] of Object.entries(FILES) as [keyof typeof FILES, string][])
      writeFile(join(flags.out, name), desk.document(query, document, format, written), { flag: '--out' });
    removeOtherRows(flags.out, format);
    const files = [rowsFile(format), ...Object.values(FILES)];
    const byHours = !older && desk.isOlder(query);
    if (flags.json) say(JSON.stringify({ folder: flags.out, files, ...written, byHours }));
    else {
      const isEmpty = format === 'csv' && isHeadingAlone(join(flags.out, rowsFile(format)), written);
      const notes = [...(isEmpty ? [NO_READINGS] : []), ...(byHours ? [BY_HOURS] : [])];
      for (const line of [...writtenLines(flags.out, files, written), ...notes]) say(line);
    }
  } finally {
    close();
  }
}

const writtenLines = (folder: string, files: readonly string[], { bytes, digest }: Written): string[] => [
  `written to ${folder}: ${files.join(', ')}`,
  `readings: ${bytes} bytes, SHA-256 ${digest}`,
  `when: ${formatTime(Date.now())}; that stands in no file, so that the same selection gives the same bytes`,
];

/** No heading is longer, bytes. */
const LONGEST_HEADING = 4096;

const isHeadingAlone = (file: string, { bytes }: Written): boolean =>
  bytes <= LONGEST_HEADING && readFileSync(file).indexOf('\n') === bytes - 1;

const NO_READINGS =
  'no readings: nothing was measured there in that time, and the file has its heading alone';

const BY_HOURS =
  'older readings stand by hours (column "of"): --influx URL reads them one by one where a long archive has them';

function openDesk(data: string, older: OlderPages | undefined): { desk: ExportDesk; close: () => void } {
  const database = openForReading(data, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  // One transaction: all of it is as it was at one instant, whatever a service writes meanwhile.
  database.exec('BEGIN');
  const archive = createArchive(database);
  const registry = createRegistry(database);
  // A probe that never sent anything has no key, and no readings.
  const directory = new Directory(
    registry.sites.descriptions(),
    (site, probe) => archive.keys.find(site, probe) ?? -1,
  );
  const desk = new ExportDesk({
    ...{ archive, registry, calibrations: new Calibrations(registry), directory: () => directory },
    ...{ older, program: `Sandlarder ${VERSION}` },
  });
  return { desk, close: () => database.close() };
}

const refuse = (flag: string, expected: string, got: unknown): SandlarderError =>
  new SandlarderError('WRONG_USAGE', `${flag}: expected ${expected}, got ${JSON.stringify(got)}`);

function queryOf({ bed, beds, site, trial, from, to, shade, quantities }: ExportFlags): ExportQuery {
  const chosen = Object.entries({ bed, beds, site, trial }).filter(([, value]) => value !== undefined);
  if (chosen.length !== 1)
    throw new SandlarderError(
      'WRONG_USAGE',
      `expected one of --bed, --beds, --site and --trial, got ${chosen.length === 0 ? 'none' : chosen.map(([name]) => `--${name}`).join(' and ')}`,
    );
  const ids = bed === undefined ? beds?.split(',').map((id) => id.trim()) : [bed];
  return {
    ...{ beds: ids, site, trial, from: timeOf('--from', from), to: timeOf('--to', to), shade },
    quantities: quantities === undefined ? ['temperature', 'humidity'] : quantitiesOf(quantities),
  };
}

function timeOf(flag: string, text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const time = parseTime(text);
  if (time === undefined) throw refuse(flag, 'an RFC 3339 time such as 2026-05-04T08:00:00Z', text);
  return time;
}

function quantitiesOf(text: string): Quantity[] {
  const names = text.split(',').map((name) => name.trim());
  const unknown = names.find((name) => !(QUANTITIES as readonly string[]).includes(name));
  if (unknown !== undefined) throw refuse('--quantities', `some of ${QUANTITIES.join(', ')}`, unknown);
  return names as Quantity[];
}

function formatOf(text: string): ExportFormat {
  if (text === 'csv' || text === 'parquet') return text;
  throw refuse('--format', 'csv or parquet', text);
}

function prepare(folder: string): void {
  try {
    makeFolder(folder);
  } catch (error) {
    throw new SandlarderError('WRONG_USAGE', `--out: ${(error as Error).message}`, { cause: error });
  }
}

/** Under another name until it is whole; what is not whole does not stay. */
async function writeRows(file: string, rows: AsyncIterable<Uint8Array>): Promise<Written> {
  const part = `${file}.part`;
  const hash = createHash('sha256');
  let bytes = 0;
  const open = writing(file, { flag: '--out' }, () => openSync(part, 'w'));
  try {
    for await (const piece of rows) {
      writing(file, { flag: '--out' }, () => {
        for (let done = 0; done < piece.length; ) done += writeSync(open, piece, done);
      });
      hash.update(piece);
      bytes += piece.length;
    }
  } catch (error) {
    rmSync(part, { force: true });
    throw error;
  } finally {
    closeSync(open);
  }
  writing(file, { flag: '--out' }, () => renameSync(part, file));
  return { bytes, digest: hash.digest('hex') };
}
