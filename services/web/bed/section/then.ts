/** What the probes of a bed said at a point in time: what was measured nearest to it, nothing in between made up. */
import type { Bed, Latest, Probe } from '../../api/types/bed.js';
import type { ProbeColumns, Readings } from '../../api/types/readings.js';

const HOUR_ms = 3_600_000;

/** A reading farther from the point in time is none of it, ms. */
export const NEAR_ms = HOUR_ms;

/** A probe at its place of that time, with what is known of it; null where nothing is. */
export interface ProbeThen extends Pick<Probe, 'id' | 'x' | 'y' | 'depth'> {
  readonly latest: Latest | null;
  readonly expected_C: number | null;
  readonly band_C: number | null;
  readonly excess_C: number | null;
  /** Why the watch does not use a value. */
  readonly flagged: readonly string[];
}

export const nowOf = ({ probes }: Bed): ProbeThen[] => probes.map((probe) => ({ ...probe, flagged: [] }));

/** The span to be asked for: as much on both sides as counts. */
export const spanAround = (at: number): { from: number; to: number } => ({
  from: at - NEAR_ms,
  to: at + NEAR_ms + 1,
});

/** The index of the time nearest to a point in time; the earlier of two, -1 where none is near. */
function nearest(times: readonly number[], at: number): number {
  let best = -1;
  times.forEach((time, index) => {
    const distance = Math.abs(time - at);
    if (distance <= NEAR_ms && (best < 0 || distance < Math.abs((times[best] as number) - at))) best = index;
  });
  return best;
}

/** The hour that is judged nearest to a point in time, by the middles of hours. */
const nearestHour = ({ hours }: ProbeColumns, at: number): number =>
  nearest(
    hours.time.map((start, index) =>
      hours.excess_C[index] == null ? Number.NaN : Date.parse(start) + HOUR_ms / 2,
    ),
    at,
  );

export function thenOf({ probes }: Readings, at: number): ProbeThen[] {
  const byProbe = new Map<string, ProbeThen>();
  for (const columns of probes) {
    const then = probeThen(columns, at);
    const known = byProbe.get(columns.probe);
    if (!known || distanceOf(then, at) < distanceOf(known, at)) byProbe.set(columns.probe, then);
  }
  return [...byProbe.values()];
}

const distanceOf = ({ latest }: ProbeThen, at: number): number =>
  latest ? Math.abs(Date.parse(latest.at) - at) : Number.POSITIVE_INFINITY;

function probeThen(columns: ProbeColumns, at: number): ProbeThen {
  const { probe: id, x, y, depth, hours, flagged } = columns;
  const hour = nearestHour(columns, at);
  const near = flagged.filter((flag) => Math.abs(Date.parse(flag.at) - at) <= NEAR_ms);
  return {
    ...{ id, x, y, depth, latest: readingAt(columns, at) },
    expected_C: hours.expected_C[hour] ?? null,
    band_C: hours.band_C[hour] ?? null,
    excess_C: hours.excess_C[hour] ?? null,
    flagged: [...new Set(near.map(({ reason }) => reason))],
  };
}

function readingAt(columns: ProbeColumns, at: number): Latest | null {
  const index = nearest(columns.time.map(Date.parse), at);
  if (index < 0) return null;
  const known = <Value>(name: string, value: Value | null | undefined) =>
    value == null ? {} : { [name]: value };
  return {
    at: columns.time[index] as string,
    ...known('temperature_C', columns.temperature_C[index]),
    ...known('temperatureUncertainty_C', columns.temperatureUncertainty_C[index]),
    ...known('temperatureDoubt', columns.temperatureDoubt[index]),
    ...known('humidity_RH', columns.humidity_RH[index]),
    ...known('humidityUncertainty_RH', columns.humidityUncertainty_RH[index]),
    ...known('humidityDoubt', columns.humidityDoubt[index]),
  };
}
