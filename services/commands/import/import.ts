/** `sandlarder import FILE.csv`: readings of a table into the archive. */
import { existsSync } from 'node:fs';
import { basename, join } from 'node:path';
import { ARCHIVE_SCHEMA, openForReading } from '../../archive/index.js';
import { SandlarderError } from '../../core/errors.js';
import { formatTime } from '../../core/model/time.js';
import { beginDeed, deedOfCommand } from '../../joining/access/by-command.js';
import { type Foreseen, ImportForesight } from '../../joining/import-foresight.js';
import { type Imported, importTable } from '../../joining/import-run.js';
import { latestTime, openImportStation } from '../../joining/import-station.js';
import type { Station } from '../../joining/station.js';
import { REGISTRY_SCHEMA } from '../../registry/index.js';
import {
  digestOf,
  type Mapping,
  type OpenTable,
  openTable,
  RefusedFile,
  type Survey,
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
  const { foresight, close } = openForesight(data, mapping.site);
  try {
    const latest = latestTime(Date.now());
    const shown = (bytes: number, lines: number): void => progress.show(bytes, lines);
    const survey = await surveyTable(table, mapping, latest, shown, foresight?.foresee);
    progress.end();
    const isKnown = foresight && ((probe: string) => foresight.isKnown(probe));
    const foreseen = foresight?.counts ?? null;
    if (json) say(surveyJson(table, survey, isKnown, foreseen));
    else for (const line of surveyLines(survey, isKnown, foreseen)) say(line);
  } finally {
    progress.end();
    close();
  }
}

const surveyJson = (
  table: OpenTable,
  survey: Survey,
  isKnown: ((probe: string) => boolean) | undefined,
  foreseen: Foreseen | null,
): string =>
  JSON.stringify({
    ...{ ...survey, columns: table.names, separator: table.separatorName, foreseen },
    first: survey.first.map((reading) => ({ ...reading, time: formatTime(reading.time) })),
    probes: survey.probes.map((probe) => ({
      ...{ ...probe, from: formatTime(probe.from), to: formatTime(probe.to) },
      ...(isKnown && { isKnown: isKnown(probe.probe) }),
    })),
  });

/** Nothing is foreseen where there is no database yet. */
function openForesight(
  directory: string,
  site: string,
): { readonly foresight?: ImportForesight; readonly close: () => void } {
  if (!existsSync(join(directory, 'sandlarder.db'))) return { close: () => undefined };
  const database = openForReading(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  // One transaction: what it is held against is of one instant, and its own tables are written quickly.
  database.exec('BEGIN');
  return { foresight: new ImportForesight(database, site), close: () => database.close() };
}

async function takeIn(table: OpenTable, mapping: Mapping, flags: ImportFlags, say: Say): Promise<void> {
  const refused = new RefusedFile(flags.refused ?? `${table.file}.refused.csv`);
  if (refused.name === table.file)
    throw new SandlarderError('WRONG_USAGE', `--refused: expected another file than ${table.file}`);
  const digest = await digestOf(table.file, mapping);
  const { station, takeIn: into, close } = openImportStation(flags.data, Date.now);
  const progress = readProgress(process.stderr, table.bytes, Date.now);
  const name = basename(table.file);
  try {
    const imported = await notedImport(station, name, () =>
      importTable(
        {
          ...{ station, takeIn: into, table, mapping, digest, name, refused },
          ...{ now: Date.now, latest: latestTime(Date.now()) },
          onProgress: ({ offset, lines }) => progress.show(offset, lines),
        },
        flags.again,
      ),
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

/** One that was cut off in the middle has no end in the trail; whoever goes on with it begins another entry. */
async function notedImport(
  { registry }: Station,
  name: string,
  work: () => Promise<Imported>,
): Promise<Imported> {
  const deed = beginDeed(registry, Date.now, deedOfCommand('import', name));
  try {
    const imported = await work();
    const { kept, apart, refused } = imported.mark;
    const counts = `${kept} values kept, ${apart} apart, ${refused} lines refused`;
    deed.done(imported.isKnown ? 'nothing, as all of it was in' : counts);
    return imported;
  } catch (error) {
    deed.notDone(error);
    throw error;
  }
}
