/** Spans of time that the plots show: how they are moved, and made shorter and longer. */

import type { Span } from '../cursor.js';

export type { Span } from '../cursor.js';

export const MINUTE_ms = 60_000;
export const HOUR_ms = 60 * MINUTE_ms;
export const DAY_ms = 24 * HOUR_ms;

/** Nothing happens in sand that a shorter span would show better. */
export const SHORTEST_ms = 3 * HOUR_ms;

/** Spans that have a button; the whole season is as long as it is. */
export const LENGTHS_ms = { month: 30 * DAY_ms, week: 7 * DAY_ms, day: DAY_ms } as const;
export type Length = keyof typeof LENGTHS_ms | 'season';

export const lengthOf = ({ from, to }: Span): number => to - from;

/** The same length, moved so far that it lies within; the whole where it is longer. */
export function within(span: Span, whole: Span): Span {
  const length = lengthOf(span);
  if (length >= lengthOf(whole)) return whole;
  const from = Math.min(Math.max(span.from, whole.from), whole.to - length);
  return { from, to: from + length };
}

/** Moved by a share of its length; later where positive. */
export const moved = (span: Span, share: number, whole: Span): Span =>
  within({ from: span.from + share * lengthOf(span), to: span.to + share * lengthOf(span) }, whole);

/**
 * Made longer (factor above 1) or shorter; what stands at `at` stays where it is.
 *
 * @param at ms
 */
export function zoomed(span: Span, factor: number, at: number, whole: Span): Span {
  const longest = lengthOf(whole);
  const length = Math.min(longest, Math.max(Math.min(SHORTEST_ms, longest), factor * lengthOf(span)));
  const share = (at - span.from) / lengthOf(span);
  const from = at - share * length;
  return within({ from, to: from + length }, whole);
}

/** A span of a length that has a button, with the same end as before where that was the newest, else the same middle. */
export function ofLength(length: Length, span: Span, whole: Span): Span {
  if (length === 'season') return whole;
  const wanted = Math.min(LENGTHS_ms[length], lengthOf(whole));
  if (span.to >= whole.to) return { from: whole.to - wanted, to: whole.to };
  const middle = (span.from + span.to) / 2;
  return within({ from: middle - wanted / 2, to: middle + wanted / 2 }, whole);
}

/** Which button tells of this span; undefined for one in between. */
export function lengthNamed(span: Span, whole: Span): Length | undefined {
  const length = lengthOf(span);
  if (length >= lengthOf(whole)) return 'season';
  return (['month', 'week', 'day'] as const).find((name) => Math.abs(LENGTHS_ms[name] - length) < MINUTE_ms);
}

export const isSame = (one: Span, other: Span): boolean => one.from === other.from && one.to === other.to;
