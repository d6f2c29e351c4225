/** One alarm opened: what it rests on, what to do about it, and what became of it. */
import { cautionsFor, DIGGING_CAUTION } from '../core/alarms/cautions.js';
import { timeOf, wordOf } from '../core/alarms/evidence-values.js';
import { SPEAKS_OF_ms } from '../core/alarms/labels.js';
import { meaningInWords } from '../core/alarms/meaning.js';
import { type HistoryEvent, historyOf, probeOf, stepsOf, whyOf } from '../core/alarms/story/index.js';
import { SandlarderError } from '../core/errors.js';
import type { Alarm, Place } from '../core/model/alarm.js';
import type { CalibratedQuantity } from '../core/model/calibration.js';
import { DAY_ms } from '../core/model/time.js';
import type { AlarmStory, CalibrationThen, ProbeSeries, StoryProbe } from '../http/index.js';
import type { AlarmRow } from '../registry/index.js';
import type { KnownBed } from './directory.js';
import { staysInBed } from './directory.js';
import { labelled } from './labelled.js';
import { readSeries } from './series-view.js';
import type { Station } from './station.js';

/** Of one probe, a few: what fits beside a number on a telephone. */
const FEW_readings = 12;

/** Longest that is shown before the raising, days: what began earlier is in the series. */
const LONGEST_BEFORE_days = 21;

/** Radius of the place where a probe lies, cm: judgement, as exact as it is written down. */
const PROBE_RADIUS_cm = 10;

/**
 * @param now wall clock, ms
 * @throws SandlarderError NOT_FOUND for an id that never was one; one that was withdrawn is told too
 */
export function alarmStory(station: Station, id: string, now: number): AlarmStory {
  const { registry, directory } = station;
  const row = registry.alarms.get(id);
  const known = row && directory.beds.get(row.bed);
  if (!row || !known) throw new SandlarderError('NOT_FOUND', `no alarm has the id "${id}"`);
  const alarm = labelled(station, row, now);
  const { bed, site } = known;
  const successor = row.withdrawn ? registry.alarms.standingFor(id)?.id : undefined;
  const span = spanOf(row);
  const probes = probesOf(row).map((probe) => storyProbe(station, known, probe, row.raisedAt, span));
  return {
    ...{ alarm, bed, siteName: site.name, timezone: site.timezone, withdrawn: row.withdrawn, span, probes },
    successor: successor === undefined || successor === id ? null : successor,
    meaning: meaningInWords(row),
    why: whyOf(row, { site: site.thresholds, bed: bed.thresholds }, site.timezone),
    steps: stepsOf(row, bed, placeOfProbe(probes[0])),
    cautions: cautionsOf(row, bed.kind),
    history: historyAt(station, row, alarm),
  };
}

/** From a day before it began, as far as that is known, to a day after it was raised. */
function spanOf({ raisedAt, evidence }: AlarmRow): { from: number; to: number } {
  const began = timeOf(evidence, 'onsetAt') ?? timeOf(evidence, 'since') ?? raisedAt;
  const earliest = raisedAt - LONGEST_BEFORE_days * DAY_ms;
  return { from: Math.max(earliest, Math.min(began, raisedAt) - DAY_ms), to: raisedAt + DAY_ms };
}

/** Those that the evidence names: the one it is of, and the one that it is measured against. */
function probesOf(row: AlarmRow): string[] {
  const named = [probeOf(row), wordOf(row.evidence, 'against')];
  return [...new Set(named.flatMap((probe) => (!probe || probe === 'shade' ? [] : [probe])))];
}

const cautionsOf = ({ kind, action }: AlarmRow, of: 'stepped-pit' | 'box'): string[] =>
  cautionsFor(kind, action).filter((caution) => of !== 'box' || caution !== DIGGING_CAUTION);

const placeOfProbe = (probe: StoryProbe | undefined): Place | null =>
  probe?.at ? { ...probe.at, radius: PROBE_RADIUS_cm } : null;

function storyProbe(
  station: Station,
  known: KnownBed,
  id: string,
  time: number,
  span: { from: number; to: number },
): StoryProbe {
  const probes = known.probes.filter(({ probe }) => probe.id === id);
  const stays = probes.flatMap((probe) => staysInBed(probe, known.bed.id));
  const stay = stays.find(({ from, to }) => from <= time && time < to) ?? stays.at(-1);
  const query = { ...span, points: FEW_readings };
  const { archive, calibrations } = station;
  const [series] = readSeries({ archive, calibrations, known: { ...known, probes }, query });
  const then = (quantity: CalibratedQuantity) =>
    calibrationThen(station, { site: known.site.id, probe: id, quantity, time }, series);
  return {
    ...{ probe: id, series },
    at: stay?.placement ? { x: stay.placement.x, y: stay.placement.y, depth: stay.placement.depth } : null,
    calibrations: { temperature: then('temperature'), humidity: then('humidity') },
  };
}

interface Then {
  readonly site: string;
  readonly probe: string;
  readonly quantity: CalibratedQuantity;
  readonly time: number;
}

function calibrationThen(
  { calibrations }: Station,
  { site, probe, quantity, time }: Then,
  series: ProbeSeries | undefined,
): CalibrationThen | null {
  const record = calibrations.inForce(site, probe, quantity, time);
  if (!record) return null;
  const { id, from, doneAt } = record;
  const column = quantity === 'temperature' ? 'temperatureUncertainty_C' : 'humidityUncertainty_RH';
  return { id, quantity, from, doneAt, uncertainty: nearest(series, column, time) };
}

/** The value of a column that is nearest in time; null where there is none. */
function nearest(
  series: ProbeSeries | undefined,
  column: 'temperatureUncertainty_C' | 'humidityUncertainty_RH',
  time: number,
): number | null {
  let best: { value: number; away: number } | null = null;
  (series?.time ?? []).forEach((at, index) => {
    const value = series?.[column][index] ?? null;
    const away = Math.abs(at - time);
    if (value !== null && !(best !== null && best.away <= away)) best = { value, away };
  });
  return (best as { value: number } | null)?.value ?? null;
}

function historyAt({ registry }: Station, row: AlarmRow, { foundOut }: Alarm): HistoryEvent[] {
  const { bed, raisedAt, site, id, formerly } = row;
  const people = registry.sites.descriptions().find((one) => one.site.id === site)?.people ?? [];
  return historyOf({
    alarm: row,
    told: [id, ...formerly].flatMap((one) => registry.told.ofAlarm(one)),
    names: new Map(people.map((person) => [person.id, person.name])),
    looks: registry.inspections.between(bed, raisedAt, raisedAt + SPEAKS_OF_ms + 1),
    foundOut: foundOut ?? { verdict: 'unseen', lookedAt: null },
  });
}
