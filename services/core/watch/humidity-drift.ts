/**
 * Humidity sensors that drift alone: one probe's daily humidity leaves those of its bed steadily, day after day, while
 * they stay together. Water comes otherwise: as a front, within hours, or to several probes.
 */
import { median } from 'simple-statistics';
import { DAY_ms, HOUR_ms } from '../model/time.js';
import { theilSen } from './sequential/index.js';

/** Days after filling or repacking in which roots wet the sand unevenly. */
const UNEVEN_days = 10;
/** Days that a trend is taken from, at the least and at the most; hours that a day needs. */
const LEAST_days = 4;
const MOST_days = 12;
const LEAST_hours = 12;
/** Of the trend's slope; of a drift the whole interval lies beyond `SLOPE_RH_per_day`. */
const CONFIDENCE = 0.95;
const SLOPE_RH_per_day = 0.15;
/** How far it must have come: judgement, twice what a sensor's data sheet allows it in half a year. */
const DEPARTED_RH = 2.5;
/** More than such a share of it in one day is a front or a jump, and no drift. */
const LEAP_share = 0.6;
/** The middle of the others may go by no more than such a share of it meanwhile, or the bed itself becomes damp. */
const OTHERS_share = 0.35;
/** Back by such a share of what it had departed by: over. */
const BACK_share = 0.5;

const DAY_h = 24;

interface Day {
  readonly day: number;
  /** %RH. */
  readonly mean: number;
}

interface ProbeState {
  sum: number;
  n: number;
  days: Day[];
  /** Start of its departure, ms, and by how much it had departed when it was told, %RH; null while it does not. */
  drift: { readonly since: number; readonly by_RH: number; readonly from_RH: number } | null;
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
 * Takes an hour; `state` goes on in place. A bed with fewer than three humidity probes has no middle to leave.
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

function closeDay(state: HumidityDriftState, packedAt: number): void {
  const { day, probes } = state;
  const settled = day * DAY_ms >= packedAt + UNEVEN_days * DAY_ms;
  for (const probe of Object.values(probes)) {
    if (settled && probe.n >= LEAST_hours) probe.days.push({ day, mean: probe.sum / probe.n });
    probe.days = probe.days.filter((one) => one.day > day - MOST_days);
    Object.assign(probe, { sum: 0, n: 0 });
  }
  for (const [id, probe] of Object.entries(probes)) judge(probe, othersOf(state, id));
}

/** By day: the middle of the other probes, %RH, where two or more measured. */
function othersOf({ probes }: HumidityDriftState, self: string): ReadonlyMap<number, number> {
  const byDay = new Map<number, number[]>();
  for (const [id, { days, drift }] of Object.entries(probes)) {
    if (id === self || drift) continue;
    for (const { day, mean } of days) byDay.set(day, [...(byDay.get(day) ?? []), mean]);
  }
  return new Map([...byDay].flatMap(([day, all]) => (all.length >= 2 ? [[day, median(all)] as const] : [])));
}

function judge(probe: ProbeState, others: ReadonlyMap<number, number>): void {
  const apart = probe.days.flatMap(({ day, mean }) => {
    const middle = others.get(day);
    return middle === undefined ? [] : [{ day, by: mean - middle, middle }];
  });
  const last = apart.at(-1);
  if (!last) return;
  if (probe.drift) {
    const { by_RH, from_RH } = probe.drift;
    if ((last.by - from_RH) / by_RH < BACK_share) probe.drift = null;
    return;
  }
  for (let days = LEAST_days; days <= apart.length; days += 1) {
    const span = apart.slice(-days);
    const first = span[0] as (typeof span)[number];
    if (
      drifts(
        span.map(({ day, by }) => [day, by] as const),
        last.middle - first.middle,
      )
    ) {
      probe.drift = { since: first.day * DAY_ms, by_RH: last.by - first.by, from_RH: first.by };
      return;
    }
  }
}

/** @param others_RH by how much the middle of the others went meanwhile */
function drifts(points: readonly (readonly [day: number, apart_RH: number])[], others_RH: number): boolean {
  const values = points.map(([, apart]) => apart);
  const departed = (values.at(-1) as number) - (values[0] as number);
  const size = Math.abs(departed);
  if (!(size >= DEPARTED_RH) || Math.abs(others_RH) > OTHERS_share * size) return false;
  const leap = Math.max(...values.slice(1).map((value, at) => Math.abs(value - (values[at] as number))));
  if (leap > LEAP_share * size) return false;
  const interval = theilSen(points, CONFIDENCE).slopeInterval;
  if (!interval) return false;
  return interval.low > SLOPE_RH_per_day || interval.high < -SLOPE_RH_per_day;
}
