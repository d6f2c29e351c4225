/** The point in time that is looked at, and the window in view: one for the cut and the plots of a bed. */
import type { Bed } from '../api/types/bed.js';
import { changes } from '../parts/changes.js';
import { useHeard } from '../parts/heard.js';

/** Event times, ms: from inclusive, to exclusive. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

export interface Looked {
  /** Event time, ms; undefined looks at what was measured last, and moves on with it. */
  readonly at: number | undefined;
  /** Undefined: the whole season. */
  readonly window: Span | undefined;
}

export interface Cursor {
  now(): Looked;
  lookAt(at: number | undefined): void;
  show(window: Span | undefined): void;
  /** Calls at every change; gives what stops that. */
  hear(listener: (looked: Looked) => void): () => void;
}

export function createCursor(): Cursor {
  let looked: Looked = { at: undefined, window: undefined };
  const told = changes<Looked>();
  const change = (next: Looked): void => {
    looked = next;
    told.tell(next);
  };
  return {
    now: () => looked,
    lookAt: (at) => {
      if (at !== looked.at) change({ ...looked, at });
    },
    show: (window) => change({ ...looked, window }),
    hear: told.hear,
  };
}

/** What is looked at, as it changes. */
export function useLooked(cursor: Cursor): Looked {
  return useHeard(cursor, () => cursor.now());
}

/** Of a bed that nobody said was filled, so many days are looked back at, ms. */
const USUAL_ms = 42 * 24 * 3_600_000;

/**
 * From when the bed was filled to its newest reading, or until its last probe left; undefined before the first reading of
 * that filling.
 */
export function seasonOf({
  filled,
  probes,
  formerProbes = [],
}: Pick<Bed, 'filled' | 'probes' | 'formerProbes'>): Span | undefined {
  const newest = Math.max(
    ...probes.map(({ latest }) => (latest ? Date.parse(latest.at) : 0)),
    ...formerProbes.map(({ until }) => Date.parse(until)),
  );
  if (!(newest > 0)) return undefined;
  const from = filled === null ? newest - USUAL_ms : Date.parse(filled);
  return from < newest ? { from, to: newest + 1 } : undefined;
}
