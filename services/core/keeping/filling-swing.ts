/**
 * The daily swing in one to three days of hourly means: a wave of 24 hours beside a drift, by least squares. The watch
 * for damp fits five days; here an answer is wanted while the pit can still be opened without harm.
 *
 * Sand that was just filled in warms or cools fast at first and ever more slowly. A straight drift leaves that bend to
 * the wave: of 288 simulated probes deep in sound pits 22 then seemed to lie shallower after 26 hours, and with a cubic
 * none (60 drawn beds, 2026-11-28).
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import { type Column, dot, orthogonalColumns, takeOff } from '../watch/dampness/least-squares.js';

/** Hours with a value that are needed, and hours that are taken: one wave with its drift, and three days. Judgement. */
const NEEDED = 20;
const MOST = 72;

/** °C. Smaller amplitudes are the steps in which cheap probes tell their values (0.06 °C). Judgement. */
export const LEAST_AMPLITUDE_C = 0.05;

/**
 * By how much the scatter about the wave understates what its amplitude is uncertain by: weather moves slowly, so that
 * one hour's error is the next one's. Judgement.
 */
const SLOW_WEATHER = 2;

export interface DaySwing {
  /** Half of the way from the coldest to the warmest, °C. */
  readonly amplitude_C: number;
  /** Standard uncertainty of it, °C. */
  readonly deviation_C: number;
  /** When the wave is warmest, hours after the first hour's middle, 0..24. */
  readonly latest_h: number;
}

/**
 * The swing of a series.
 *
 * @param hours hourly means, °C, the oldest first; null for an hour without
 * @throws SandlarderError TOO_FEW_SAMPLES for fewer than 20 hours with a value, or a span of less than a day;
 * LIMIT_EXCEEDED for more than 72 hours; OUT_OF_DOMAIN for a temperature of no bed
 */
export function daySwing(hours: readonly (number | null)[]): DaySwing {
  if (!(hours.length <= MOST))
    throw new SandlarderError('LIMIT_EXCEEDED', `hours: expected at most ${MOST}, got ${hours.length}`);
  const ages = hours.flatMap((value, hour) => (value === null ? [] : [hour]));
  const span = (ages.at(-1) ?? 0) - (ages[0] ?? 0) + 1;
  if (!(ages.length >= NEEDED && span >= 24))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `hours: expected at least ${NEEDED} with a value over a day or more, got ${ages.length} over ${span} h`,
    );
  const left = Float64Array.from(ages, (hour) => hours[hour] as number);
  for (const value of left) requireInDomain('hourly mean, °C,', value, -55, 125);
  const columns = columnsOf(ages);
  const [cosine = 0, sine = 0] = columns.map((column) => takeOff(left, column)).slice(-2);
  return swingOf(left, columns, cosine, sine);
}

/** The drift comes first, so that the wave is fitted to what it leaves. */
function columnsOf(ages: readonly number[]): Column[] {
  const angles = Float64Array.from(ages, (hour) => (2 * Math.PI * hour) / 24);
  const middle = (angles.at(-1) ?? 0) / 2;
  const drift = [0, 1, 2, 3].map((power) => angles.map((angle) => (angle - middle) ** power));
  return orthogonalColumns([...drift, angles.map(Math.cos), angles.map(Math.sin)]);
}

function swingOf(left: Float64Array, columns: readonly Column[], cosine: number, sine: number): DaySwing {
  const [ofCosine, ofSine] = columns.slice(-2) as [Column, Column];
  const inPhase = cosine - ofSine.ofLast * sine;
  const variance = dot(left, left) / (left.length - columns.length);
  const smaller = Math.min(ofCosine.square, ofSine.square);
  return {
    amplitude_C: Math.hypot(inPhase, sine),
    deviation_C: SLOW_WEATHER * Math.sqrt(variance / smaller),
    latest_h: ((Math.atan2(sine, inPhase) / (2 * Math.PI)) * 24 + 24) % 24,
  };
}
