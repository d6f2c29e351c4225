/** `sandlarder export`: readings into a folder, from the data directory itself, whether or not a service runs on it. */
import { createHash } from 'node:crypto';
import { closeSync, mkdirSync, openSync, renameSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { ARCHIVE_SCHEMA, createArchive, openForReading } from '../../archive/index.js';
import { SandlarderError } from '../../core/errors.js';
import { QUANTITIES, type Quantity } from '../../core/model/quantity.js';
import { formatTime, parseTime } from '../../core/model/time.js';
import type { ExportFormat, ExportQuery } from '../../http/index.js';
import { Calibrations } from '../../joining/calibrations.js';
import { Directory } from '../../joining/directory.js';
import { ExportDesk } from '../../joining/export-desk.js';
import { VERSION } from '../../program.js';
import { createRegistry, REGISTRY_SCHEMA } from '../../registry/index.js';
import { FILES, rowsFile, type Written } from '../../tables/export/index.js';
import { onOutput, type Say } from '../say.js';

export interface ExportFlags {
  readonly data: string;
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
  readonly json?: boolean;
}

/** @throws SandlarderError WRONG_USAGE; NOT_FOUND; STORE_UNAVAILABLE */
export function exportReadings(flags: ExportFlags, say: Say = onOutput): void {
  const [query, format] = [queryOf(flags), formatOf(flags.format)];
  const { desk, close } = openDesk(flags.data);
  try {
    const rows = desk.rows(query, format);
    prepare(flags.out);
    const written = writeRows(join(flags.out, rowsFile(format)), rows);
    for (const [document, name] of Object.entries(FILES) as [keyof typeof FILES, string][])
      write(join(flags.out, name), desk.document(query, document, format, written));
    const files = [rowsFile(format), ...Object.values(FILES)];
    if (flags.json) say(JSON.stringify({ folder: flags.out, files, ...written }));
    else {
      say(`written to ${flags.out}: ${files.join(', ')}`);
      say(`readings: ${written.bytes} bytes, SHA-256 ${written.digest}`);
      say(
        `when: ${formatTime(Date.now())}; that stands in no file, so that the same selection gives the same bytes`,
      );
    }
  } finally {
    close();
  }
}

function openDesk(data: string): { desk: ExportDesk; close: () => void } {
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
    ...{ program: `Sandlarder ${VERSION}` },
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
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw refuse('--out', `a folder that can be made (${(error as Error).message})`, folder);
  }
}

/** Under another name until it is whole. */
function writeRows(file: string, rows: Iterable<Uint8Array>): Written {
  const part = `${file}.part`;
  const hash = createHash('sha256');
  let bytes = 0;
  return writing(file, () => {
    const open = openSync(part, 'w');
    try {
      for (const piece of rows) {
        for (let done = 0; done < piece.length; ) done += writeSync(open, piece, done);
        hash.update(piece);
        bytes += piece.length;
      }
    } finally {
      closeSync(open);
    }
    renameSync(part, file);
    return { bytes, digest: hash.digest('hex') };
  });
}

const write = (file: string, text: string): void => writing(file, () => writeFileSync(file, text));

function writing<Result>(file: string, work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    const { code } = error as { code?: unknown };
    if (error instanceof SandlarderError || typeof code !== 'string' || code.startsWith('SQLITE'))
      throw error;
    throw new SandlarderError('WRONG_USAGE', `${file}: cannot be written: ${(error as Error).message}`);
  }
}
