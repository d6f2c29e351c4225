/** From centimetres of a bed to points of a drawing; one scale for both directions. */
import type { Block } from '../../../core/model/bed.js';
import { reachOfAll, VIEWS, type View, type ViewName } from './views.js';

/** Left beside the sand, in points: for the depths, the ground, the names of the walls and the scale. */
export const EDGE = { left: 42, right: 20, top: 48, bottom: 44 } as const;

/** A drawing lower than so many letters has room for two labels above the sand, of so many letters. */
const LOW = 13;
const LABELS = 7;

/** A centimetre has so many points at the least and at the most. Narrower drawings scroll. */
const SCALE = { least: 1.2, most: 4.5 } as const;

/** Between two drawings side by side, points. */
export const BETWEEN = 32;

export interface Frame {
  readonly view: View;
  /** Points for each cm. */
  readonly scale: number;
  /** Size of letters, points. */
  readonly letters: number;
  readonly width: number;
  readonly height: number;
  readonly right_cm: readonly [number, number];
  readonly down_cm: readonly [number, number];
  readonly x: (right_cm: number) => number;
  readonly y: (down_cm: number) => number;
}

const extent = ([low, high]: readonly [number, number]): number => high - low;

/**
 * Side by side all drawings of a bed share a scale, so that they compare; one below the other each takes the room there is.
 *
 * @param room points across
 * @param sideBySide whether both cuts stand beside each other in it
 */
export function scaleFor(
  name: ViewName,
  blocks: readonly Block[],
  room: number,
  sideBySide: boolean,
): number {
  const [length, width] = [extent(reachOfAll(blocks, 'x')), extent(reachOfAll(blocks, 'y'))];
  const edges = EDGE.left + EDGE.right;
  const fits = sideBySide
    ? (room - BETWEEN - 2 * edges) / (length + width)
    : (room - edges) / (name === 'across' ? width : length);
  return Math.min(SCALE.most, Math.max(SCALE.least, fits));
}

export function frameOf(
  name: ViewName,
  blocks: readonly Block[],
  { scale, letters }: Pick<Frame, 'scale' | 'letters'>,
): Frame {
  const view = VIEWS[name];
  const right_cm = reachOfAll(blocks, view.right);
  const down_cm = reachOfAll(blocks, view.down);
  const deep = extent(down_cm) * scale;
  const top = deep < LOW * letters ? Math.max(EDGE.top, LABELS * letters) : EDGE.top;
  return {
    ...{ view, scale, letters, right_cm, down_cm },
    width: EDGE.left + extent(right_cm) * scale + EDGE.right,
    height: top + deep + EDGE.bottom,
    x: (cm) => EDGE.left + (cm - right_cm[0]) * scale,
    y: (cm) => top + (cm - down_cm[0]) * scale,
  };
}

/** Distances that people count in, cm. */
const STEPS_cm = [5, 10, 20, 25, 50, 100, 200, 500] as const;
/** Between two marks of a scale there are so many points at the least. */
const APART = 32;

/** Marks of a scale, cm. */
export function marksOf([low, high]: readonly [number, number], scale: number): number[] {
  const step = STEPS_cm.find((cm) => cm * scale >= APART) ?? 1000;
  const first = Math.ceil(low / step);
  const count = Math.floor(high / step) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, index) => (first + index) * step);
}
