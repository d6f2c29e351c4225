/**
 * A made-up season for tests of the watch: weather, sand that follows it slowly, and what is planted in it.
 *
 * Far simpler than sand: every probe is a first-order lag of the shade plus the warmth of sound roots. It shares
 * nothing with the watch or the simulator.
 */
import type { Inspection } from '../../../services/core/model/inspection.js';
import type { BedPlacement } from '../../../services/core/model/site.js';
import { type ThresholdOverrides, thresholdsInForce } from '../../../services/core/model/threshold.js';
import { DAY_ms, HOUR_ms } from '../../../services/core/model/time.js';
import type { BedHour, HourSummary, ProbeHour, WatchedBed } from '../../../services/core/watch/watch.js';

/** 2026-05-04T00:00:00Z. */
export const START = 1_777_852_800_000;

/** Deterministic numbers in [0, 1): a 32-bit multiplicative generator with a mixing step. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
  };
}

/** Standard normal numbers, Box and Muller. */
function normalFrom(seed: number): () => number {
  const random = randomFrom(seed);
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

export interface Season {
  readonly seed: number;
  readonly days: number;
  /** How many of PLACES carry a probe. */
  readonly probes: number;
  readonly shade: boolean;
  /** Change of the shade's mean over the season, °C a day. */
  readonly drift_C_per_day: number;
  /** A hot spell in the shade. */
  readonly hotSpell?: { readonly fromDay: number; readonly days: number; readonly by_C: number };
  /** A rot-like source 10 cm from a probe: a ramp there, less at the others as 1/r. */
  readonly rot?: {
    readonly probe: number;
    readonly fromDay: number;
    readonly days: number;
    readonly to_C: number;
  };
  /** %RH over time at a probe; about 85 otherwise. */
  readonly humidity?: (probe: number, day: number) => number | undefined;
  /** Whether a probe is silent. */
  readonly silent?: (probe: number, day: number) => boolean;
  readonly shadeSilent?: (day: number) => boolean;
  readonly inspections?: readonly {
    readonly day: number;
    readonly opened: boolean;
    readonly repacked: boolean;
  }[];
}

export const QUIET: Season = { seed: 1, days: 150, probes: 6, shade: true, drift_C_per_day: 0.06 };

/** Where the probes stand, cm, and how long the sand there takes to follow the shade, days. */
const PLACES = [
  { x: 30, y: 25, depth: 20, lag_days: 2 },
  { x: 75, y: 50, depth: 35, lag_days: 4 },
  { x: 120, y: 25, depth: 20, lag_days: 2.2 },
  { x: 45, y: 50, depth: 45, lag_days: 5 },
  { x: 105, y: 50, depth: 45, lag_days: 5.5 },
  { x: 75, y: 25, depth: 30, lag_days: 3.3 },
] as const;

type Spot = (typeof PLACES)[number];

export const idOf = (probe: number): string => `p0${probe + 1}`;

const summary = (mean: number): HourSummary => ({ count: 6, mean, min: mean - 0.1, max: mean + 0.1 });

/** The bed that the season is lived in. */
export function bedFor(season: Season, overrides: ThresholdOverrides = {}): WatchedBed {
  const placed = PLACES.slice(0, season.probes).map(({ x, y, depth }, probe): [string, BedPlacement[]] => [
    idOf(probe),
    [{ bed: 'pit-a', x, y, depth, from: START }],
  ]);
  return {
    bed: {
      id: 'pit-a',
      name: 'Pit A',
      kind: 'stepped-pit',
      steps: [
        { length: 150, width: 100, height: 25 },
        { length: 150, width: 60, height: 25 },
      ],
      filled: START,
    },
    thresholds: thresholdsInForce(overrides),
    placements: new Map(placed),
  };
}

const distance_cm = (one: Spot, other: Spot): number =>
  Math.hypot(one.x - other.x, one.y - other.y, one.depth - other.depth);

/** Share of the source's warmth at the hot probe that a probe feels: 1/r of a point source [C]. */
function shareAt(spot: Spot, hot: Spot): number {
  const SOURCE_cm = 10;
  return spot === hot ? 1 : SOURCE_cm / distance_cm(spot, hot);
}

function rotWarmth_C({ rot }: Season, probe: number, day: number): number {
  const hot = rot && PLACES[rot.probe];
  const spot = PLACES[probe];
  if (!rot || !hot || !spot) return 0;
  const grown = Math.min(1, Math.max(0, (day - rot.fromDay) / rot.days));
  return rot.to_C * grown * shareAt(spot, hot);
}

/** Hourly shade: drift, daily wave of ±6 °C, spells of some days (1.5 °C, memory 3 days), the hot spell. */
function weather(season: Season): (hour: number) => number {
  const normal = normalFrom(season.seed);
  const kept = Math.exp(-1 / 72);
  let spell_C = 0;
  return (hour) => {
    const day = hour / 24;
    spell_C = spell_C * kept + 1.5 * Math.sqrt(1 - kept * kept) * normal();
    const { fromDay = 0, days = 0, by_C = 0 } = season.hotSpell ?? {};
    const hot_C = day >= fromDay && day < fromDay + days ? by_C : 0;
    const daily_C = 6 * Math.sin((2 * Math.PI * (hour - 8)) / 24);
    return 20 + season.drift_C_per_day * day + daily_C + spell_C + hot_C + 0.3 * normal();
  };
}

/** Every hour of the season, in order. */
export function hoursOf(season: Season): BedHour[] {
  const shadeAt = weather(season);
  const noise = normalFrom(season.seed + 1000);
  const spots = PLACES.slice(0, season.probes);
  const sand_C = spots.map(() => 20);
  return Array.from({ length: season.days * 24 }, (_, index) => {
    const day = index / 24;
    const shade_C = shadeAt(index);
    const probes = new Map<string, ProbeHour>();
    spots.forEach(({ lag_days }, probe) => {
      const before_C = sand_C[probe] ?? 20;
      sand_C[probe] = before_C + (shade_C - before_C) / (lag_days * 24);
      if (season.silent?.(probe, day)) return;
      const roots_C = (1 + 0.4 * lag_days) * (0.7 + 0.3 * Math.exp(-day / 30));
      const measured_C = (sand_C[probe] ?? 20) + roots_C + rotWarmth_C(season, probe, day) + 0.05 * noise();
      const humidity_RH = season.humidity ? season.humidity(probe, day) : 85 + 0.5 * noise();
      probes.set(idOf(probe), {
        temperature: summary(measured_C),
        ...(humidity_RH !== undefined && { humidity: summary(humidity_RH) }),
      });
    });
    const hour = START + index * HOUR_ms;
    return {
      hour,
      probes,
      ...(season.shade && !season.shadeSilent?.(day) && { shade: { temperature: summary(shade_C) } }),
      inspections: inspectionsIn(season, hour),
    };
  });
}

function inspectionsIn({ inspections = [] }: Season, hour: number): Inspection[] {
  return inspections
    .map(({ day, opened, repacked }) => ({ at: START + day * DAY_ms, opened, repacked }))
    .filter(({ at }) => at >= hour && at < hour + HOUR_ms)
    .map((inspection) => ({
      ...inspection,
      id: `i-${inspection.at}`,
      bed: 'pit-a',
      by: 'keeper-1',
      found: ['nothing'],
    }));
}

export const dayOf = (at: number): number => (at - START) / DAY_ms;
