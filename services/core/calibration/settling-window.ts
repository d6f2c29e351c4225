/** The latest readings of a probe in a bath, and the line through them. */
import type { StepSource } from '../model/calibration.js';
import { studentScore } from './student.js';

/** In the unit of the quantity. */
export interface BenchReading {
  /** ms since the epoch; strictly ascending. */
  readonly time: number;
  readonly value: number;
}

export interface SettlingWindow {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly mean: number;
  /** Standard deviation about the line, unit. */
  readonly scatter: number;
  readonly slopePerMinute: number;
  /** Upper 95 % bound of the slope's size, unit/min. */
  readonly slopeBound_perMinute: number;
  /** Step of the values, unit, and how it is known. */
  readonly step: number;
  readonly stepFrom: StepSource;
  /** k = 1: of the mean as what the probe would show at rest; scatter, resolution and the drift that is left. */
  readonly indicatedUncertainty: number;
}

/** Steps that a window is judged by, in the unit of its values. */
export interface Steps {
  /** Each end of the line may be rounded by a rectangle as wide. */
  readonly ofLine: number;
  /** Of the probe: its mean may be rounded by a rectangle as wide. */
  readonly ofProbe: number;
  readonly from: StepSource;
}

export const WINDOWS_min = [5, 10, 20] as const;
export const READINGS_LEAST = 5;
/** min: five readings that are further apart than this tell nothing of a bath. */
export const SPAN_MOST_min = 120;
export const MINUTE_ms = 60_000;

/** The latest readings over at least 5, 10 and 20 minutes, each of at least five; those that there are, each once. */
export function windowsOf(readings: readonly BenchReading[]): (readonly BenchReading[])[] {
  const last = readings.at(-1)?.time ?? 0;
  const starts = WINDOWS_min.map((span) => {
    const old = readings.findLastIndex(({ time }) => last - time >= span * MINUTE_ms);
    return Math.min(old, readings.length - READINGS_LEAST);
  });
  return [...new Set(starts)]
    .filter((start) => start >= 0)
    .map((start) => readings.slice(start))
    .filter(([first]) => last - (first?.time ?? 0) <= SPAN_MOST_min * MINUTE_ms);
}

/**
 * What a window shows.
 *
 * The drift that is left reaches from the window's middle to its end and one time constant on, at the slope seen: a
 * rectangle of that half-width [JCGM 100 4.3.7], and the slope's own uncertainty over the same length.
 *
 * @param timeConstant_s of a probe in such a bath
 */
export function judged(
  readings: readonly BenchReading[],
  steps: Steps,
  timeConstant_s: number,
): SettlingWindow {
  const from = (readings[0] as BenchReading).time;
  const to = (readings.at(-1) as BenchReading).time;
  const count = readings.length;
  const span_min = (to - from) / MINUTE_ms;
  const { mean, slope, scatter, slopeUncertainty } = lineThrough(readings);
  const ofSlope = Math.hypot(slopeUncertainty, roundingOf(steps.ofLine, span_min));
  const lag_min = span_min / 2 + timeConstant_s / 60;
  return {
    from,
    to,
    count,
    mean,
    scatter,
    slopePerMinute: slope,
    slopeBound_perMinute: Math.abs(slope) + studentScore(0.025, count - 2) * ofSlope,
    step: steps.ofProbe,
    stepFrom: steps.from,
    indicatedUncertainty: Math.hypot(
      scatter / Math.sqrt(count),
      steps.ofProbe / Math.sqrt(12),
      (slope * lag_min) / Math.sqrt(3),
      slopeUncertainty * lag_min,
    ),
  };
}

/** Standard uncertainty of a slope from both its ends being rounded, unit/min. */
export const roundingOf = (step: number, span_min: number): number => step / Math.sqrt(6) / span_min;

interface Line {
  readonly mean: number;
  /** Unit/min. */
  readonly slope: number;
  readonly scatter: number;
  readonly slopeUncertainty: number;
}

/** Ordinary least squares of values over minutes. */
function lineThrough(readings: readonly BenchReading[]): Line {
  const count = readings.length;
  const start = (readings[0] as BenchReading).time;
  const meanTime = sum(readings.map(({ time }) => time - start)) / count;
  const minutes = readings.map(({ time }) => (time - start - meanTime) / MINUTE_ms);
  const mean = sum(readings.map(({ value }) => value)) / count;
  const off = readings.map(({ value }) => value - mean);
  const square = sum(minutes.map((minute) => minute ** 2));
  const slope = sum(minutes.map((minute, at) => minute * (off[at] as number))) / square;
  const left = sum(minutes.map((minute, at) => ((off[at] as number) - slope * minute) ** 2));
  const scatter = Math.sqrt(left / (count - 2));
  return { mean, slope, scatter, slopeUncertainty: scatter / Math.sqrt(square) };
}

/** Differences below this are rounding of the numbers themselves, not a step of a sensor. */
const NO_STEP = 1e-6;

/** Digits after the point that a step keeps: 20.1 less 20 is no 0.1 in binary. */
const STEP_DIGITS = 6;

/** Smallest difference among the values; absent where they are all the same. */
export function stepSeen(readings: readonly BenchReading[]): number | undefined {
  const sorted = readings.map(({ value }) => value).sort((one, other) => one - other);
  const steps = sorted.slice(1).map((value, at) => value - (sorted[at] as number));
  const seen = steps.filter((step) => step > NO_STEP);
  return seen.length === 0
    ? undefined
    : Number(seen.reduce((one, other) => Math.min(one, other)).toFixed(STEP_DIGITS));
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
