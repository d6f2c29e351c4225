/** Calibrations made over a station, with numbers that a hand can check. */
import type { CalibrationPoint } from '../../services/core/model/calibration.js';
import type { CalibrationBody } from '../../services/core/model/calibration-record.js';
import { HOUR_ms } from '../../services/core/model/time.js';
import type { ProbeSeries } from '../../services/http/index.js';
import { CalibrationDesk } from '../../services/joining/calibration-desk.js';
import { type Message, SHORT_SEASON, siteOf } from './season.js';
import { NOW, openStation, type TestStation } from './station.js';

export const START = SHORT_SEASON.startAt;
export const BED = 'pit-t';

/** One measured value beside a reference of standard uncertainty 0.05 °C. */
export const beside = (
  indicated: number,
  reference: number,
  more: Partial<CalibrationPoint> = {},
): CalibrationPoint =>
  Object.freeze({ indicated, reference, referenceUncertainty: 0.05, source: 'instrument', ...more });

/** Two points from which nothing but an offset comes; they span 10 to 30. */
export const shiftedBy = (offset: number): CalibrationPoint[] => [
  beside(10, 10 + offset),
  beside(30, 30 + offset),
];

/**
 * Of `shiftedBy`, k = 2: two points of 0.05 each give an offset of variance 0.05^2 / 2, and what their references
 * share comes on top, 0.05^2. 2 sqrt(0.00375) = 0.122474.
 */
export const SHIFTED_U_C = 0.122474;

export const bodyOf = (change: Partial<CalibrationBody> = {}): CalibrationBody => ({
  ...{ site: 'test-ridge', probe: 'p01', quantity: 'temperature', by: 'bench-hand' },
  ...{ reference: { name: 'station thermometer' }, conditions: {}, points: shiftedBy(-1), fit: {} },
  doneAt: START + 2 * HOUR_ms,
  ...change,
});

/** One reading, at an hour from the start. */
export function reading(hour: number, probe: string, temperature?: number, humidity?: number): Message {
  const records = [
    ...(temperature === undefined ? [] : [{ n: 'temperature', u: 'Cel', v: temperature }]),
    ...(humidity === undefined ? [] : [{ n: 'humidity', u: '%RH', v: humidity }]),
  ];
  const bt = (START + hour * HOUR_ms) / 1000;
  return {
    topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
    payload: JSON.stringify(records.map((record) => ({ ...record, bt }))),
  };
}

/** A station with its desk; the site is described and nothing has been measured. */
export function openDesk(station: TestStation = openStation(), site: unknown = siteOf(SHORT_SEASON)) {
  station.load(site);
  station.station.refresh();
  const desk = new CalibrationDesk(station.station, () => NOW);
  return { ...station, desk };
}

export type Calibrating = ReturnType<typeof openDesk>;

const ALL = { from: START, to: START + 60 * 24 * HOUR_ms, points: 5000 };

/** The series of one probe, all of it. */
export function seriesOf({ views }: TestStation, probe: string): ProbeSeries {
  const found = views.series(BED, ALL).find((series) => series.probe === probe);
  if (!found) throw new Error(`no series of ${probe}`);
  return found;
}

/** What the watch keeps of every probe of the bed, and every alarm, as text. */
export function judgedText(station: TestStation): string {
  const { archive, station: inside } = station;
  const rows = (inside.directory.beds.get(BED)?.probes ?? []).map(({ key, probe }) => [
    probe.id,
    archive.judged.read(key, 0, Number.MAX_SAFE_INTEGER),
  ]);
  return JSON.stringify([rows, JSON.parse(station.alarmText())]);
}

/** What is said of a refusal, with its code. */
export function refusalOf(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    const { code, message } = error as { code?: string; message: string };
    return `${code}: ${message}`;
  }
  return 'no refusal';
}
