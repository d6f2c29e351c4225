/**
 * Which parts of a probe's series are asked for. Time is cut into tiles of 1, 2, 4 ... days; a span is shown by the tiles
 * of the shortest kind that is as long as it, so that two of them cover it and panning asks for the next ones only.
 */
import { DAY_ms, lengthOf, type Span } from './span.js';

/** 2^8 days: a season and more. */
export const LEVELS = 9;

export interface TilePlace {
  readonly level: number;
  readonly index: number;
}

export const tileLength = (level: number): number => DAY_ms * 2 ** level;

export const spanOfTile = ({ level, index }: TilePlace): Span => ({
  from: index * tileLength(level),
  to: (index + 1) * tileLength(level),
});

export const levelFor = (span: Span): number =>
  Math.min(LEVELS - 1, Math.max(0, Math.ceil(Math.log2(lengthOf(span) / DAY_ms))));

/** Tiles of a level that cover a span. */
export function tilesOver({ from, to }: Span, level: number): TilePlace[] {
  const length = tileLength(level);
  const first = Math.floor(from / length);
  const last = Math.max(first, Math.ceil(to / length) - 1);
  return Array.from({ length: last - first + 1 }, (_, at) => ({ level, index: first + at }));
}

/** The tile of the next longer kind that holds a tile. */
export const above = ({ level, index }: TilePlace): TilePlace => ({
  level: level + 1,
  index: Math.floor(index / 2),
});

/** Points to ask for in a tile, which is up to twice as long as the view, and has the least and the greatest of each quantity. */
export const pointsFor = (width_px: number): number =>
  Math.min(2000, Math.max(400, Math.round((1.6 * width_px) / 100) * 100));
