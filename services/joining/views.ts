/**
 * What the HTTP edge is asked for, read from what is at rest.
 */
import { alarmSaid, placeSaid } from '../core/alarms/languages/index.js';
import { mostUrgent } from '../core/alarms/urgency.js';
import { SandlarderError } from '../core/errors.js';
import type { RotStanding } from '../core/keeping/index.js';
import type { Alarm } from '../core/model/alarm.js';
import { formatTime, HOUR_ms } from '../core/model/time.js';
import type {
  AlarmQuery,
  BedView,
  CoverageQuery,
  CoverageView,
  HttpPorts,
  OlderReadings,
  SeriesPorts,
  SeriesQuery,
} from '../http/index.js';
import type { AlarmRow } from '../registry/index.js';
import { alarmStory } from './alarm-story.js';
import { probesGone, probesThere } from './bed-probes.js';
import { capView } from './cap-view.js';
import type { CoverageDesk } from './coverage-desk.js';
import { coverageTask, coverageView } from './coverage-view.js';
import type { KnownBed } from './directory.js';
import { eventPage } from './event-views.js';
import { knownBed } from './known-bed.js';
import { labelled } from './labelled.js';
import { createLedgerViews } from './ledger-views.js';
import { type OlderReader, readOlder } from './older-series.js';
import { RecordDesk } from './record-desk.js';
import { rotOf } from './rot-left.js';
import { readSeries, readShadeSeries, type SeriesParts } from './series-view.js';
import type { Station } from './station.js';
import { StockDesk } from './stock-desk.js';
import { swingView } from './swing-view.js';

export type Views = Pick<
  HttpPorts,
  | 'beds'
  | 'bed'
  | keyof SeriesPorts
  | 'coverage'
  | 'alarms'
  | 'alarm'
  | 'alarmSaid'
  | 'placeSaid'
  | 'acknowledge'
  | 'shelve'
  | 'cap'
  | 'inspect'
  | 'ledger'
  | 'unknownProbes'
  | 'quarantine'
>;

/**
 * @param now wall clock, ms
 * @param reader of the long archive, where there is one
 */
export function createViews(
  station: Station,
  desk: CoverageDesk,
  now: () => number,
  reader?: OlderReader,
): Views {
  const records = new RecordDesk(station, now);
  const stock = new StockDesk(station, now);
  return {
    older: async (id, query) => readOlder(reader, seriesParts(station, id, query)),
    series: (id, query, older) => readSeries(seriesParts(station, id, query, older)),
    shadeSeries: (id, query, older) => readShadeSeries(seriesParts(station, id, query, older)),
    swing: async (id, span) => swingView(station, knownBed(station, id), span),
    events: (id, query) => eventPage(station, knownBed(station, id), query),
    beds: () => [...station.directory.beds.values()].map((known) => bedView(station, stock, known, now())),
    bed: (id) => bedView(station, stock, knownBed(station, id), now()),
    coverage: (id, query) => coverage(station, desk, id, query, now()),
    alarms: (query) => alarmPage(station, query, now()),
    alarm: (id) => alarmStory(station, id, now()),
    alarmSaid: (alarm, language) => alarmSaid(alarm, knownBed(station, alarm.bed).bed, language),
    placeSaid: (alarm, language) => placeSaid(alarm, knownBed(station, alarm.bed).bed, language),
    acknowledge: (id, body) => acknowledge(station, id, body, now()),
    cap: (id) => capView(station, id, now()),
    shelve: (id, body) => shelve(station, id, body, now()),
    inspect: (id, body) => records.inspect(id, body),
    ledger: createLedgerViews(station, records, now),
    unknownProbes: () => unknownProbes(station),
    quarantine: (limit) =>
      station.archive.quarantine
        .list(limit)
        .map(({ sample, ...rest }) => ({ ...rest, payload: sample.toString('base64') })),
  };
}

const seriesParts = (
  station: Station,
  id: string,
  query: SeriesQuery,
  older?: OlderReadings,
): SeriesParts => ({
  ...{ archive: station.archive, calibrations: station.calibrations, known: knownBed(station, id) },
  ...{ query, older },
});

function bedView(station: Station, stock: StockDesk, known: KnownBed, now: number): BedView {
  const watcher = station.watchers.get(known.bed.id);
  const standing = watcher?.standing() ?? { basis: '', learning: true };
  const openAlarms = station.registry.alarms.open(known.bed.id).map((row) => labelled(station, row, now));
  const left = stock.left(known.bed.id);
  const rot = rotOf(station, known, left);
  const urgent = mostUrgent(openAlarms.filter(({ state }) => state !== 'shelved'));
  const filled = standing.learning ? 'learning' : 'sound';
  const calm = known.bed.filled === undefined ? 'unfilled' : filled;
  const asked = urgent && urgent.action !== 'none' ? urgent.action : calm;
  const stands = rot.left ? 'unpack' : asked;
  const come = comeBy(station, known, now);
  return {
    site: known.site.id,
    timezone: known.site.timezone,
    bed: known.bed,
    probes: probesThere(station, known, now),
    formerProbes: probesGone(known, now),
    shade: known.shade.map(({ probe }) => probe.id),
    stands,
    standsSince: come(standsSince(station, known, { stands, rot, openAlarms })),
    rotLeft: rot.left,
    rootsLeft: left,
    basis: standing.basis,
    judgedTo: come(watcher?.judgedTo ?? null),
    openAlarms,
    latestInspection: station.registry.inspections.latest(known.bed.id),
  };
}

/** A look closes its hour before that is over: its own time then stands for the end of the hour. */
function comeBy({ registry }: Station, { bed }: KnownBed, now: number) {
  const lookedAt = Math.min(registry.inspections.newestAt(bed.id) ?? now, now);
  return (time: number | null): number | null => (time === null || time <= now ? time : lookedAt);
}

/** A bed that is filled anew begins anew. */
function standsSince(
  { registry }: Station,
  { bed }: KnownBed,
  { stands, rot, openAlarms }: Pick<BedView, 'stands' | 'openAlarms'> & { readonly rot: RotStanding },
): number | null {
  const asking = openAlarms.filter(({ action, state }) => action === stands && state !== 'shelved');
  const asked = [...asking.map(({ raisedAt }) => raisedAt), ...(rot.left ? [rot.left.since] : [])];
  if (asked.length > 0) return Math.min(...asked);
  const calmed = [bed.filled, registry.alarms.lastOver(bed.id), rot.overAt ?? undefined];
  const times = calmed.filter((time) => time !== undefined);
  return times.length === 0 ? null : Math.max(...times);
}

async function coverage(
  station: Station,
  desk: CoverageDesk,
  id: string,
  query: CoverageQuery,
  now: number,
): Promise<CoverageView> {
  const known = knownBed(station, id);
  const task = coverageTask(known, query, now);
  return coverageView(known, task, await desk.answer(task));
}

function alarmPage(station: Station, query: AlarmQuery, now: number): { alarms: Alarm[]; more: boolean } {
  if (query.bed !== undefined) knownBed(station, query.bed);
  if (query.after !== undefined && !station.registry.alarms.get(query.after))
    throw new SandlarderError('NOT_FOUND', `after: no alarm has the id "${query.after}"`);
  const { rows, more } = station.registry.alarms.list({ ...query, now });
  return { alarms: rows.map((row) => labelled(station, row, now)), more };
}

/** @throws SandlarderError NOT_FOUND also for one that was withdrawn */
function standingAlarm({ registry }: Station, id: string): AlarmRow {
  const row = registry.alarms.get(id);
  if (!row || row.withdrawn) throw new SandlarderError('NOT_FOUND', `no alarm has the id "${id}"`);
  return row;
}

function acknowledge(station: Station, id: string, body: { by: string; note: string }, at: number): Alarm {
  return station.inTransaction(() => {
    const before = standingAlarm(station, id);
    station.registry.alarms.acknowledge(id, { ...body, at });
    station.changes.alarms(before.bed, [id]);
    const row = station.registry.alarms.get(id) ?? before;
    return labelled(station, row, at);
  });
}

/** Silence for a time; the condition goes on being watched. A later request takes the place of an earlier one. */
function shelve(station: Station, id: string, body: { by: string; hours: number }, at: number): Alarm {
  return station.inTransaction(() => {
    const before = standingAlarm(station, id);
    if (before.clearedAt !== null)
      throw new SandlarderError(
        'CONFLICT',
        `alarm: expected one that lasts, got one that was over by ${formatTime(before.clearedAt)}`,
      );
    station.registry.alarms.shelve(id, { by: body.by, at, until: at + body.hours * HOUR_ms });
    station.changes.alarms(before.bed, [id]);
    return labelled(station, station.registry.alarms.get(id) ?? before, at);
  });
}

/** Those that sent readings and that no description knows. */
export function unknownProbes(station: Station): ReturnType<HttpPorts['unknownProbes']> {
  return station.archive.apart
    .list()
    .filter(({ site, probe }) => !station.directory.find(site, probe))
    .map(({ key: _, ...rest }) => rest);
}
