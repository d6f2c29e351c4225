/** Between which values a plot is drawn. */
import { placesIn } from './pen.js';
import type { Span } from './span.js';

export interface Range {
  readonly least: number;
  readonly greatest: number;
}

export interface Extent {
  readonly time: Float64Array;
  readonly value: Float64Array;
  /** Half of a band around it. */
  readonly half?: Float64Array;
  readonly clip: Span;
}

/**
 * A range that holds all values, in whole steps, so that it does not tremble while the view moves.
 *
 * @param step the range begins and ends at whole ones
 * @param usual what is shown where nothing is there, and at the least
 */
export function rangeOf(extents: readonly Extent[], step: number, usual: Range): Range {
  let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { time, value, half, clip } of extents) {
    const [first, end] = placesIn(time, clip);
    for (let at = first; at < end; at += 1) {
      const shown = value[at] as number;
      const spread = half?.[at] ?? 0;
      if (shown - spread < least) least = shown - spread;
      if (shown + spread > greatest) greatest = shown + spread;
    }
  }
  if (!(least <= greatest)) return usual;
  const widened = { least: step * Math.floor(least / step), greatest: step * Math.ceil(greatest / step) };
  const lacks = usual.greatest - usual.least - (widened.greatest - widened.least);
  if (!(lacks > 0)) return widened;
  const below = step * Math.ceil(lacks / 2 / step);
  return { least: widened.least - below, greatest: widened.greatest + below };
}
