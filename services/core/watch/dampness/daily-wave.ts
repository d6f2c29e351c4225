/**
 * The 24-hour wave in some days of hourly temperatures, by least squares beside a drift and the half-day wave, with
 * an uncertainty from what is left over.
 *
 * What is left over is not white: weather moves slowly. It is taken for a first-order process, and its spectral
 * density at the period of a day is what the wave's amplitude is uncertain by (textbook formula of an AR(1) process,
 * from memory).
 */
import { HOUR_ms } from '../../model/time.js';
import type { Hours } from './hours.js';
import { type Column, dot, orthogonalColumns, takeOff } from './least-squares.js';
import { DAMPNESS } from './parameters.js';

export interface DailyWave {
  /** T = inPhase cos(wt) + quadrature sin(wt), t from midnight UTC, °C. */
  readonly inPhase_C: number;
  readonly quadrature_C: number;
  /** Standard uncertainty of either, °C. */
  readonly deviation_C: number;
}

export const amplitude_C = ({ inPhase_C, quadrature_C }: DailyWave): number =>
  Math.hypot(inPhase_C, quadrature_C);

const OMEGA_per_h = (2 * Math.PI) / 24;

/** A wave by the hour of the day. */
const byHour = (wave: (angle: number) => number, per_h: number): Float64Array =>
  Float64Array.from({ length: 24 }, (_, hour) => wave(per_h * hour));

/** The half-day wave and the wave itself. */
const WAVES: readonly Float64Array[] = [
  byHour(Math.cos, 2 * OMEGA_per_h),
  byHour(Math.sin, 2 * OMEGA_per_h),
  byHour(Math.cos, OMEGA_per_h),
  byHour(Math.sin, OMEGA_per_h),
];

/**
 * Fits the wave to series of hours that end together; undefined where too few of the hours have a value, and where a
 * jump between two of them says that the sand was handled.
 */
export type WaveFit = (hours: Readonly<Hours>) => DailyWave | undefined;

/**
 * Series with the same gaps, or none, have the same columns: those of the last series are kept.
 *
 * @param end end of the newest hour of each series, ms
 */
export function waveFit(end: number): WaveFit {
  let last: { ages_h: readonly number[]; columns: readonly Column[] } | undefined;
  return (hours) => {
    const ages_h = agesOf(hours);
    if (!(ages_h.length >= DAMPNESS.waveNeeds_h)) return undefined;
    if (!last || !isSame(last.ages_h, ages_h)) last = { ages_h, columns: columnsOf(ages_h, end) };
    return fitted(valuesOf(hours, ages_h), last.columns);
  };
}

function valuesOf(hours: Readonly<Hours>, ages_h: readonly number[]): Float64Array {
  const values = new Float64Array(ages_h.length);
  for (let at = 0; at < values.length; at += 1)
    values[at] = hours[hours.length - 1 - (ages_h[at] as number)] as number;
  return values;
}

const isSame = (one: readonly number[], other: readonly number[]): boolean =>
  one.length === other.length && one.every((value, at) => value === other[at]);

/** How many hours before the newest each value is. */
function agesOf(hours: Readonly<Hours>): number[] {
  const ages_h: number[] = [];
  for (let at = 0; at < hours.length; at += 1) if (hours[at] !== null) ages_h.push(hours.length - 1 - at);
  return ages_h;
}

/** Everything that is not the wave comes first, so that the wave is fitted to what it leaves. */
function columnsOf(ages_h: readonly number[], end: number): Column[] {
  const newest = Math.round(end / HOUR_ms) - 1;
  const shares = Float64Array.from(ages_h, (age_h) => 1 - (2 * age_h) / DAMPNESS.wave_h);
  const hours = Uint8Array.from(ages_h, (age_h) => (newest - age_h) % 24);
  const drift = [shares.map(() => 1), shares, shares.map((share) => share * share)];
  const waves = WAVES.map((wave) => shares.map((_, at) => wave[hours[at] as number] as number));
  return orthogonalColumns([...drift, ...waves]);
}

/** @param left the temperatures; what the columns do not explain is left in it */
function fitted(left: Float64Array, columns: readonly Column[]): DailyWave | undefined {
  const shares = columns.map((column) => takeOff(left, column));
  const [cosine, sine] = columns.slice(-2) as [Column, Column];
  const [inCosine, inSine] = shares.slice(-2) as [number, number];
  if (wasHandled(left)) return undefined;
  const density = densityAtDay(left, left.length - columns.length);
  const byFit_C = Math.sqrt(density / Math.min(cosine.square, sine.square));
  const deviation_C = Math.max(byFit_C, DAMPNESS.amplitudeLeast_C);
  const inPhase_C = inCosine - sine.ofLast * inSine;
  if (![inPhase_C, inSine, deviation_C].every(Number.isFinite)) return undefined;
  return { inPhase_C, quadrature_C: inSine, deviation_C };
}

/** Whether what is left has a jump that is no weather; a gap in the hours makes a larger change, but is rare. */
function wasHandled(left: Float64Array): boolean {
  let largest_C = 0;
  let sum_C = 0;
  for (let at = 1; at < left.length; at += 1) {
    const change_C = Math.abs((left[at] as number) - (left[at - 1] as number));
    largest_C = Math.max(largest_C, change_C);
    sum_C += change_C;
  }
  const usual_C = (sum_C - largest_C) / (left.length - 2);
  return largest_C > Math.max(DAMPNESS.handledLeast_C, DAMPNESS.handledTimes * usual_C);
}

/** Spectral density at the period of a day of what is left over, as the variance of white noise of that density. */
function densityAtDay(left: Float64Array, freedom: number): number {
  const square = dot(left, left);
  if (square === 0) return 0;
  const memory = dot(left.subarray(1), left.subarray(0, -1)) / square;
  const shape = (1 - memory * memory) / (1 - 2 * memory * Math.cos(OMEGA_per_h) + memory * memory);
  return (square / freedom) * shape;
}
