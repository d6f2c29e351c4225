/** Everything but readings at rest. */

import type { SandRecord } from '../core/model/sand.js';
import { createAccessStores } from './access/index.js';
import { AlarmStore } from './alarm-store.js';
import { AnswerStore } from './answer-store.js';
import { BedRecordStore } from './bed-record-store.js';
import { BenchStore } from './bench-store.js';
import { CalibrationStore } from './calibration-store.js';
import type { Database } from './database.js';
import { DrillStore } from './drill-store.js';
import { EdgeAlarmStore } from './edge-alarm-store.js';
import { EventStore } from './event-store.js';
import { FieldCheckStore } from './field-check-store.js';
import { FillingStore } from './filling-store.js';
import { InspectionStore } from './inspection-store.js';
import { OutboxStore } from './outbox-store.js';
import { OwnStore } from './own-store.js';
import { PhotoStore } from './photo-store.js';
import { ReadinessStore } from './readiness-store.js';
import { RecordStore } from './record-store.js';
import { SiteStore } from './site-store.js';
import { SiteVersionStore } from './site-versions.js';
import { StockStore } from './stock-store.js';
import { ToldStore } from './told-store.js';
import { TrialStore } from './trial-store.js';
import { WatchStore } from './watch-store.js';

export {
  type AccessStores,
  type Account,
  type AuditEntry,
  auditProblems,
  type Deed,
  type DeviceSecret,
  type LinkPurpose,
  type MachineToken,
  noteIn,
  type Session,
  type SignInLink,
} from './access/index.js';
export type { AlarmRow, ToldPlace } from './alarm-row.js';
export type { Answer } from './answer-store.js';
export type { Drill } from './drill-store.js';
export type { EventMark, StoredEvent, StoredEventKind } from './event-store.js';
export type { LateMessage, NewMessage } from './outbox-store.js';
export type { KeptPhoto, PhotoRow } from './photo-store.js';
export type { DueRecord } from './record-store.js';
export { REGISTRY_SCHEMA } from './schema.js';
export { siteFileOf } from './site-document.js';
export type { Loaded } from './site-store.js';
export type { EntryKind, SiteChange } from './site-versions.js';
export type { KeptStockEntry } from './stock-store.js';
export { type JudgingMark, STATES_FOR_EVER_EVERY_days } from './watch-store.js';

/** All stores of the registry over one database. */
export function createRegistry(database: Database) {
  return {
    access: createAccessStores(database),
    sites: new SiteStore(database),
    siteVersions: new SiteVersionStore(database),
    inspections: new InspectionStore(database),
    alarms: new AlarmStore(database),
    watch: new WatchStore(database),
    outbox: new OutboxStore(database),
    benches: new BenchStore(database),
    calibrations: new CalibrationStore(database),
    drills: new DrillStore(database),
    edgeAlarms: new EdgeAlarmStore(database),
    events: new EventStore(database),
    fieldChecks: new FieldCheckStore(database),
    fillings: new FillingStore(database),
    own: new OwnStore(database),
    photos: new PhotoStore(database),
    records: new RecordStore(database),
    stock: new StockStore(database),
    sandTests: new BedRecordStore<SandRecord>(database, 'sand_test'),
    readiness: new ReadinessStore(database),
    told: new ToldStore(database),
    answers: new AnswerStore(database),
    trials: new TrialStore(database),
  };
}

export type Registry = ReturnType<typeof createRegistry>;
