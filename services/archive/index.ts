/** Readings at rest. */
import { ApartStore } from './apart-store.js';
import type { Database } from './database.js';
import { ExportReader } from './export-reader.js';
import { FlagStore } from './flag-store.js';
import { Folding } from './folding.js';
import { FullRate } from './full-rate.js';
import { HourStore } from './hour-store.js';
import { ImportStore } from './import-store.js';
import { SpoolStore } from './influx/spool-store.js';
import { JudgedSeries } from './judged-series.js';
import { JudgedStore } from './judged-store.js';
import { ProbeKeys } from './probe-keys.js';
import { QuarantineStore } from './quarantine-store.js';
import { ReadingMeans } from './reading-means.js';
import { ReadingStore } from './reading-store.js';
import { SeriesReader } from './series.js';
import { StatusStore } from './status-store.js';

export { MOST_PROBES_APART, MOST_ROWS_APART } from './apart-store.js';
export { backUp } from './backup.js';
export { type Database, GROUP_FILE, openDatabase } from './database.js';
export type { ExportReading, HourRow, ReadingRow } from './export-reader.js';
export { Foresight } from './foresight.js';
export type { ImportMark } from './import-store.js';
export type { JudgedHour } from './judged-store.js';
export { noteBackup } from './last-backup.js';
export { lockDirectory } from './lock.js';
export { isOpenToOthers, makeFolder, makePrivateFolder } from './make-folder.js';
export { endedUncleanly, lookAtPages } from './page-look.js';
export { openForReading } from './read-only.js';
export type { Put, Values } from './reading-store.js';
export { type Restored, restore } from './restore.js';
export { ARCHIVE_SCHEMA } from './schema.js';
export type { Series } from './series.js';
export type { SeriesRow, Unused } from './series-parts.js';
export { damageOf, lookOver, type Soundness } from './soundness.js';
export { damagedWords, freeBytes, isStoreError, troubleOf } from './store-trouble.js';

/** All stores of readings over one database. */
export function createArchive(database: Database) {
  const spool = new SpoolStore(database);
  const [fullRate, hours] = [new FullRate(database), new HourStore(database)];
  const forwardedUpTo = (probe: number): number => spool.forwardedUpTo(probe);
  return {
    spool,
    keys: new ProbeKeys(database),
    readings: new ReadingStore(database, 'reading', spool, { fullRate, hours }),
    apartReadings: new ReadingStore(database, 'apart'),
    apart: new ApartStore(database),
    quarantine: new QuarantineStore(database),
    judged: new JudgedStore(database),
    judgedSeries: new JudgedSeries(database),
    flags: new FlagStore(database),
    ...{ fullRate, hours, means: new ReadingMeans(database) },
    folding: new Folding(database, { fullRate, hours, forwardedUpTo }),
    series: new SeriesReader(database, { fullRate, hours }),
    status: new StatusStore(database),
    imports: new ImportStore(database),
    exporting: new ExportReader(database),
  };
}

export type Archive = ReturnType<typeof createArchive>;
