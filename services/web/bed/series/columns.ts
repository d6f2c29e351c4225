/** Series of an answer as numbers to draw from. A value that is not there is NaN. */
import type { DoubtAnswer, MeasuredAnswer, ReadFrom } from '../../api/types/series.js';
import { HOUR_ms } from './span.js';

export interface Flagged {
  readonly at: number;
  readonly quantity: 'temperature' | 'humidity';
  readonly reason: string;
  readonly value: number;
}

export interface Columns {
  /** ms, ascending. */
  readonly time: Float64Array;
  readonly temperature: Float64Array;
  readonly temperatureUncertainty: Float64Array;
  readonly doubt: readonly DoubtAnswer[];
  readonly humidity: Float64Array;
  readonly humidityUncertainty: Float64Array;
  readonly flagged: readonly Flagged[];
  readonly thinned: boolean;
  readonly readFrom: readonly ReadFrom[];
  /** Why it is coarser than it might be; null where it is not. */
  readonly note: string | null;
  /** Longer silences are gaps, ms. */
  readonly gap_ms: number;
  /** What the watch made of whole hours; `time` is the middle of each. */
  readonly hours: {
    readonly time: Float64Array;
    readonly expected: Float64Array;
    readonly band: Float64Array;
    readonly excess: Float64Array;
    /** As long as the others: the excess of a sound bed. */
    readonly none: Float64Array;
    readonly gap_ms: number;
  };
}

const numbers = (values: readonly (number | null)[]): Float64Array =>
  Float64Array.from(values, (value) => value ?? Number.NaN);

const times = (texts: readonly string[], shift_ms = 0): Float64Array =>
  Float64Array.from(texts, (text) => Date.parse(text) + shift_ms);

/** Probes that are out of reach for less are not taken for silent. */
const LEAST_GAP_ms = 2 * HOUR_ms;

/** A gap is three times what usually lies between two values. */
function gapOf(time: Float64Array): number {
  const steps = Float64Array.from({ length: Math.max(0, time.length - 1) }, (_, at) => {
    return (time[at + 1] as number) - (time[at] as number);
  }).sort();
  const usual = steps[Math.floor(0.9 * steps.length)] ?? 0;
  return Math.max(LEAST_GAP_ms, 3 * usual);
}

/** Values that the watch does not use are taken out of the columns: they are drawn apart. */
export function columnsOf(series: MeasuredAnswer, note: string | null = null): Columns {
  const time = times(series.time);
  const flagged = series.flagged.map((flag) => ({ ...flag, at: Date.parse(flag.at) }));
  const temperature = numbers(series.temperature_C);
  const humidity = numbers(series.humidity_RH);
  const left = { temperature, humidity };
  if (flagged.length > 0) {
    const places = new Map(Array.from(time, (at, place) => [at, place]));
    for (const { at, quantity } of flagged) {
      const place = places.get(at);
      if (place !== undefined) left[quantity][place] = Number.NaN;
    }
  }
  const { hours } = series;
  const hourTime = times(hours?.time ?? [], HOUR_ms / 2);
  return {
    ...{ time, temperature, humidity, flagged, thinned: series.thinned, gap_ms: gapOf(time) },
    temperatureUncertainty: numbers(series.temperatureUncertainty_C),
    humidityUncertainty: numbers(series.humidityUncertainty_RH),
    ...{ doubt: series.temperatureDoubt, readFrom: series.readFrom ?? [], note },
    hours: {
      time: hourTime,
      expected: numbers(hours?.expected_C ?? []),
      band: numbers(hours?.band_C ?? []),
      excess: numbers(hours?.excess_C ?? []),
      none: new Float64Array(hourTime.length),
      gap_ms: gapOf(hourTime),
    },
  };
}

/** First place whose time is not before `at`. */
export function placeOf(time: Float64Array, at: number): number {
  let [low, high] = [0, time.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((time[middle] as number) < at) low = middle + 1;
    else high = middle;
  }
  return low;
}
