/** `sandlarder import FILE.csv`: readings of a table into the archive. */
import { existsSync } from 'node:fs';
import { basename, join } from 'node:path';
import { ARCHIVE_SCHEMA, openForReading } from '../../archive/index.js';
import { SandlarderError } from '../../core/errors.js';
import { formatTime } from '../../core/model/time.js';
import { importTable } from '../../joining/import-run.js';
import { latestTime, openImportStation } from '../../joining/import-station.js';
import { createRegistry, REGISTRY_SCHEMA } from '../../registry/index.js';
import {
  digestOf,
  type Mapping,
  type OpenTable,
  openTable,
  RefusedFile,
  surveyTable,
} from '../../tables/import/index.js';
import { onOutput, type Say } from '../say.js';
import { importedLines, judgedLater, surveyLines, understoodLines } from './lines.js';
import { type MappingFlags, mappingOf } from './mapping-flags.js';
import { readProgress } from './progress-bar.js';

export interface ImportFlags extends MappingFlags {
  readonly data: string;
  readonly dryRun?: boolean;
  readonly again?: boolean;
  readonly refused?: string;
  readonly json?: boolean;
}

/** @throws SandlarderError WRONG_USAGE; CONFLICT where a service runs on the directory; STORE_UNAVAILABLE */
export async function importFile(file: string, flags: ImportFlags, say: Say = onOutput): Promise<void> {
  const mapping = mappingOf(flags);
  const table = await openTable(file, mapping);
  if (!flags.json) for (const line of understoodLines(table, mapping)) say(line);
  if (flags.dryRun) await dryRun(table, mapping, flags, say);
  else await takeIn(table, mapping, flags, say);
}

async function dryRun(
  table: OpenTable,
  mapping: Mapping,
  { data, json }: ImportFlags,
  say: Say,
): Promise<void> {
  const progress = readProgress(process.stderr, table.bytes, Date.now);
  const survey = await surveyTable(table, mapping, latestTime(Date.now()), (bytes) =>
    progress.show(bytes, 0),
  );
  progress.end();
  const known = knownProbes(data, mapping.site);
  if (!json) for (const line of surveyLines(survey, known && ((probe) => known.has(probe)))) say(line);
  else
    say(
      JSON.stringify({
        ...{ ...survey, columns: table.names, separator: table.separatorName },
        first: survey.first.map((reading) => ({ ...reading, time: formatTime(reading.time) })),
        probes: survey.probes.map((probe) => ({
          ...{ ...probe, from: formatTime(probe.from), to: formatTime(probe.to) },
          ...(known && { isKnown: known.has(probe.probe) }),
        })),
      }),
    );
}

/** Undefined where there is no database yet. */
function knownProbes(directory: string, site: string): ReadonlySet<string> | undefined {
  if (!existsSync(join(directory, 'sandlarder.db'))) return undefined;
  const database = openForReading(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  try {
    const description = createRegistry(database)
      .sites.descriptions()
      .find((one) => one.site.id === site);
    return new Set(description?.probes.map(({ id }) => id));
  } finally {
    database.close();
  }
}

async function takeIn(table: OpenTable, mapping: Mapping, flags: ImportFlags, say: Say): Promise<void> {
  const refused = new RefusedFile(flags.refused ?? `${table.file}.refused.csv`);
  if (refused.name === table.file)
    throw new SandlarderError('WRONG_USAGE', `--refused: expected another file than ${table.file}`);
  const digest = await digestOf(table.file, mapping);
  const { station, takeIn: into, close } = openImportStation(flags.data, Date.now);
  const progress = readProgress(process.stderr, table.bytes, Date.now);
  try {
    const imported = await importTable(
      {
        ...{ station, takeIn: into, table, mapping, digest, name: basename(table.file), refused },
        ...{ now: Date.now, latest: latestTime(Date.now()) },
        onProgress: ({ offset, lines }) => progress.show(offset, lines),
      },
      flags.again,
    );
    progress.end();
    const beds = station.dirty().map(({ known }) => known.bed.id);
    if (flags.json)
      say(JSON.stringify({ ...imported.mark, ...imported, mark: undefined, judgedLater: beds }));
    else
      for (const line of [...importedLines(imported.mark, refused.name, imported), ...judgedLater(beds)])
        say(line);
  } finally {
    progress.end();
    close();
  }
}
