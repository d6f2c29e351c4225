/** What happened to a bed, newest first, from what was written down and from where its probes stood. */
import { eventLine } from '../core/alarms/text.js';
import { wrongInWords } from '../core/alarms/wording.js';
import { SandlarderError } from '../core/errors.js';
import {
  calibrationSentence,
  EVENT_KINDS,
  fillingSentence,
  inspectionSentence,
  overrideEventSentence,
  stockOutSentence,
} from '../core/keeping/index.js';
import type { Calibration } from '../core/model/calibration-record.js';
import type { Filling } from '../core/model/filling.js';
import type { Inspection } from '../core/model/inspection.js';
import type { OverrideRecord } from '../core/model/readiness.js';
import type { StockOut } from '../core/model/stock.js';
import { EARLIEST_TIME_ms, LATEST_TIME_ms } from '../core/model/time.js';
import type { BedEvent, EventAbout, EventQuery } from '../http/index.js';
import type { AlarmRow, EventMark, StoredEvent, StoredEventKind } from '../registry/index.js';
import type { KnownBed } from './directory.js';
import { placementEvents } from './placement-events.js';
import type { Station } from './station.js';

/** @throws SandlarderError BAD_REQUEST for an `after` that no event has */
export function eventPage(
  station: Station,
  known: KnownBed,
  { from = EARLIEST_TIME_ms, to = LATEST_TIME_ms, limit, after }: EventQuery,
): { events: BedEvent[]; more: boolean } {
  const before = after === undefined ? undefined : markOf(after);
  const span = { from, to };
  const probes = known.probes.map(({ probe }) => probe.id);
  const stored = station.registry.events.page({
    ...{ site: known.site.id, bed: known.bed.id, probes, ...span, before, most: limit + 1 },
  });
  const events = [
    ...stored.map((event) => eventOf(station, known, event)),
    ...placementEvents(known, span).filter((event) => !before || isBefore(event, before)),
  ].sort((one, other) => (isBefore(one, markOf(other.id)) ? 1 : -1));
  return { events: events.slice(0, limit), more: events.length > limit };
}

/** The id says where in the list an event stands, also once it is there no more. */
const ID = new RegExp(`^(\\d{12,13})\\.((?:${EVENT_KINDS.join('|')})\\.\\S+)$`);

function markOf(id: string): EventMark {
  const [, at, key] = ID.exec(id) ?? [];
  if (at === undefined || key === undefined)
    throw new SandlarderError('BAD_REQUEST', `after: expected the id of an event, got ${JSON.stringify(id)}`);
  return { at: Number(at), key };
}

/** As SQLite compares: ids hold only ASCII. */
function isBefore({ id }: Pick<BedEvent, 'id'>, mark: EventMark): boolean {
  const own = markOf(id);
  return own.at < mark.at || (own.at === mark.at && own.key < mark.key);
}

function eventOf(station: Station, known: KnownBed, { kind, at, ref, document }: StoredEvent): BedEvent {
  const said = document === null ? ofAlarm(station, known, kind, ref) : written(kind, document, ref);
  return { id: `${at}.${kind}.${ref}`, at, kind, ...said };
}

interface Said {
  readonly text: string;
  readonly about: EventAbout;
}

/** A record as it was written down. */
function written(kind: StoredEventKind, document: string, ref: string): Said {
  const record: unknown = JSON.parse(document);
  switch (kind) {
    case 'filling':
      return { text: fillingSentence(record as Filling), about: { filling: ref } };
    case 'inspection':
      return { text: inspectionSentence(record as Inspection), about: { inspection: ref } };
    case 'stock-out':
      return { text: stockOutSentence(record as StockOut), about: { stock: ref } };
    case 'calibration': {
      const calibration = record as Calibration;
      const about = { calibration: ref, probe: calibration.probe };
      return { text: calibrationSentence(calibration), about };
    }
    default: {
      const readiness = ref.slice(0, ref.lastIndexOf('.'));
      return { text: overrideEventSentence(record as OverrideRecord), about: { readiness } };
    }
  }
}

function ofAlarm({ registry }: Station, { bed }: KnownBed, kind: StoredEventKind, id: string): Said {
  const row = registry.alarms.get(id) as AlarmRow;
  const probe = row.subject === '' ? {} : { probe: row.subject };
  return { text: alarmSentence(kind, row, bed), about: { alarm: id, ...probe } };
}

function alarmSentence(kind: StoredEventKind, row: AlarmRow, bed: KnownBed['bed']): string {
  switch (kind) {
    case 'alarm-acknowledged':
      return acknowledgedSentence(row, bed);
    case 'alarm-moved':
      return eventLine('refined', row, bed);
    case 'alarm-cleared':
      return eventLine('cleared', row, bed);
    case 'alarm-withdrawn':
      return eventLine('withdrawn', row, bed);
    default:
      return row.text;
  }
}

function acknowledgedSentence(row: AlarmRow, bed: KnownBed['bed']): string {
  const { by = '', note = '' } = row.acknowledgement ?? {};
  const added = note === '' ? '' : ` (${note})`;
  return `${bed.name}: ${by} has seen this: ${wrongInWords(row, bed)}${added}.`;
}
