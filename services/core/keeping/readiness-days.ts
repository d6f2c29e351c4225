/** The last two days of a probe as far as they say whether a bed is ready. */
import { requireInDomain } from '../errors.js';
import { DAY_ms, HOUR_ms } from '../model/time.js';

/** Corrected means of an hour. */
export interface ProbeHour {
  /** Start, ms. */
  readonly hour: number;
  readonly temperature_C?: number | undefined;
  readonly humidity_RH?: number | undefined;
}

/** What is measured and looked at by the day. */
export type Measured = 'temperature_C' | 'humidity_RH';

/** The day before the last and the last, that ends when the bed is judged. */
export interface TwoDays {
  readonly before: number;
  readonly last: number;
}

/** Of 24; fewer say too little of a day. Judgement. */
const LEAST_hours = 18;

/** What a value that can be used lies between. */
const RANGE: Readonly<Record<Measured, readonly [number, number]>> = {
  temperature_C: [-60, 100],
  humidity_RH: [-20, 130],
};

interface Value {
  readonly hour: number;
  readonly value: number;
}

/** Values of whole hours within a day that ends at `end`, or undefined where they are too few. */
function dayOf(hours: readonly ProbeHour[], measured: Measured, end: number): readonly Value[] | undefined {
  const [low, high] = RANGE[measured];
  const byHour = new Map<number, number>();
  for (const { hour, [measured]: value } of hours) {
    if (value === undefined || !(hour >= end - DAY_ms && hour + HOUR_ms <= end)) continue;
    requireInDomain(`${measured} of an hour`, value, low, high);
    byHour.set(hour, value);
  }
  if (byHour.size < LEAST_hours) return undefined;
  return [...byHour].map(([hour, value]) => ({ hour, value }));
}

const meanOf = (values: readonly Value[]): number =>
  values.reduce((sum, { value }) => sum + value, 0) / values.length;

/** The days end with the last whole hour, so that a judgement at 10:20 goes by what was told until 10:00. */
const endOf = (at: number): number => Math.floor(at / HOUR_ms) * HOUR_ms;

/**
 * Means of the two days.
 *
 * @returns undefined where either day has fewer than 18 hours
 * @throws SandlarderError OUT_OF_DOMAIN for a value that no probe in sand has
 */
export function twoDaysOf(hours: readonly ProbeHour[], measured: Measured, at: number): TwoDays | undefined {
  const before = dayOf(hours, measured, endOf(at) - DAY_ms);
  const last = dayOf(hours, measured, endOf(at));
  return before && last && { before: meanOf(before), last: meanOf(last) };
}

/**
 * Highest less lowest temperature of a day, as the mean of the two days, without the drift from one to the next.
 *
 * @returns °C; undefined where either day has fewer than 18 hours
 */
export function dailySwing_C(hours: readonly ProbeHour[], at: number): number | undefined {
  const end = endOf(at);
  const days = [dayOf(hours, 'temperature_C', end - DAY_ms), dayOf(hours, 'temperature_C', end)];
  const [before, last] = days;
  if (!before || !last) return undefined;
  const drift_C_ms = (meanOf(last) - meanOf(before)) / DAY_ms;
  const swings = [before, last].map((values) => {
    const steady = values.map(({ hour, value }) => value - drift_C_ms * (hour - end));
    return Math.max(...steady) - Math.min(...steady);
  });
  return ((swings[0] as number) + (swings[1] as number)) / 2;
}
