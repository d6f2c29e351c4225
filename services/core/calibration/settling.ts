/**
 * Has a probe come to rest in its bath? And if not, how long will it still take?
 *
 * A probe rests when the upper 95 % bound of its slope, steps of its resolution included, is below a limit, and the
 * scatter about the line is too. It is not enough that no slope is seen: few or noisy readings show none either.
 * The latest 5 minutes are tried first, then 10, then 20, each stretched back until it holds five readings, so that
 * a probe that publishes every 10 s is judged after 5 minutes and one that publishes every 10 minutes after 40.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import { type Earliest, earliestFor } from './settling-earliest.js';
import { type Stillness, stillnessFor } from './settling-stillness.js';
import { remaining_s } from './settling-time.js';
import {
  type BenchReading,
  judged,
  MINUTE_ms,
  READINGS_LEAST,
  type SettlingWindow,
  SPAN_MOST_min,
  type Steps,
  stepSeen,
  WINDOWS_min,
  windowsOf,
} from './settling-window.js';
import { minutesMore, stillnessWords } from './waiting-words.js';

export interface SettlingRule {
  readonly unit: string;
  /** Upper 95 % bound of the slope, unit/min. */
  readonly slopeMost_perMinute: number;
  /** Standard deviation about the line, unit. */
  readonly scatterMost: number;
  /** Step of the values where the readings themselves show none, unit: the coarsest common sensor. */
  readonly stepIfUnseen: number;
  /** Time constant of a probe in such a bath, for what it still lags, s. */
  readonly timeConstant_s: number;
}

/**
 * Judgement: about a fifth of what a cheap probe is off. 0.1 °C and 0.3 %RH in ten minutes; scatter of a poor digital
 * sensor; steps of a 12-bit bus thermometer and of a one-decimal humidity sensor; time constants of a probe in still
 * water, and of a jar whose 20 minutes are three of them.
 */
export const SETTLING_RULES: Readonly<Record<'temperature' | 'humidity', SettlingRule>> = {
  temperature: {
    unit: '°C',
    slopeMost_perMinute: 0.01,
    scatterMost: 0.15,
    stepIfUnseen: 0.0625,
    timeConstant_s: 180,
  },
  humidity: {
    unit: '%RH',
    slopeMost_perMinute: 0.03,
    scatterMost: 0.5,
    stepIfUnseen: 0.1,
    timeConstant_s: 420,
  },
};

/**
 * Shortest time in a bath before it may count as rest, s. Salt: 20 min for small sensors, an hour for bulky ones
 * (T. Padfield); the others by judgement.
 */
export const SOAK_LEAST_s = { salt: 1200, ice: 180, 'boiling-water': 180, bath: 300 } as const;

export interface SettlingOptions {
  /** ms since the epoch: when the probe went into the bath. Readings before it do not count. */
  readonly since?: number;
  /** s; counts only with `since`. */
  readonly soakLeast_s?: number;
  /** Step of the probe's values, unit; else the smallest step seen among them. */
  readonly resolution?: number;
}

export interface Settling {
  readonly settled: boolean;
  /** One sentence for the technician. */
  readonly reason: string;
  /** s after the last reading; absent where it is unknown, and where the probe has settled. */
  readonly remaining_s?: number;
  /** What was judged; absent for too few readings. */
  readonly window?: SettlingWindow;
  /** What the probe shows in the bath; absent before its first reading there. */
  readonly shown?: { readonly count: number; readonly latest: BenchReading };
  /** When it can be judged; of a probe with too few readings, absent where these are too far apart for ever. */
  readonly earliest?: Earliest;
  /** Of a probe that its coarse steps keep from settling. */
  readonly stillness?: Stillness;
}

/** A day of a reading every 10 s, with room. */
const READINGS_MOST = 10_000;

/**
 * Judges the latest readings of a probe in a bath.
 *
 * @param readings at most 10,000, in order of time, each time once
 * @throws SandlarderError BAD_REQUEST for readings out of order; LIMIT_EXCEEDED; OUT_OF_DOMAIN for what is not finite
 */
export function settling(
  readings: readonly BenchReading[],
  rule: SettlingRule,
  options: SettlingOptions = {},
): Settling {
  checkReadings(readings, options);
  const { since = Number.NEGATIVE_INFINITY } = options;
  const inBath = readings.filter(({ time }) => time >= since);
  const latest = inBath.at(-1);
  return {
    ...standing(inBath, rule, options),
    ...(latest !== undefined && { shown: { count: inBath.length, latest } }),
  };
}

function standing(inBath: readonly BenchReading[], rule: SettlingRule, options: SettlingOptions): Settling {
  const ofProbe = stepOfProbe(inBath, rule, options.resolution);
  const windows = windowsOf(inBath).map((window) => {
    const seen = stepSeen(window);
    // Of a value that stands still more is not asked than of a usual sensor: see `stillnessFor`.
    const ofLine =
      seen === undefined
        ? Math.min(options.resolution ?? rule.stepIfUnseen, rule.stepIfUnseen)
        : (options.resolution ?? seen);
    return judged(window, { ...ofProbe, ofLine }, rule.timeConstant_s);
  });
  const rested = windows.find((window) => isAtRest(window, rule));
  const soak_s = soakLeft_s(inBath, options);
  const [shortest] = windows;
  if (rested !== undefined)
    return soak_s > 0
      ? soaking(rested, soak_s)
      : { settled: true, reason: rest(rested, rule), window: rested };
  return shortest === undefined
    ? tooFew(inBath, options.since, soak_s)
    : moving(inBath, shortest, rule, soak_s);
}

/** The step of a probe's values is the same wherever it stands: all readings in the bath tell of it. */
function stepOfProbe(
  inBath: readonly BenchReading[],
  { stepIfUnseen }: SettlingRule,
  given: number | undefined,
): Omit<Steps, 'ofLine'> {
  if (given !== undefined) return { ofProbe: given, from: 'given' };
  const seen = stepSeen(inBath);
  return seen === undefined ? { ofProbe: stepIfUnseen, from: 'usual' } : { ofProbe: seen, from: 'seen' };
}

function checkReadings(
  readings: readonly BenchReading[],
  { since = 0, soakLeast_s = 0, resolution = 0 }: SettlingOptions,
): void {
  if (!(readings.length <= READINGS_MOST))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `readings in a bath: expected at most ${READINGS_MOST}, got ${readings.length}`,
    );
  requireInDomain('start in the bath, ms,', since, 0, Number.MAX_SAFE_INTEGER);
  requireInDomain('shortest soak, s,', soakLeast_s, 0, 86_400);
  requireInDomain('resolution', resolution, 0, 10);
  let before = Number.NEGATIVE_INFINITY;
  for (const { time, value } of readings) {
    requireInDomain('time of a reading, ms,', time, 0, Number.MAX_SAFE_INTEGER);
    requireInDomain('value of a reading', value, -1000, 1000);
    if (!(time > before))
      throw new SandlarderError(
        'BAD_REQUEST',
        `readings in a bath: expected each later than the one before, got ${time} after ${before}`,
      );
    before = time;
  }
}

const isAtRest = (window: SettlingWindow, rule: SettlingRule): boolean =>
  window.slopeBound_perMinute <= rule.slopeMost_perMinute && window.scatter <= rule.scatterMost;

function soakLeft_s(inBath: readonly BenchReading[], { since, soakLeast_s = 0 }: SettlingOptions): number {
  if (since === undefined) return 0;
  const last = inBath.at(-1)?.time ?? since;
  return Math.max(0, soakLeast_s - (last - since) / 1000);
}

const spanOf = ({ from, to, count }: SettlingWindow): string =>
  `${count} readings over ${Math.round((to - from) / MINUTE_ms)} min`;

const inTenMinutes = (perMinute: number, unit: string): string =>
  `${Number((10 * perMinute).toPrecision(2))} ${unit} in 10 min`;

const rest = (window: SettlingWindow, { unit }: SettlingRule): string =>
  `Settled: ${spanOf(window)}, moving by less than ${inTenMinutes(window.slopeBound_perMinute, unit)}.`;

function tooFew(inBath: readonly BenchReading[], since: number | undefined, soak_s: number): Settling {
  const earliest = earliestFor(inBath, since, soak_s);
  const span_min = ((inBath.at(-1)?.time ?? 0) - (inBath[0]?.time ?? 0)) / MINUTE_ms;
  const wait = soak_s > 0 ? `; ${minutesMore(soak_s)} at least` : '';
  return {
    settled: false,
    reason:
      `Not judged yet: expected at least ${READINGS_LEAST} readings over ${WINDOWS_min[0]} to ${SPAN_MOST_min} min, ` +
      `got ${inBath.length} over ${Math.round(span_min)} min${wait}.`,
    ...(earliest !== undefined && { earliest }),
  };
}

function soaking(window: SettlingWindow, soak_s: number): Settling {
  return {
    settled: false,
    reason: `Quiet already, but not long enough in this bath: ${minutesMore(soak_s)}.`,
    remaining_s: soak_s,
    window,
  };
}

function moving(
  inBath: readonly BenchReading[],
  window: SettlingWindow,
  rule: SettlingRule,
  soak_s: number,
): Settling {
  const fitted_s = remaining_s(inBath, rule.slopeMost_perMinute, WINDOWS_min[0] * 60);
  const stillness = stillnessFor(inBath, window, rule, WINDOWS_min);
  if (stillness !== undefined) {
    const isMoving = Math.abs(window.slopePerMinute) > rule.slopeMost_perMinute;
    return steppy(window, rule, stillness, Math.max(soak_s, isMoving ? (fitted_s ?? 0) : 0));
  }
  const left_s = fitted_s === undefined ? undefined : Math.max(fitted_s, soak_s);
  const wait = left_s === undefined ? 'how long it takes is unknown' : minutesMore(left_s);
  return {
    settled: false,
    reason: `Not settled: it ${whatMoves(window, rule)} (${spanOf(window)}); ${wait}.`,
    ...(left_s !== undefined && { remaining_s: left_s }),
    window,
  };
}

function steppy(window: SettlingWindow, rule: SettlingRule, stillness: Stillness, least_s: number): Settling {
  const left_s = Math.max(stillness.left_s, least_s);
  return {
    settled: false,
    reason: `Not settled: ${stillnessWords(stillness, rule.unit)}; ${minutesMore(left_s)}.`,
    remaining_s: left_s,
    window,
    stillness,
  };
}

/** With as many digits as it takes not to read like the limit that it is above. */
function toldApart(value: number, limit: number): number {
  for (const digits of [2, 3, 4, 5]) {
    const rounded = Number(value.toPrecision(digits));
    if (rounded > limit) return rounded;
  }
  return value;
}

function whatMoves(window: SettlingWindow, { scatterMost, slopeMost_perMinute, unit }: SettlingRule): string {
  if (window.scatter > scatterMost)
    return `scatters by ${window.scatter.toPrecision(2)} ${unit}, more than ${scatterMost} ${unit}`;
  const bound = toldApart(10 * window.slopeBound_perMinute, 10 * slopeMost_perMinute);
  return `may still move by ${bound} ${unit} in 10 min, more than ${inTenMinutes(slopeMost_perMinute, unit)}`;
}
