/** Strokes and letters of the drawing of a plan. */
import { escaped } from '../calibration/markup.js';
import { LETTER } from './cross-section-frame.js';

export const short = (value: number): number => Number(value.toFixed(2));

export interface Written {
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly bold?: boolean;
}

export function text(
  x: number,
  y: number,
  words: string,
  { anchor = 'start', bold = false }: Written = {},
): string {
  const weight = bold ? ' font-weight="bold"' : '';
  return `<text x="${short(x)}" y="${short(y)}" text-anchor="${anchor}"${weight}>${escaped(words)}</text>`;
}

export const line = (x1: number, y1: number, x2: number, y2: number, width = 1): string =>
  `<path d="M${short(x1)},${short(y1)}L${short(x2)},${short(y2)}" stroke="#000" stroke-width="${width}"/>`;

/** Half of the stroke at each end of a measured length. */
const TICK = 6;

/** A measured length: a line with a stroke at both ends. */
export function measured(x1: number, y1: number, x2: number, y2: number): string {
  const [dx, dy] = y1 === y2 ? [0, TICK] : [TICK, 0];
  return [
    line(x1, y1, x2, y2),
    line(x1 - dx, y1 - dy, x1 + dx, y1 + dy),
    line(x2 - dx, y2 - dy, x2 + dx, y2 + dy),
  ].join('');
}

export const ellipse = (x: number, y: number, rx: number, ry: number): string =>
  `<ellipse class="root" cx="${short(x)}" cy="${short(y)}" rx="${short(rx)}" ry="${short(ry)}" fill="#fff" stroke="#000" stroke-width="1.2"/>`;

/** Half of a probe's mark. */
export const PROBE = 8;

export const diamond = (x: number, y: number): string =>
  `<path class="probe" d="M${short(x - PROBE)},${short(y)}l${PROBE},${-PROBE}l${PROBE},${PROBE}l${-PROBE},${PROBE}z" fill="#000" stroke="#fff" stroke-width="1.5"/>`;

/** About how wide words are: letters of such a face are half as wide as high. */
export const widthOf = (words: string): number => words.length * LETTER * 0.55;
