/**
 * How much of the daily swing outside arrives at a bed's probes, day by day, from readings at rest. It goes by parts:
 * between them readings are taken in.
 */
import { setImmediate } from 'node:timers/promises';
import { median } from 'simple-statistics';
import { limitsOfBed, watchLimit } from '../core/keeping/index.js';
import { DAY_ms, HOUR_ms, hourOf } from '../core/model/time.js';
import {
  cover_cm,
  type DayShare,
  SHARE_HOURS,
  sharesOfDay,
  sharesThrough,
} from '../core/watch/dampness/index.js';
import type { ProbeSwing, SwingView, TimeSpan } from '../http/index.js';
import { type KnownBed, type KnownProbe, type Stay, staysInBed, staysInShade } from './directory.js';
import type { Station } from './station.js';

type Means = ReadonlyMap<number, number>;

/** A stay of a probe in the bed, with its hourly means. */
interface Standing {
  readonly probe: KnownProbe;
  readonly stay: Stay;
  readonly means: Means;
}

/** What a sensor in sand or shade can show, °C; anything else is a code. */
const USABLE = { least: -40, greatest: 80 } as const;

/** Days between two pauses: some milliseconds. */
const DAYS_AT_ONCE = 20;

/** @param span ms; days in UTC that end within it are answered */
export async function swingView(
  station: Station,
  known: KnownBed,
  { from, to }: TimeSpan,
): Promise<SwingView> {
  const span = { from: from - SHARE_HOURS * HOUR_ms, to };
  const shade = known.shade.filter((probe) => staysInShade(probe).some((stay) => meets(stay, span)));
  const outside = shade.length > 0 ? await shadeMeans(station, known, shade, span) : undefined;
  const standing = await standingIn(station, known, span);
  const days = outside ? daysIn(from, to) : [];
  const shares = await sharesOf(station, known, outside ?? new Map(), standing, days);
  const limits = limitsOfBed(known.site.thresholds, known.bed.thresholds);
  return {
    shade: shade.map(({ probe }) => probe.id),
    missing: outside
      ? null
      : 'No probe stood in the shade outside in these days, so that nobody knows how much the air there swings.',
    threshold: watchLimit('damp_swing_share', limits),
    probes: standing.map((one, at) => swingOf(known, one, days, shares[at] ?? [])),
  };
}

const meets = (stay: Stay, { from, to }: TimeSpan): boolean => stay.from < to && stay.to > from;

/** Ends of days in UTC: the watch fits the wave then, too. */
function daysIn(from: number, to: number): number[] {
  const days: number[] = [];
  for (let end = Math.floor(from / DAY_ms + 1) * DAY_ms; end <= to; end += DAY_ms) days.push(end);
  return days;
}

/** Corrected, of what the bed's watch uses. */
async function meansOf(
  station: Station,
  bed: string,
  probe: KnownProbe,
  stay: Stay,
  { from, to }: TimeSpan,
): Promise<Means> {
  await setImmediate();
  const span = { from: Math.max(from, stay.from), to: Math.min(to, stay.to) };
  return new Map(
    station.archive.means
      .hourly(probe.key, bed, span, USABLE)
      .map(([hour, mean]) => [hour, station.calibrations.correct(probe, 'temperature', hour, mean).value]),
  );
}

/** Of several shade probes the one in the middle, as the watch has it. */
async function shadeMeans(
  station: Station,
  { bed }: KnownBed,
  shade: readonly KnownProbe[],
  span: TimeSpan,
): Promise<Means> {
  const byHour = new Map<number, number[]>();
  for (const probe of shade)
    for (const stay of staysInShade(probe))
      for (const [hour, mean] of await meansOf(station, bed.id, probe, stay, span))
        byHour.set(hour, [...(byHour.get(hour) ?? []), mean]);
  return new Map([...byHour].map(([hour, values]) => [hour, median(values)]));
}

async function standingIn(station: Station, { bed, probes }: KnownBed, span: TimeSpan): Promise<Standing[]> {
  const standing: Standing[] = [];
  for (const probe of probes)
    for (const stay of staysInBed(probe, bed.id))
      if (meets(stay, span))
        standing.push({ probe, stay, means: await meansOf(station, bed.id, probe, stay, span) });
  return standing;
}

/** By probe, the shares of each day. */
async function sharesOf(
  station: Station,
  { bed }: KnownBed,
  outside: Means,
  standing: readonly Standing[],
  days: readonly number[],
): Promise<DayShare[][]> {
  const shares: DayShare[][] = standing.map(() => []);
  const [first = 0, last = 0] = [days[0], days.at(-1)];
  const opened = station.registry.inspections
    .between(bed.id, first - SHARE_HOURS * HOUR_ms, last)
    .flatMap((look) => (look.opened ? [hourOf(look.at)] : []));
  for (const [at, end] of days.entries()) {
    if (at % DAYS_AT_ONCE === 0) await setImmediate();
    const handledAt = Math.max(0, ...[...opened, bed.filled ?? 0].filter((time) => time < end));
    const hours = standing.map(({ means }) => hoursTo(end, means, handledAt));
    const ofDay = sharesOfDay(end, hoursTo(end, outside, 0), hours, bed.kind);
    for (const [probe, share] of ofDay.entries()) shares[probe]?.push(share);
  }
  return shares;
}

/** The newest last; none from before the bed was handled. */
const hoursTo = (end: number, means: Means, since: number): (number | null)[] =>
  Array.from({ length: SHARE_HOURS }, (_, at) => {
    const hour = end - (SHARE_HOURS - at) * HOUR_ms;
    return hour >= since ? (means.get(hour) ?? null) : null;
  });

/** Days on which the probe did not stand there are left out. */
function swingOf(
  { bed }: KnownBed,
  { probe, stay }: Standing,
  days: readonly number[],
  shares: readonly DayShare[],
): ProbeSwing {
  const { x, y, depth } = stay.placement ?? { x: 0, y: 0, depth: 0 };
  const cover = cover_cm(bed, { x, y, depth });
  const there = days.flatMap((time, at) => {
    const share = shares[at];
    return share && time > stay.from && time - DAY_ms < stay.to ? [{ time, ...share }] : [];
  });
  return {
    ...{ probe: probe.probe.id, x, y, depth, cover },
    lets: cover > 0 ? sharesThrough(cover, bed.kind) : null,
    time: there.map(({ time }) => time),
    share: there.map(({ share }) => share),
    uncertainty: there.map(({ uncertainty }) => uncertainty),
    atMost: there.map(({ atMost }) => atMost),
    because: there.map(({ because }) => because),
  };
}
