/** The field of a residual plot: how values become places on it, and its axes. */
import type { CalibratedQuantity } from '../model/calibration.js';
import { ticksOf } from './plot-scale.js';
import { lineThrough, type Shape } from './plot-shapes.js';
import type { BandEdge, PlottedPoint } from './residual-plot-points.js';
import { UNIT } from './words.js';

export interface Scales {
  readonly x: (indicated: number) => number;
  readonly y: (residual: number) => number;
  readonly low: number;
  readonly high: number;
  /** The residual axis goes from its negative to it. */
  readonly half: number;
}

/** Edges of the field that the points stand in. */
export const FIELD = { left: 74, right: 626, top: 14, bottom: 306 } as const;

/** Free space on either side of the outermost points, of the axis. */
const MARGIN = 0.06;

/** A left-out point that would make the axis more than so much longer is told by its number and value instead. */
const FAR_OUT = 2;

const X_TICKS = 9;
const Y_TICKS = 8;
const TICK = 5;

/** Scales that hold all points and the band, but for left-out points that lie far out. */
export function scalesOf(points: readonly PlottedPoint[], band: readonly BandEdge[]): Scales {
  const values = [...points, ...band].map(({ indicated }) => indicated);
  const least = Math.min(...values);
  const most = Math.max(...values);
  const free = most > least ? MARGIN * (most - least) : 1;
  const [low, high] = [least - free, most + free];
  const half = halfAxis(points, band);
  const across = (FIELD.right - FIELD.left) / (high - low);
  const middle = (FIELD.top + FIELD.bottom) / 2;
  const upwards = (FIELD.bottom - FIELD.top) / 2 / half;
  return {
    x: (indicated) => FIELD.left + (indicated - low) * across,
    y: (residual) => middle - residual * upwards,
    low,
    high,
    half,
  };
}

/** By what was used; a left-out point stretches it only so far. */
function halfAxis(points: readonly PlottedPoint[], band: readonly BandEdge[]): number {
  const reach = ({ residual, uncertainty }: PlottedPoint): number => Math.abs(residual) + uncertainty;
  const used = points.filter(({ kind }) => kind !== 'left-out').map(reach);
  const needed = Math.max(...used, ...band.map(({ expanded }) => expanded));
  const stretched = points.map(reach).filter((one) => one <= FAR_OUT * needed);
  const half = Math.max(needed, ...stretched) * (1 + MARGIN);
  // A fit without scatter and uncertainty still has a zero line.
  return half > 0 ? half : 1;
}

/** Frame, zero line, ticks and titles. */
export function axisShapes(quantity: CalibratedQuantity, { x, y, low, high, half }: Scales): Shape[] {
  const { left, right, top, bottom } = FIELD;
  const across = ticksOf(low, high, X_TICKS).flatMap(({ value, text }): Shape[] => [
    lineThrough({ x: x(value), y: bottom }, { x: x(value), y: bottom + TICK }),
    { kind: 'text', text, at: { x: x(value), y: bottom + 19 }, anchor: 'middle', turned: false },
  ]);
  const upwards = ticksOf(-half, half, Y_TICKS).flatMap(({ value, text }): Shape[] => [
    lineThrough({ x: left - TICK, y: y(value) }, { x: left, y: y(value) }),
    { kind: 'text', text, at: { x: left - 8, y: y(value) + 4 }, anchor: 'end', turned: false },
  ]);
  const [middleX, middleY] = [(left + right) / 2, (top + bottom) / 2];
  const unit = UNIT[quantity];
  return [
    lineThrough(
      { x: left, y: top },
      { x: right, y: top },
      { x: right, y: bottom },
      { x: left, y: bottom },
      { x: left, y: top },
    ),
    lineThrough({ x: left, y: y(0) }, { x: right, y: y(0) }),
    ...across,
    ...upwards,
    {
      kind: 'text',
      text: `indicated ${quantity}, ${unit}`,
      at: { x: middleX, y: bottom + 38 },
      anchor: 'middle',
      turned: false,
    },
    { kind: 'text', text: `residual, ${unit}`, at: { x: 16, y: middleY }, anchor: 'middle', turned: true },
  ];
}
