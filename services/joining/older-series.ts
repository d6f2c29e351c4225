/**
 * Series of a time of which readings are not kept one by one any more: from the long archive where there is one, else by
 * hours.
 */
import type { Archive, Series, SeriesRow, Unused } from '../archive/index.js';
import { hourOf } from '../core/model/time.js';
import type { FlaggedValue, OlderReadings, OlderRows, ReadFrom } from '../http/index.js';
import type { SeriesParts } from './series-view.js';

interface Span {
  readonly from: number;
  readonly to: number;
}

/** What is asked of a long archive. */
export interface OlderReader {
  series(site: string, probe: string, span: Span, points: number, unused: Unused): Promise<Series>;
}

/** Flags of one probe that are read at the most. */
const MOST_FLAGS = 200_000;

/** Rows that a stretch has at the least, however short: both extremes of both quantities. */
const LEAST_rows = 4;

/** Times of the values that the watch does not use. */
export function unusedOf(flags: readonly Pick<FlaggedValue, 'at' | 'quantity'>[]): Unused {
  const times = (wanted: string): Set<number> =>
    new Set(flags.flatMap(({ at, quantity }) => (quantity === wanted ? [at] : [])));
  return { temperature: times('temperature'), humidity: times('humidity') };
}

/** Reads what the span has of that time. Where the long archive fails it is asked no more for this answer. */
export async function readOlder(
  reader: OlderReader | undefined,
  { archive, known, query }: SeriesParts,
): Promise<OlderReadings> {
  const probes = new Map<string, OlderRows>();
  if (!reader) return { probes, note: null };
  const asked = [...known.probes, ...known.shade].filter(
    ({ probe }) => query.probes?.includes(probe.id) ?? true,
  );
  try {
    for (const { probe, key } of asked) {
      const since = archive.fullRate.since(key);
      const span = { from: query.from, to: Math.min(query.to, since) };
      if (!(span.from < span.to) || probes.has(probe.id)) continue;
      const unused = unusedOf(archive.flags.shown(known.bed.id, key, span, MOST_FLAGS));
      const points = shareOf(query.points, span, query);
      const series = await reader.series(known.site.id, probe.id, span, points, unused);
      probes.set(probe.id, { ...series, upTo: span.to });
    }
    return { probes, note: null };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { probes, note: `the long archive does not answer (${why}): older readings are given by hours` };
  }
}

/** Of the points for a whole those that a part of its time may have. */
const shareOf = (points: number, part: Span, whole: Span): number =>
  Math.max(LEAST_rows, Math.floor((points * (part.to - part.from)) / (whole.to - whole.from)));

interface Asked {
  readonly key: number;
  readonly span: Span;
  readonly points: number;
  readonly unused: Unused;
}

interface Joined extends Series {
  readonly readFrom: ReadFrom[];
}

/** Rows of a span: by hours until the long archive begins, then its rows, then what is kept one by one. */
export function joinedRows(
  archive: Archive,
  { key, span, points, unused }: Asked,
  older: OlderRows | undefined,
): Joined {
  const since = archive.fullRate.since(key);
  const own = (from: number, to: number): Piece => {
    const read = () => archive.series.read(key, from, to, shareOf(points, { from, to }, span), unused);
    const { rows, thinned } = from < to ? read() : NOTHING;
    return { rows, thinned, readFrom: ownFrom({ from, to }, since) };
  };
  const within = (older?.rows ?? []).filter(({ time }) => time >= span.from && time < span.to);
  const [first] = within;
  if (!older || !first) return joined([own(span.from, span.to)]);
  const there: Piece = { rows: within, thinned: older.thinned, readFrom: ['long-archive'] };
  const begin = Math.max(span.from, hourOf(first.time));
  return joined([own(span.from, begin), there, own(Math.max(span.from, older.upTo), span.to)]);
}

interface Piece {
  readonly rows: readonly SeriesRow[];
  readonly thinned: boolean;
  readonly readFrom: readonly ReadFrom[];
}

const NOTHING: Series = { rows: [], thinned: false };

function ownFrom({ from, to }: Span, since: number): ReadFrom[] {
  return [...(from < since ? (['hours'] as const) : []), ...(to > since ? (['full-rate'] as const) : [])];
}

/** Where nothing was found nothing was read from; where nothing was found at all, it is said where it was looked for. */
function joined(pieces: readonly Piece[]): Joined {
  const found = pieces.filter(({ rows }) => rows.length > 0);
  const readFrom = (found.length > 0 ? found : pieces).flatMap((piece) => piece.readFrom);
  return {
    rows: pieces.flatMap(({ rows }) => rows),
    thinned: pieces.some(({ thinned }) => thinned),
    readFrom: [...new Set(readFrom)],
  };
}
