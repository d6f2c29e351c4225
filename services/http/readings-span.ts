/** From what a question for readings says, and leaves out, to the span that is read. */
import { SandlarderError } from '../core/errors.js';
import { DAY_ms, EARLIEST_TIME_ms, formatTime, HOUR_ms, hourOf } from '../core/model/time.js';
import { HTTP_LIMITS } from './limits.js';
import type { BedView, Health, SeriesQuery, TimeSpan } from './ports.js';
import type { ReadingsQuery } from './schemas/readings.js';

interface AskedSpan {
  readonly from?: number | undefined;
  readonly to?: number | undefined;
}

/**
 * Where the end is not given it is the end of the hour of the bed's newest reading (of the site's, or of the start
 * of the service, where the bed has none), and where the start is not given it is seven days before the end.
 *
 * @returns times in ms, from inclusive, to exclusive
 * @throws SandlarderError BAD_REQUEST where the end is not after the start; LIMIT_EXCEEDED for a longer span, or
 *   for more points of all probes together, than is answered
 */
export function readingsSpan(query: ReadingsQuery, bed: BedView, health: Health): SeriesQuery {
  const { probes } = query;
  const points = pointsOfEach(query.points, probes?.length ?? bed.probes.length + bed.formerProbes.length);
  return { ...spanOf(query, bed, health, HTTP_LIMITS.defaultSpan_days), points, ...(probes && { probes }) };
}

/** What is asked of the shade: the probes that are named, or all of it. */
export const shadeQuery = (asked: SeriesQuery, { shade }: ReadingsQuery): SeriesQuery =>
  shade ? { ...asked, probes: undefined } : asked;

/** The same for the daily swing, of which more days are usual. Throws as `readingsSpan`. */
export const swingSpan = (query: AskedSpan, bed: BedView, health: Health): TimeSpan =>
  spanOf(query, bed, health, HTTP_LIMITS.swingSpan_days);

function spanOf(query: AskedSpan, bed: BedView, health: Health, usual_days: number): TimeSpan {
  const newest = hourOf(newestReading(bed, health)) + HOUR_ms;
  // A start after the newest reading is answered, with nothing.
  const to = query.to ?? Math.max(newest, (query.from ?? 0) + 1);
  const from = query.from ?? Math.max(EARLIEST_TIME_ms, to - usual_days * DAY_ms);
  if (!(from < to))
    throw new SandlarderError(
      'BAD_REQUEST',
      `from: expected a time before to, ${formatTime(to)}, got ${formatTime(from)}`,
    );
  const { span_days } = HTTP_LIMITS;
  if (!(to - from <= span_days * DAY_ms))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `from and to must lie at most ${span_days} days apart, got ${Math.ceil((to - from) / DAY_ms)}`,
    );
  return { from, to };
}

function pointsOfEach(asked: number | undefined, probes: number): number {
  const most = Math.floor(HTTP_LIMITS.pointsTogether / Math.max(1, probes));
  const points = asked ?? Math.min(HTTP_LIMITS.points.usual, most);
  if (!(points <= most))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `points must be at most ${most} for the ${probes} probes that stand or stood in this bed, got ${points}`,
    );
  return points;
}

function newestReading(bed: BedView, health: Health): number {
  const times = bed.probes.flatMap(({ latest }) => (latest === null ? [] : [latest.at]));
  return times.length > 0 ? Math.max(...times) : (health.newestReadingAt ?? health.startedAt);
}
