/** Asks what the probes said at the point in time that is looked at, as it moves. */
import { useEffect, useState } from 'preact/hooks';
import { ask } from '../../api/client.js';
import type { Bed } from '../../api/types/bed.js';
import type { Readings } from '../../api/types/readings.js';
import { messageOf } from '../../parts/form.js';
import { nowOf, type ProbeThen, spanAround, thenOf } from './then.js';

/** Rest before a point in time is asked for, ms: while the handle is on its way nothing is. */
const REST_ms = 120;
/** Points in time that are remembered, and readings of each probe in one answer: two hours of one a minute. */
const MOST_KEPT = 300;
const POINTS = 200;

export interface Then {
  /** Undefined until it is there. */
  readonly probes: readonly ProbeThen[] | undefined;
  /** Why it is not. */
  readonly failed: string | undefined;
}

/** @param at event time, ms; undefined: what the bed says now */
export function useThen(bed: Bed, at: number | undefined): Then {
  const [kept] = useState(() => new Map<number, readonly ProbeThen[]>());
  const [failed, setFailed] = useState<{ at: number; why: string }>();
  const [, arrived] = useState(0);
  useEffect(() => {
    if (at === undefined || kept.has(at)) return undefined;
    const stopped = new AbortController();
    const timer = setTimeout(() => {
      ask<Readings>(pathOf(bed.id, at), { signal: stopped.signal }).then(
        (readings) => {
          if (kept.size >= MOST_KEPT) kept.clear();
          kept.set(at, thenOf(readings, at));
          arrived((count) => count + 1);
        },
        (error: unknown) => {
          if (!stopped.signal.aborted) setFailed({ at, why: messageOf(error) });
        },
      );
    }, REST_ms);
    return () => {
      clearTimeout(timer);
      stopped.abort();
    };
  }, [bed.id, at, kept]);
  if (at === undefined) return { probes: nowOf(bed), failed: undefined };
  return { probes: kept.get(at), failed: failed?.at === at ? failed.why : undefined };
}

function pathOf(bed: string, at: number): string {
  const { from, to } = spanAround(at);
  const query = new URLSearchParams({
    from: new Date(from).toISOString(),
    to: new Date(to).toISOString(),
    points: String(POINTS),
  });
  return `/api/beds/${encodeURIComponent(bed)}/readings?${query}`;
}
