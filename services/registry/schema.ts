/**
 * Tables of everything else at rest: who and what there is, what the watch knows, alarms, inspections, and
 * messages on their way. `db` is shared with the archive, so that one transaction covers both.
 */
import { ACCESS_TABLES } from './access/tables.js';
import { BENCH_TABLE } from './bench-store.js';
import { RECORD_TABLES } from './record-tables.js';

export const REGISTRY_SCHEMA = {
  name: 'registry',
  steps: [
    `
    -- Every version of a site, bed, probe or person that was ever loaded. The newest revision of each stands.
    CREATE TABLE entity (
      kind TEXT NOT NULL, site TEXT NOT NULL, id TEXT NOT NULL, revision INTEGER NOT NULL,
      document TEXT NOT NULL,
      PRIMARY KEY (kind, site, id, revision)
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE revision (revision INTEGER PRIMARY KEY, loaded_at INTEGER NOT NULL) STRICT;
    -- What the service must remember of itself.
    CREATE TABLE own (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;
    CREATE TABLE inspection (
      id TEXT PRIMARY KEY, site TEXT NOT NULL, bed TEXT NOT NULL, at INTEGER NOT NULL,
      document TEXT NOT NULL, written_at INTEGER NOT NULL
    ) STRICT;
    CREATE INDEX inspection_by_bed ON inspection (bed, at);
    CREATE TABLE alarm (
      id TEXT PRIMARY KEY, site TEXT NOT NULL, bed TEXT NOT NULL,
      kind TEXT NOT NULL, action TEXT NOT NULL, priority TEXT NOT NULL,
      raised_at INTEGER NOT NULL, cleared_at INTEGER,
      evidence TEXT NOT NULL, place TEXT, text TEXT NOT NULL,
      ack_by TEXT, ack_note TEXT, ack_at INTEGER,
      -- 1 where readings that came later showed that there had been no such condition. Kept, not listed.
      withdrawn INTEGER NOT NULL DEFAULT 0
    ) STRICT;
    CREATE INDEX alarm_by_time ON alarm (raised_at, id);
    CREATE INDEX alarm_by_bed ON alarm (bed, raised_at);
    CREATE TABLE watch_mark (
      bed TEXT PRIMARY KEY, version TEXT NOT NULL, begun_at INTEGER NOT NULL, judged_to INTEGER NOT NULL,
      -- Start of the first hour that must be looked at anew; NULL where there is none.
      dirty_from INTEGER
    ) STRICT;
    CREATE TABLE watch_checkpoint (
      bed TEXT NOT NULL, hour INTEGER NOT NULL, state TEXT NOT NULL, PRIMARY KEY (bed, hour)
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE outbox (
      key TEXT PRIMARY KEY, via TEXT NOT NULL, target TEXT NOT NULL, body TEXT NOT NULL,
      alarm TEXT NOT NULL, event TEXT NOT NULL, created_at INTEGER NOT NULL, next_attempt_at INTEGER NOT NULL,
      attempts INTEGER NOT NULL DEFAULT 0, delivered_at INTEGER, given_up_at INTEGER, error TEXT
    ) STRICT;
    CREATE INDEX outbox_by_alarm ON outbox (alarm, event);
    CREATE INDEX outbox_due ON outbox (next_attempt_at) WHERE delivered_at IS NULL AND given_up_at IS NULL;
    `,
    `
    ALTER TABLE alarm ADD COLUMN subject TEXT NOT NULL DEFAULT '';
    -- Where people were told last to dig, and whether that was after the raising; NULL where they were told no place.
    ALTER TABLE alarm ADD COLUMN told_place TEXT;
    ALTER TABLE alarm ADD COLUMN told_again INTEGER NOT NULL DEFAULT 0;
    UPDATE alarm SET told_place = place;
    -- Alarms that were open by then, as they were known by then. States from before this step do not say it: beds
    -- are judged again from their first hour.
    DELETE FROM watch_checkpoint;
    ALTER TABLE watch_checkpoint ADD COLUMN open TEXT NOT NULL DEFAULT '[]';
    `,
    `
    -- Calibrations of probes: a row is never changed, what supersedes it is a row of its own.
    CREATE TABLE calibration (
      id TEXT PRIMARY KEY, site TEXT NOT NULL, probe TEXT NOT NULL, quantity TEXT NOT NULL,
      from_at INTEGER NOT NULL, document TEXT NOT NULL, written_at INTEGER NOT NULL
    ) STRICT;
    CREATE INDEX calibration_by_probe ON calibration (site, probe, from_at);
${BENCH_TABLE.trim()}
    -- Probes that were held against a travelling reference where they lie.
    CREATE TABLE field_check (
      id TEXT PRIMARY KEY, site TEXT NOT NULL, probe TEXT NOT NULL, at INTEGER NOT NULL,
      document TEXT NOT NULL, written_at INTEGER NOT NULL
    ) STRICT;
    CREATE INDEX field_check_by_probe ON field_check (site, probe, at);
    `,
    `
    ALTER TABLE alarm ADD COLUMN shelved_by TEXT;
    ALTER TABLE alarm ADD COLUMN shelved_at INTEGER;
    ALTER TABLE alarm ADD COLUMN shelved_until INTEGER;
    -- By which people name an open alarm when they answer.
    ALTER TABLE alarm ADD COLUMN number INTEGER;
    -- Wall clock at which its raising, its end and another place of it became known, and whether people know the end anyway.
    ALTER TABLE alarm ADD COLUMN known_at INTEGER;
    ALTER TABLE alarm ADD COLUMN end_known_at INTEGER;
    ALTER TABLE alarm ADD COLUMN end_known INTEGER NOT NULL DEFAULT 0;
    ALTER TABLE alarm ADD COLUMN moved_at INTEGER;
    -- Ids of withdrawn alarms that people take for this one.
    ALTER TABLE alarm ADD COLUMN formerly TEXT NOT NULL DEFAULT '[]';
    -- What was told to whom: a row for each alarm of each message to a person. The outbox knows what became of it.
    CREATE TABLE told (
      message TEXT NOT NULL, site TEXT NOT NULL, alarm TEXT NOT NULL, bed TEXT NOT NULL, person TEXT NOT NULL,
      event TEXT NOT NULL, at INTEGER NOT NULL, via TEXT NOT NULL, target TEXT NOT NULL, step INTEGER NOT NULL,
      form TEXT NOT NULL, pace TEXT NOT NULL, caution INTEGER NOT NULL, closing INTEGER NOT NULL,
      PRIMARY KEY (message, alarm, event)
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX told_by_time ON told (site, at);
    CREATE INDEX told_by_alarm ON told (alarm);
    -- What came back: whoever sent it, and what became of it.
    CREATE TABLE answer (
      id TEXT PRIMARY KEY, via TEXT NOT NULL, sender TEXT NOT NULL, text TEXT NOT NULL, at INTEGER NOT NULL,
      site TEXT, person TEXT, outcome TEXT NOT NULL
    ) STRICT;
    CREATE INDEX answer_by_time ON answer (at);
    -- Links that were used: each works once.
    CREATE TABLE link_used (id TEXT PRIMARY KEY, at INTEGER NOT NULL) STRICT;
    -- Addresses whose owner asked that no more messages come.
    CREATE TABLE stopped (
      via TEXT NOT NULL, target TEXT NOT NULL, at INTEGER NOT NULL, PRIMARY KEY (via, target)
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE drill (
      id TEXT PRIMARY KEY, site TEXT NOT NULL, bed TEXT NOT NULL, at INTEGER NOT NULL, document TEXT NOT NULL
    ) STRICT;
    CREATE INDEX drill_by_time ON drill (at);
    `,
    `
    -- What went into a bed, and where its probes were buried. A row is never changed.
    CREATE TABLE filling (
      id TEXT PRIMARY KEY, site TEXT NOT NULL, bed TEXT NOT NULL, at INTEGER NOT NULL,
      document TEXT NOT NULL, written_at INTEGER NOT NULL
    ) STRICT;
    CREATE INDEX filling_by_bed ON filling (bed, at);
    -- The ledger of each bed: roots in, out, and entries that take one back. A row is never changed.
    CREATE TABLE stock_entry (
      id TEXT PRIMARY KEY, site TEXT NOT NULL, bed TEXT NOT NULL, at INTEGER NOT NULL,
      document TEXT NOT NULL,
      -- Id of the filling or inspection that it follows from; NULL where it was written down by itself.
      origin TEXT,
      written_at INTEGER NOT NULL
    ) STRICT;
    CREATE INDEX stock_entry_by_bed ON stock_entry (bed, at);
    -- Pictures that were taken at an inspection.
    CREATE TABLE photo (
      inspection TEXT NOT NULL REFERENCES inspection (id), name TEXT NOT NULL, media_type TEXT NOT NULL,
      size INTEGER NOT NULL, bytes BLOB NOT NULL, written_at INTEGER NOT NULL,
      PRIMARY KEY (inspection, name)
    ) STRICT;
    `,
    `
    -- A bed before it is filled: what was measured of its sand, who found it ready, who had it filled all the same.
    CREATE TABLE sand_test (
      id TEXT PRIMARY KEY, site TEXT NOT NULL, bed TEXT NOT NULL, at INTEGER NOT NULL,
      document TEXT NOT NULL, written_at INTEGER NOT NULL
    ) STRICT;
    CREATE INDEX sand_test_by_bed ON sand_test (bed, at);
    CREATE TABLE readiness (
      id TEXT PRIMARY KEY, site TEXT NOT NULL, bed TEXT NOT NULL, at INTEGER NOT NULL,
      document TEXT NOT NULL, written_at INTEGER NOT NULL
    ) STRICT;
    CREATE INDEX readiness_by_bed ON readiness (bed, at);
    CREATE TABLE readiness_override (
      readiness TEXT NOT NULL, at INTEGER NOT NULL, document TEXT NOT NULL, written_at INTEGER NOT NULL
    ) STRICT;
    CREATE INDEX readiness_override_by_record ON readiness_override (readiness, at);
    `,
    `
    -- When the network said that the receiver has a message; NULL where it did not say so.
    ALTER TABLE outbox ADD COLUMN received_at INTEGER;
    `,
    `
    -- Who changed a site description; NULL where a file was loaded by the command.
    ALTER TABLE revision ADD COLUMN changed_by TEXT;
    `,
    `
    -- Trials: a row for each version, never changed; the newest of a trial stands.
    CREATE TABLE trial (
      version INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, trial TEXT NOT NULL,
      document TEXT NOT NULL, written_at INTEGER NOT NULL
    ) STRICT;
    CREATE INDEX trial_by_name ON trial (trial, version);
    `,
    ACCESS_TABLES,
    `
    -- How far a run of the watch has got that is judged in pieces; NULL where none is under way.
    ALTER TABLE watch_mark ADD COLUMN run TEXT;
    `,
    `
    -- How the bed stands after its last hour judged; NULL where it was judged before this step.
    ALTER TABLE watch_mark ADD COLUMN standing TEXT;
    `,
    RECORD_TABLES,
  ],
} as const;
