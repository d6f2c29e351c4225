/**
 * Tables of readings at rest. Times are event times in ms; `reading` and `apart` hold raw values in the units of
 * `STORED_UNIT`. A quantity that was not measured is NULL.
 */
import type { SchemaPart } from './database.js';

export const ARCHIVE_SCHEMA: SchemaPart = {
  name: 'archive',
  steps: [
    `
    CREATE TABLE probe_key (
      key INTEGER PRIMARY KEY, site TEXT NOT NULL, probe TEXT NOT NULL, UNIQUE (site, probe)
    ) STRICT;
    CREATE TABLE reading (
      probe INTEGER NOT NULL, time INTEGER NOT NULL,
      temperature REAL, humidity REAL, battery REAL, charge REAL,
      PRIMARY KEY (probe, time)
    ) STRICT, WITHOUT ROWID;
    -- Readings of probes that no site description knows, until somebody adopts the probe.
    CREATE TABLE apart (
      probe INTEGER NOT NULL, time INTEGER NOT NULL,
      temperature REAL, humidity REAL, battery REAL, charge REAL,
      PRIMARY KEY (probe, time)
    ) STRICT, WITHOUT ROWID;
    -- What the watch expected of a probe in an hour.
    CREATE TABLE judged_hour (
      probe INTEGER NOT NULL, hour INTEGER NOT NULL,
      expected REAL, band REAL, excess REAL,
      PRIMARY KEY (probe, hour)
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE quarantine (
      reason TEXT NOT NULL, topic TEXT NOT NULL, digest BLOB NOT NULL,
      detail TEXT NOT NULL, sample BLOB NOT NULL,
      count INTEGER NOT NULL, first_at INTEGER NOT NULL, last_at INTEGER NOT NULL,
      PRIMARY KEY (reason, topic, digest)
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX quarantine_by_time ON quarantine (last_at);
    CREATE TABLE quarantine_total (reason TEXT PRIMARY KEY, count INTEGER NOT NULL) STRICT, WITHOUT ROWID;
    CREATE TABLE probe_status (
      probe INTEGER PRIMARY KEY, online INTEGER NOT NULL, at INTEGER NOT NULL
    ) STRICT;
    `,
    `
    -- Readings that the watch of a bed does not use, and why. The hour is the one in which the watch found it.
    CREATE TABLE flag (
      probe INTEGER NOT NULL, time INTEGER NOT NULL, quantity TEXT NOT NULL, bed TEXT NOT NULL,
      reason TEXT NOT NULL, hour INTEGER NOT NULL,
      PRIMARY KEY (probe, time, quantity, bed)
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX flag_by_hour ON flag (bed, hour);
    `,
    `
    -- Readings that wait to be forwarded to the long archive, in the order in which they came; noted_at is the wall clock.
    CREATE TABLE spool (
      seq INTEGER PRIMARY KEY, probe INTEGER NOT NULL, time INTEGER NOT NULL, noted_at INTEGER NOT NULL
    ) STRICT;
    CREATE INDEX spool_by_probe ON spool (probe, time);
    CREATE TABLE spooling (id INTEGER PRIMARY KEY CHECK (id = 1), active INTEGER NOT NULL) STRICT;
    `,
    `
    -- Hours of a probe whose readings are kept no more one by one: of each quantity how many values, the least, the mean
    -- and the greatest, raw; NULL where it was not measured. \`times\` says which times are in it (times-code.ts).
    CREATE TABLE reading_hour (
      probe INTEGER NOT NULL, hour INTEGER NOT NULL,
      temperature_count INTEGER, temperature_least REAL, temperature_mean REAL, temperature_greatest REAL,
      humidity_count INTEGER, humidity_least REAL, humidity_mean REAL, humidity_greatest REAL,
      battery_count INTEGER, battery_least REAL, battery_mean REAL, battery_greatest REAL,
      charge_count INTEGER, charge_least REAL, charge_mean REAL, charge_greatest REAL,
      times BLOB NOT NULL,
      PRIMARY KEY (probe, hour)
    ) STRICT, WITHOUT ROWID;
    -- From when on a probe's readings are all here one by one (since), until when they may go (goal), and up to when those
    -- that may go are in their hours (folded_to, before since where readings came late).
    CREATE TABLE full_rate (
      probe INTEGER PRIMARY KEY, since INTEGER NOT NULL, goal INTEGER NOT NULL, folded_to INTEGER NOT NULL
    ) STRICT;
    `,
    `
    -- How far a file that is imported has been taken in.
    CREATE TABLE import_mark (digest TEXT PRIMARY KEY, at INTEGER NOT NULL, mark TEXT NOT NULL) STRICT, WITHOUT ROWID;
    `,
  ],
};
