/**
 * Humidity sensors that drift alone: one probe's daily humidity leaves those of its bed steadily, day after day, while
 * they stay together. Water comes otherwise: as a front, within hours, or to several probes.
 */
import { median } from 'simple-statistics';
import { DAY_ms, HOUR_ms } from '../model/time.js';
import { robustScale, theilSen } from './sequential/index.js';

/** Days after filling or repacking in which roots wet the sand unevenly. */
const UNEVEN_days = 10;
/** Days that a trend is taken from, at the least and at the most; hours that a day needs. */
const LEAST_days = 4;
const MOST_days = 14;
const LEAST_hours = 12;
/** Days before the trend that what is usual is known by, at the least and at the most. */
const LEAST_usual_days = 5;
const MOST_usual_days = 14;
/** Of the trend's slope; of a drift the whole interval lies beyond `SLOPE_RH_per_day`. */
const CONFIDENCE = 0.95;
const SLOPE_RH_per_day = 0.15;
/**
 * How far it must have come: judgement, above what the humidity of one place in sound sand wanders by within weeks, and
 * so many times what this one does, but that is taken as no less than `SCATTER_RH`.
 */
const DEPARTED_RH = 4;
const SCATTERS = 4;
const SCATTER_RH = 0.4;
/** Share of it that the trend must carry. */
const TREND_share = 0.6;
/** Days at the end whose middle says how far it is. */
const END_days = 3;
/** More than such a share of it in one day is a front or a jump, and no drift. */
const LEAP_share = 0.6;
/** The middle of the others may go by no more than such a share of it meanwhile, or the bed itself becomes damp. */
const OTHERS_share = 0.35;
/** Back by such a share of what it had departed by: over. */
const BACK_share = 0.5;

const DAY_h = 24;

/** Kept values are short in a checkpoint: 0.01 %RH is far below what a sensor tells. */
const toHundredths = (value: number): number => Math.round(value * 100) / 100 + 0;

interface Day {
  readonly day: number;
  /** %RH. */
  readonly mean: number;
}

/** When it began, ms; what it had been above the others by then, and by how much it had departed when told, %RH. */
interface Drift {
  readonly since: number;
  readonly usual_RH: number;
  readonly by_RH: number;
}

interface ProbeState {
  sum: number;
  n: number;
  days: Day[];
  drift: Drift | null;
}

export interface HumidityDriftState {
  day: number;
  probes: Record<string, ProbeState>;
}

export interface HumidityHour {
  /** Start, ms. */
  readonly hour: number;
  /** By probe: usable mean of the hour, %RH. */
  readonly means: ReadonlyMap<string, number>;
  /** When the bed was filled or repacked last, ms. */
  readonly packedAt: number;
}

export const newHumidityDrift = (): HumidityDriftState => ({ day: -1, probes: {} });

/**
 * Takes an hour; `state` goes on in place. Of two probes the one that
 * moves is told while the other stays.
 *
 * @returns by probe whose humidity drifts alone: since when, ms
 */
export function takeHumidityHour(
  state: HumidityDriftState,
  { hour, means, packedAt }: HumidityHour,
): ReadonlyMap<string, number> {
  const day = Math.floor(hour / (DAY_h * HOUR_ms));
  if (day !== state.day) {
    closeDay(state, packedAt);
    state.day = day;
  }
  for (const [id, mean] of means) {
    state.probes[id] ??= { sum: 0, n: 0, days: [], drift: null };
    const probe = state.probes[id];
    probe.sum += mean;
    probe.n += 1;
  }
  return new Map(
    Object.entries(state.probes).flatMap(([id, { drift }]) => (drift === null ? [] : [[id, drift.since]])),
  );
}

/** Whoever looks may have changed the sensor, and has opened the sand: all begins again. */
export function humidityLookedAfter(state: HumidityDriftState): void {
  state.probes = {};
}

/** What is remembered of a probe, as if its values had been higher by so much all along, %RH. */
export function shiftHumidityDrift({ probes }: HumidityDriftState, id: string, by_RH: number): void {
  const probe = probes[id];
  if (!probe) return;
  probe.sum += probe.n * by_RH;
  probe.days = probe.days.map(({ day, mean }) => ({ day, mean: toHundredths(mean + by_RH) }));
  probe.drift = null;
}

function closeDay(state: HumidityDriftState, packedAt: number): void {
  const { day, probes } = state;
  const settled = day * DAY_ms >= packedAt + UNEVEN_days * DAY_ms;
  for (const probe of Object.values(probes)) {
    if (settled && probe.n >= LEAST_hours) probe.days.push({ day, mean: toHundredths(probe.sum / probe.n) });
    probe.days = probe.days.filter((one) => one.day > day - MOST_days - MOST_usual_days);
    Object.assign(probe, { sum: 0, n: 0 });
  }
  for (const [id, probe] of Object.entries(probes)) judge(probe, othersOf(state, id));
}

/** By day: the middle of the other probes that do not drift, %RH. */
function othersOf({ probes }: HumidityDriftState, self: string): ReadonlyMap<number, number> {
  const byDay = new Map<number, number[]>();
  for (const [id, { days, drift }] of Object.entries(probes)) {
    if (id === self || drift) continue;
    for (const { day, mean } of days) byDay.set(day, [...(byDay.get(day) ?? []), mean]);
  }
  return new Map([...byDay].map(([day, all]) => [day, median(all)]));
}

/** A day's humidity above the middle of the others, and that middle, %RH. */
interface Apart {
  readonly day: number;
  readonly by: number;
  readonly middle: number;
}

const middleOf = (days: readonly Apart[], part: 'by' | 'middle'): number =>
  median(days.map((one) => one[part]));

function judge(probe: ProbeState, others: ReadonlyMap<number, number>): void {
  const apart = probe.days.flatMap(({ day, mean }) => {
    const middle = others.get(day);
    return middle === undefined ? [] : [{ day, by: mean - middle, middle }];
  });
  const last = apart.at(-1);
  if (!last) return;
  if (probe.drift) {
    const { by_RH, usual_RH } = probe.drift;
    if (Math.abs(last.by - usual_RH) < BACK_share * by_RH) probe.drift = null;
    return;
  }
  const longest = Math.min(MOST_days, apart.length - LEAST_usual_days);
  for (let days = LEAST_days; days <= longest && !probe.drift; days += 1) {
    const usual = apart.slice(Math.max(0, apart.length - days - MOST_usual_days), -days);
    probe.drift = driftIn(apart.slice(-days), usual);
  }
}

function driftIn(span: readonly Apart[], usual: readonly Apart[]): Drift | null {
  const { median: usual_RH, deviation } = robustScale(usual.map(({ by }) => by));
  const departed_RH = middleOf(span.slice(-END_days), 'by') - usual_RH;
  const [size, up] = [Math.abs(departed_RH), Math.sign(departed_RH)];
  const needed_RH = Math.max(DEPARTED_RH, SCATTERS * Math.max(SCATTER_RH, deviation));
  if (!(size >= needed_RH)) return null;
  const [first, last] = [span[0] as Apart, span.at(-1) as Apart];
  if (Math.abs(last.middle - middleOf(usual, 'middle')) > OTHERS_share * size) return null;
  const steps = span.slice(1).map(({ by }, at) => Math.abs(by - (span[at] as Apart).by));
  if (Math.max(...steps) > LEAP_share * size) return null;
  const { slope, slopeInterval } = theilSen(
    span.map(({ day, by }) => [day, up * by] as const),
    CONFIDENCE,
  );
  const carried_RH = slope * (span.length - 1);
  if (!slopeInterval || slopeInterval.low < SLOPE_RH_per_day || carried_RH < TREND_share * needed_RH)
    return null;
  return { since: first.day * DAY_ms, usual_RH, by_RH: size };
}
