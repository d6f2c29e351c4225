/**
 * Three years of thirty beds at rest: of the last 400 days and some every reading, of the time before hours. One bed's
 * season is judged; the others have its states, since how long a start takes does not hang on what was measured.
 */
import { ARCHIVE_SCHEMA, createArchive, type Database, openDatabase } from '../../services/archive/index.js';
import { encodeTimes } from '../../services/archive/times-code.js';
import { checkSiteFile } from '../../services/core/model/site-file.js';
import { DAY_ms, formatTime, HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { sandWatch } from '../../services/core/watch/sand-watch.js';
import { AlarmKeeper } from '../../services/joining/alarm-keeper.js';
import { Station } from '../../services/joining/station.js';
import {
  createRegistry,
  REGISTRY_SCHEMA,
  STATES_FOR_EVER_EVERY_days,
} from '../../services/registry/index.js';

export const LONG = { beds: 30, probesPerBed: 5, days: 3 * 365, everyMinutes: 10 } as const;

const KEPT_days = 400;
const SEASON_days = 120;
const EVERY_ms = LONG.everyMinutes * MINUTE_ms;
const FOLDED_STEP_ms = STATES_FOR_EVER_EVERY_days * DAY_ms;
/** Alarms of a bed over the years. */
const ALARMS = 60;

export const SITE = 'bench-ridge';
const bedId = (bed: number): string => `pit-${String(bed).padStart(2, '0')}`;
export const probeId = (probe: number): string => `p${String(probe).padStart(3, '0')}`;

/** Of the station that ends at a time, ms; the probe numbered 0 stands in the shade. */
export function longSite(endsAt: number): unknown {
  const from = formatTime(endsAt - LONG.days * DAY_ms);
  const filled = formatTime(endsAt - SEASON_days * DAY_ms);
  return {
    version: 1,
    site: { id: SITE, name: 'Bench ridge', timezone: 'Africa/Lusaka' },
    // No two alike: each has a block of sand of its own.
    beds: Array.from({ length: LONG.beds }, (_, bed) => ({
      ...{ id: bedId(bed), name: `Pit ${bed}`, kind: 'stepped-pit', filled },
      steps: [
        { length: 150 + bed, width: 100, height: 25 },
        { length: 150 + bed, width: 60, height: 25 },
      ],
    })),
    probes: [
      { id: probeId(0), placements: [{ ambient: true, from }] },
      ...Array.from({ length: LONG.beds * LONG.probesPerBed }, (_, index) => {
        const at = index % LONG.probesPerBed;
        const bed = bedId(Math.floor(index / LONG.probesPerBed));
        return {
          id: probeId(index + 1),
          placements: [{ bed, x: 20 + 25 * at, y: 35 + 6 * at, depth: 15 + 7 * at, from }],
        };
      }),
    ],
  };
}

/** @returns how many readings it stands for. @param endsAt time of the newest reading but one, a whole hour, ms */
export function writeLongStation(directory: string, endsAt: number): number {
  const database = openDatabase(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  const archive = createArchive(database);
  const registry = createRegistry(database);
  registry.sites.load(checkSiteFile('bench', longSite(endsAt)), endsAt - LONG.days * DAY_ms);
  const alarms = new AlarmKeeper(registry, {
    ...{ webhooks: [], now: () => endsAt, onChange: () => undefined, onRaised: () => undefined },
    onUnusable: () => undefined,
  });
  const station = new Station({ database, archive, registry, watch: sandWatch, alarms });
  database.transaction(() => station.refresh())();
  const probes = [...station.directory.probes];
  database.transaction(() => writeReadings(database, probes, endsAt))();
  database.transaction(() => judgeOne(station, endsAt))();
  database.transaction(() => likeTheFirst(database, station, endsAt))();
  database.pragma('wal_checkpoint(TRUNCATE)');
  database.close();
  return (probes.length * (LONG.days * DAY_ms)) / EVERY_ms;
}

/** A sound bed's probe, or the shade, at `t` ms: SQL. */
const TEMPERATURE = `round(20 + sin(t / 2.6e9) + CASE WHEN probe = :shade THEN 5 ELSE 0.3 END * sin(t / ${DAY_ms}.0 * 6.2832 - probe % 5) + 0.05 * sin(t * 7.0 + probe), 2)`;
const HUMIDITY = 'round(86 + sin(t / 4e8 + probe), 1)';

function writeReadings(
  database: Database,
  probes: readonly { key: number; probe: { id: string } }[],
  endsAt: number,
): void {
  const startsAt = endsAt - LONG.days * DAY_ms;
  const keptFrom = Math.floor((endsAt - KEPT_days * DAY_ms) / FOLDED_STEP_ms) * FOLDED_STEP_ms;
  const shade = probes.find(({ probe }) => probe.id === probeId(0))?.key;
  const times = encodeTimes(Array.from({ length: HOUR_ms / EVERY_ms }, (_, at) => [at * EVERY_ms, 3]));
  const series = `WITH RECURSIVE at (t) AS (SELECT CAST(:from AS INTEGER) UNION ALL SELECT t + CAST(:step AS INTEGER) FROM at WHERE t + :step < :to)`;
  const readings = database.prepare(
    `INSERT INTO reading SELECT probe, t, ${TEMPERATURE}, ${HUMIDITY}, 3.05, NULL FROM (${series} SELECT CAST(:probe AS INTEGER) AS probe, t FROM at)`,
  );
  const hours = database.prepare(
    `INSERT INTO reading_hour SELECT probe, t, 6, v - 0.1, v, v + 0.1, 6, h - 0.2, h, h + 0.2,
     NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, :times
     FROM (SELECT probe, t, ${TEMPERATURE} AS v, ${HUMIDITY} AS h FROM (${series} SELECT CAST(:probe AS INTEGER) AS probe, t FROM at))`,
  );
  const folded = database.prepare('INSERT INTO full_rate VALUES (?, ?, ?, ?)');
  for (const { key } of probes) {
    hours.run({ probe: key, shade, from: startsAt, to: keptFrom, step: HOUR_ms, times });
    readings.run({ probe: key, shade, from: keptFrom, to: endsAt + 2 * EVERY_ms, step: EVERY_ms });
    folded.run(key, keptFrom, keptFrom, keptFrom);
  }
}

const versionOf = (station: Station, bed: string): string =>
  `${sandWatch.version}/${station.directory.beds.get(bed)?.digest}`;

/** The last season of the first bed, and what the watch of the seasons before would have left behind. */
function judgeOne(station: Station, endsAt: number): void {
  const { registry } = station;
  const begunAt = endsAt - LONG.days * DAY_ms;
  const from = Math.floor((endsAt - (SEASON_days + 10) * DAY_ms) / DAY_ms) * DAY_ms;
  const known = station.directory.beds.get(bedId(0));
  if (!known) throw new Error('expected the first bed, got none');
  const state = sandWatch.open(known.watched).checkpoint();
  registry.watch.keepCheckpoint(bedId(0), { hour: from, state, open: [] });
  const version = versionOf(station, bedId(0));
  registry.watch.setMark(bedId(0), { version, begunAt, judgedTo: from, dirtyFrom: from });
  const watcher = station.watchers.get(bedId(0));
  watcher?.forget();
  watcher?.advance();
}

/** Marks and states as the first bed has them, judged hours of all the years, and alarms that are over. */
function likeTheFirst(database: Database, station: Station, endsAt: number): void {
  const mark = station.registry.watch.mark(bedId(0));
  if (mark?.judgedTo !== endsAt || mark.standing?.learning !== false)
    throw new Error(`expected a bed that is judged to the end, got ${JSON.stringify(mark)}`);
  const states = database.prepare(
    `INSERT INTO watch_checkpoint SELECT :bed, hour, replace(state, '"bed":"${bedId(0)}"', '"bed":"' || :bed || '"'), '[]'
     FROM watch_checkpoint WHERE bed = '${bedId(0)}'`,
  );
  const judged = database.prepare(
    `INSERT OR IGNORE INTO judged_hour WITH RECURSIVE at (t) AS (SELECT CAST(:from AS INTEGER) UNION ALL SELECT t + ${HOUR_ms} FROM at WHERE t + ${HOUR_ms} < :to)
     SELECT CAST(:probe AS INTEGER), t, 20 + sin(t / 2.6e9), 0.4, 0.1 * sin(t / 1e8) FROM at`,
  );
  const alarm = database.prepare(
    `INSERT INTO alarm (id, site, bed, kind, action, priority, raised_at, cleared_at, evidence, place, text, end_known)
     VALUES (?, '${SITE}', ?, 'inspection-due', 'check', 'low', ?, ?, '{}', NULL, '', 1)`,
  );
  const begunAt = endsAt - LONG.days * DAY_ms;
  for (let bed = 0; bed < LONG.beds; bed += 1) {
    const id = bedId(bed);
    if (bed > 0) states.run({ bed: id });
    station.registry.watch.setMark(id, { ...mark, version: versionOf(station, id) });
    for (const { key } of station.directory.beds.get(id)?.probes ?? [])
      judged.run({ probe: key, from: begunAt, to: endsAt });
    for (let at = 0; at < ALARMS; at += 1) {
      const raisedAt = begunAt + ((endsAt - begunAt) * at) / ALARMS;
      alarm.run(`past-${id}-${at}`, id, Math.round(raisedAt), Math.round(raisedAt + DAY_ms));
    }
  }
}
