/** Words of a certificate that several of its parts use. */
import { SandlarderError } from '../errors.js';
import type {
  CalibratedQuantity,
  CalibrationForm,
  CalibrationPoint,
  PointSource,
} from '../model/calibration.js';
import type { Calibration } from '../model/calibration-record.js';
import type { ComponentName } from './budget.js';
import { UNIT } from './words.js';

/** For what is not known or does not apply: a cell is never empty without saying so. */
export const NONE = '–';

export const NOT_ENTERED = 'not entered';

export const SOURCE_WORDS: Readonly<Record<PointSource, string>> = {
  instrument: 'beside instrument',
  'ice-point': 'ice point',
  'boiling-point': 'boiling water',
  salt: 'over salt',
  file: 'from file',
};

export const QUANTITY_WORDS: Readonly<Record<CalibratedQuantity, string>> = {
  temperature: 'temperature, °C',
  humidity: 'relative humidity, %RH',
};

export const FORM_WORDS: Readonly<Record<CalibrationForm, string>> = {
  offset: 'offset',
  linear: 'offset and gain',
  quadratic: 'offset, gain and curve',
};

export const COMPONENT_WORDS: Readonly<Record<ComponentName, string>> = {
  fit: 'fitted correction',
  reference: 'what all references share',
  resolution: 'resolution of the probe',
  repeatability: 'repeatability of one reading',
};

/** A text or number as entered, with its unit. */
export const entered = (value: string | number | undefined, unit = ''): string =>
  value === undefined ? NOT_ENTERED : `${value}${unit}`;

/** An amount that is already rounded, with the unit of the quantity. */
export const withUnit = (text: string, quantity: CalibratedQuantity): string => `${text} ${UNIT[quantity]}`;

/** Points are counted from 1 on paper; in the record from 0. */
export const numberOf = (index: number): string => String(index + 1);

/**
 * A point of a record.
 *
 * @throws SandlarderError OUT_OF_DOMAIN where a fit speaks of a point that its record does not have
 */
export function pointOf({ id, points }: Calibration, index: number): CalibrationPoint {
  const point = points[index];
  if (point === undefined)
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `calibration ${id}: expected the fit to speak of its ${points.length} points, got one of index ${index}`,
    );
  return point;
}

/**
 * `2026-05-24 17:00 +02:00`: day and minute in a zone, with the zone's offset then.
 *
 * @param time ms since the epoch
 * @param timeZone IANA name; UTC where null
 * @throws SandlarderError OUT_OF_DOMAIN for a zone that the runtime does not know
 */
export function timeInWords(time: number, timeZone: string | null): string {
  const parts = new Map(
    formatFor(timeZone ?? 'UTC')
      .formatToParts(time)
      .map(({ type, value }) => [type, value]),
  );
  const part = (type: Intl.DateTimeFormatPartTypes): string => parts.get(type) ?? '';
  const offset = part('timeZoneName').replace('GMT', '') || '+00:00';
  return `${part('year')}-${part('month')}-${part('day')} ${part('hour')}:${part('minute')} ${offset}`;
}

/** `2026-05-24`: the day in a zone, to hold against days that were entered. */
export const dayInWords = (time: number, timeZone: string | null): string =>
  timeInWords(time, timeZone).slice(0, 'YYYY-MM-DD'.length);

function formatFor(timeZone: string): Intl.DateTimeFormat {
  try {
    return new Intl.DateTimeFormat('en-GB', {
      timeZone,
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
      timeZoneName: 'longOffset',
    });
  } catch {
    throw new SandlarderError('OUT_OF_DOMAIN', `time zone: expected a known IANA name, got ${timeZone}`);
  }
}
