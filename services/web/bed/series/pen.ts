/** Draws lines, bands and marks on the canvas of a plot. */
import { placeOf } from './columns.js';
import type { Span } from './span.js';

/** From times and values to the canvas, in its own pixels. */
export interface Sheet {
  readonly context: CanvasRenderingContext2D;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly view: Span;
  readonly least: number;
  readonly greatest: number;
  /** Canvas pixels to a pixel of the page. */
  readonly ratio: number;
}

export const xOf = ({ left, width, view }: Sheet, at: number): number =>
  left + (width * (at - view.from)) / (view.to - view.from);

export const yOf = ({ top, height, least, greatest }: Sheet, value: number): number =>
  top + height * (1 - (value - least) / (greatest - least));

export interface Line {
  readonly time: Float64Array;
  readonly value: Float64Array;
  readonly clip: Span;
  readonly gap_ms: number;
}

/** Places of a line that are to be drawn, with one more to either side, so that the line goes on to the edge. */
export function placesIn(time: Float64Array, { from, to }: Span): readonly [first: number, end: number] {
  return [Math.max(0, placeOf(time, from) - 1), Math.min(time.length, placeOf(time, to) + 1)];
}

/** Pieces of one line, in order of time; a gap is left open, also where two pieces meet. */
export function strokeLine(sheet: Sheet, lines: readonly Line[]): void {
  const { context } = sheet;
  context.beginPath();
  let before = Number.NaN;
  for (const { time, value, clip, gap_ms } of lines) {
    const [first, end] = placesIn(time, clip);
    for (let at = first; at < end; at += 1) {
      const [here, shown] = [time[at] as number, value[at] as number];
      if (Number.isNaN(shown) || here <= before) continue;
      const [x, y] = [xOf(sheet, here), yOf(sheet, shown)];
      if (here - before <= gap_ms) context.lineTo(x, y);
      else context.moveTo(x, y);
      before = here;
    }
  }
  context.stroke();
}

export interface Band extends Line {
  /** Half of its width. */
  readonly half: Float64Array;
}

/** What lies within half a width of a line; each stretch without a gap by itself. */
export function fillBand(sheet: Sheet, bands: readonly Band[]): void {
  for (const { time, value, half, clip, gap_ms } of bands) {
    const [first, end] = placesIn(time, clip);
    let stretch: number[] = [];
    for (let at = first; at < end; at += 1) {
      const isThere = !Number.isNaN((value[at] as number) + (half[at] as number));
      const before = stretch.at(-1);
      const breaks = before !== undefined && (time[at] as number) - (time[before] as number) > gap_ms;
      if (breaks || !isThere) {
        fillStretch(sheet, time, value, half, stretch);
        stretch = [];
      }
      if (isThere) stretch.push(at);
    }
    fillStretch(sheet, time, value, half, stretch);
  }
}

function fillStretch(
  sheet: Sheet,
  time: Float64Array,
  value: Float64Array,
  half: Float64Array,
  stretch: readonly number[],
): void {
  if (stretch.length < 2) return;
  const { context } = sheet;
  const edge = (at: number, sign: number): [number, number] => [
    xOf(sheet, time[at] as number),
    yOf(sheet, (value[at] as number) + sign * (half[at] as number)),
  ];
  context.beginPath();
  for (const at of stretch) context.lineTo(...edge(at, 1));
  for (const at of [...stretch].reverse()) context.lineTo(...edge(at, -1));
  context.closePath();
  context.fill();
}

/** A cross, at the edge where its value lies beyond. */
export function crossAt(sheet: Sheet, at: number, value: number): void {
  const { context, top, height, ratio } = sheet;
  const arm = 4 * ratio;
  const x = xOf(sheet, at);
  const y = Math.min(Math.max(yOf(sheet, value), top + arm), top + height - arm);
  context.beginPath();
  context.moveTo(x - arm, y - arm);
  context.lineTo(x + arm, y + arm);
  context.moveTo(x - arm, y + arm);
  context.lineTo(x + arm, y - arm);
  context.stroke();
}
