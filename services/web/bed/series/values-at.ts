/** What was measured and expected at a time, as it can be said of what is there to draw. */
import type { DoubtAnswer } from '../../api/types/series.js';
import { type Columns, type Flagged, placeOf } from './columns.js';
import type { SeriesModel } from './model.js';
import { HOUR_ms, MINUTE_ms } from './span.js';

/** From the least to the greatest around a time; both the same where every reading is there. */
export type Around = readonly [least: number, greatest: number];

export interface ValuesAt {
  readonly temperature?: Around | undefined;
  readonly uncertainty_C?: number | undefined;
  readonly doubt?: DoubtAnswer;
  readonly humidity?: Around | undefined;
  readonly expected_C?: number | undefined;
  readonly band_C?: number | undefined;
  readonly excess_C?: number | undefined;
  readonly flagged: readonly Flagged[];
}

/** Readings that lie further off say nothing of a time, where every reading is there. */
const NEAR_ms = 45 * MINUTE_ms;

export function valuesAt(model: SeriesModel, probe: string, at: number): ValuesAt {
  const piece = model.pieces(probe).find(({ clip }) => at >= clip.from && at <= clip.to);
  if (!piece) return { flagged: [] };
  const { columns } = piece;
  const place = nearest(columns.time, at);
  const near = Math.max(NEAR_ms, columns.thinned ? columns.gap_ms / 2 : 0);
  const isNear = place !== undefined && Math.abs((columns.time[place] as number) - at) <= near;
  return {
    ...(isNear && ofReading(columns, place, at)),
    ...ofHour(columns, at),
    flagged: columns.flagged.filter((flag) => Math.abs(flag.at - at) <= near),
  };
}

function nearest(time: Float64Array, at: number): number | undefined {
  if (time.length === 0) return undefined;
  const after = Math.min(placeOf(time, at), time.length - 1);
  const before = Math.max(0, after - 1);
  return at - (time[before] as number) < (time[after] as number) - at ? before : after;
}

function ofReading(columns: Columns, place: number, at: number): Partial<ValuesAt> {
  const { temperature, humidity, temperatureUncertainty, doubt } = columns;
  const uncertainty = temperatureUncertainty[place] as number;
  return {
    temperature: around(columns, temperature, place, at),
    humidity: around(columns, humidity, place, at),
    ...(!Number.isNaN(uncertainty) && { uncertainty_C: uncertainty }),
    doubt: doubt[place] ?? null,
  };
}

/** Of thinned readings the least and the greatest nearby stand for those between. */
function around({ time, thinned, gap_ms }: Columns, values: Float64Array, place: number, at: number) {
  const there = thinned
    ? values.subarray(placeOf(time, at - gap_ms / 2), placeOf(time, at + gap_ms / 2))
    : values.subarray(place, place + 1);
  const known = [...there].filter((value) => !Number.isNaN(value));
  return known.length === 0 ? undefined : ([Math.min(...known), Math.max(...known)] as const);
}

function ofHour({ hours }: Columns, at: number): Partial<ValuesAt> {
  const place = nearest(hours.time, at);
  const near = Math.max(HOUR_ms, hours.gap_ms / 2);
  if (place === undefined || Math.abs((hours.time[place] as number) - at) > near) return {};
  const known = (value: number | undefined): number | undefined =>
    value === undefined || Number.isNaN(value) ? undefined : value;
  return {
    expected_C: known(hours.expected[place]),
    band_C: known(hours.band[place]),
    excess_C: known(hours.excess[place]),
  };
}
