/**
 * Probes that no longer lie in sand: the shade's day comes to them nearly whole and at once, where sand let little of it
 * through, and late.
 */
import { HOUR_ms } from '../model/time.js';

const DAY_h = 24;

/** Hours of a day in which probe and shade must have measured; the least standard deviation of the shade, °C. */
const LEAST_hours = 18;
const LEAST_shade_C = 1.5;
/**
 * Out of the sand: as much of the shade's day at once, so well explained by it, and so many times what was usual. Back
 * in it: no more than that. Judgement: under 10 cm of dry sand a third comes through, two hours late; the air of a hut
 * comes two hours late too, but nearly whole, and 0.75 of it is explained.
 */
const OUT_share = 0.55;
const OUT_explained = 0.6;
const OUT_times = 2.2;
const BACK_share = 0.4;
/** Days by which what is usual is known, and how fast it is followed. */
const KNOWN_days = 3;
const RATE = 0.15;

/** Of a day: hours, and sums of the shade x and the probe y, each less the first of the day. */
interface Sums {
  readonly first: readonly [x: number, y: number];
  readonly n: number;
  readonly x: number;
  readonly y: number;
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

interface ProbeState {
  sums: Sums | null;
  /** Usual share of the shade's day, and days that it was taken from. */
  usual: number;
  days: number;
  /** Start of the day in which it seemed to be out, ms; null while it lies in sand. */
  since: number | null;
  /** It seemed to be out for a day in which others did, and that is not told: it may have been a bed that lay open. */
  doubted: boolean;
}

export interface SandState {
  day: number;
  readonly probes: Record<string, ProbeState>;
}

export interface SandHour {
  /** Start, ms. */
  readonly hour: number;
  /** By probe: mean of the hour, °C; absent where it measured nothing that can be used. */
  readonly means: ReadonlyMap<string, number>;
  /** Mean of the shade, °C. */
  readonly shade_C: number | undefined;
}

/** Before the first hour. */
export const newSandState = (): SandState => ({ day: -1, probes: {} });

/**
 * Takes an hour; `state` goes on in place. Without a shade probe nothing is found.
 *
 * @returns by probe that was pulled out of its sand: since when, ms
 */
export function takeSandHour(
  state: SandState,
  { hour, means, shade_C }: SandHour,
): ReadonlyMap<string, number> {
  const day = Math.floor(hour / (DAY_h * HOUR_ms));
  if (day !== state.day) {
    closeDay(Object.values(state.probes), state.day * DAY_h * HOUR_ms);
    state.day = day;
  }
  if (shade_C !== undefined)
    for (const [id, mean] of means) {
      state.probes[id] ??= { sums: null, usual: 0, days: 0, since: null, doubted: false };
      const probe = state.probes[id];
      probe.sums = added(probe.sums, shade_C, mean);
    }
  return new Map(
    Object.entries(state.probes).flatMap(([id, { since }]) => (since === null ? [] : [[id, since]])),
  );
}

/** Whoever looks puts a probe back: what was thought of it is forgotten, and a bed that lay open makes no day. */
export function lookedAfter(state: SandState): void {
  for (const probe of Object.values(state.probes)) Object.assign(probe, { since: null, sums: null });
}

/** A probe whose values jump for a known reason: the day that is under way is not judged. */
export function sandShifted(state: SandState, id: string): void {
  const probe = state.probes[id];
  if (probe) probe.sums = null;
}

function added(before: Sums | null, shade: number, mean: number): Sums {
  const { first, n, ...sums } = before ?? { first: [shade, mean], n: 0, x: 0, y: 0, xx: 0, xy: 0, yy: 0 };
  const [x, y] = [shade - first[0], mean - first[1]];
  return {
    ...{ first, n: n + 1, x: sums.x + x, y: sums.y + y },
    ...{ xx: sums.xx + x * x, xy: sums.xy + x * y, yy: sums.yy + y * y },
  } as Sums;
}

/** Share of the shade's day that the probe shows at once, and how much of its own day that explains. */
function shareOf({ n, x, y, xx, xy, yy }: Sums): { share: number; explained: number } | undefined {
  const ofShade = xx / n - (x / n) ** 2;
  const ofProbe = yy / n - (y / n) ** 2;
  const both = xy / n - (x / n) * (y / n);
  if (n < LEAST_hours || !(ofShade >= LEAST_shade_C ** 2)) return undefined;
  return { share: both / ofShade, explained: ofProbe > 0 ? (both * both) / (ofShade * ofProbe) : 0 };
}

function closeDay(probes: readonly ProbeState[], dayStart: number): void {
  const out = probes.filter((probe) => judge(probe) && probe.since === null);
  for (const probe of out)
    if (out.length === 1 || probe.doubted) probe.since = dayStart;
    else probe.doubted = true;
  for (const probe of probes) if (!out.includes(probe)) probe.doubted = false;
}

/** Whether a probe seems to be out of its sand in the day that ends; learns what is usual from one that is not. */
function judge(probe: ProbeState): boolean {
  const found = probe.sums ? shareOf(probe.sums) : undefined;
  probe.sums = null;
  if (!found) return false;
  const { share, explained } = found;
  const isOut =
    probe.days >= KNOWN_days &&
    share > OUT_share &&
    share > OUT_times * probe.usual &&
    explained > OUT_explained;
  if (isOut || (probe.since !== null && share > BACK_share)) return isOut;
  probe.since = null;
  probe.usual += Math.max(RATE, 1 / (probe.days + 1)) * (Math.max(0, share) - probe.usual);
  probe.days += 1;
  return false;
}
