/**
 * Has a probe come to rest in its bath? And if not, how long will it still take?
 *
 * A probe rests when the upper 95 % bound of its slope, steps of its resolution included, is below a limit, and the
 * scatter about the line is too. It is not enough that no slope is seen: few or noisy readings show none either.
 * The latest 5 minutes are tried first, then 10, then 20, each stretched back until it holds five readings, so that
 * a probe that publishes every 10 s is judged after 5 minutes and one that publishes every 10 minutes after 40.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import { remaining_s } from './settling-time.js';
import {
  type BenchReading,
  judged,
  MINUTE_ms,
  READINGS_LEAST,
  type SettlingWindow,
  SPAN_MOST_min,
  stepSeen,
  WINDOWS_min,
  windowsOf,
} from './settling-window.js';

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
  const windows = windowsOf(inBath).map((window) =>
    judged(window, options.resolution ?? stepSeen(window) ?? rule.stepIfUnseen, rule.timeConstant_s),
  );
  const rested = windows.find((window) => isAtRest(window, rule));
  const soak_s = soakLeft_s(inBath, options);
  const [shortest] = windows;
  if (rested === undefined)
    return shortest === undefined ? tooFew(inBath, soak_s) : moving(inBath, shortest, rule, soak_s);
  return soak_s > 0 ? soaking(rested, soak_s) : { settled: true, reason: rest(rested, rule), window: rested };
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

/** Whole minutes, rounded up: a technician who comes back too early waits twice. */
const inMinutes = (time_s: number): string => `about ${Math.max(1, Math.ceil(time_s / 60))} min more`;

const spanOf = ({ from, to, count }: SettlingWindow): string =>
  `${count} readings over ${Math.round((to - from) / MINUTE_ms)} min`;

const inTenMinutes = (perMinute: number, unit: string): string =>
  `${Number((10 * perMinute).toPrecision(2))} ${unit} in 10 min`;

const rest = (window: SettlingWindow, { unit }: SettlingRule): string =>
  `Settled: ${spanOf(window)}, moving by less than ${inTenMinutes(window.slopeBound_perMinute, unit)}.`;

function tooFew(inBath: readonly BenchReading[], soak_s: number): Settling {
  const span_min = ((inBath.at(-1)?.time ?? 0) - (inBath[0]?.time ?? 0)) / MINUTE_ms;
  const wait = soak_s > 0 ? `; ${inMinutes(soak_s)} at least` : '';
  return {
    settled: false,
    reason:
      `Not judged yet: expected at least ${READINGS_LEAST} readings over ${WINDOWS_min[0]} to ${SPAN_MOST_min} min, ` +
      `got ${inBath.length} over ${Math.round(span_min)} min${wait}.`,
  };
}

function soaking(window: SettlingWindow, soak_s: number): Settling {
  return {
    settled: false,
    reason: `Quiet already, but not long enough in this bath: ${inMinutes(soak_s)}.`,
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
  const left_s = fitted_s === undefined ? undefined : Math.max(fitted_s, soak_s);
  const wait = left_s === undefined ? 'how long it takes is unknown' : inMinutes(left_s);
  return {
    settled: false,
    reason: `Not settled: it ${whatMoves(window, rule)} (${spanOf(window)}); ${wait}.`,
    ...(left_s !== undefined && { remaining_s: left_s }),
    window,
  };
}

function whatMoves(window: SettlingWindow, { scatterMost, slopeMost_perMinute, unit }: SettlingRule): string {
  if (window.scatter > scatterMost)
    return `scatters by ${window.scatter.toPrecision(2)} ${unit}, more than ${scatterMost} ${unit}`;
  const bound = inTenMinutes(window.slopeBound_perMinute, unit);
  return `may still move by ${bound}, more than ${inTenMinutes(slopeMost_perMinute, unit)}`;
}
