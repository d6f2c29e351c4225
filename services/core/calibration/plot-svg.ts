/** A plot as SVG, to stand within a page or by itself. */
import { escaped } from './markup.js';
import {
  AREA_GREY,
  CORNERS,
  CROSS,
  DISC,
  LETTER,
  type Mark,
  type Position,
  type Shape,
} from './plot-shapes.js';
import type { PlotGeometry } from './residual-plot.js';

/**
 * The plot, drawn.
 *
 * @param id of its own on the page: what names and describes it is found by it
 */
export function plotSvg({ width, height, shapes, title, description }: PlotGeometry, id: string): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-labelledby="${id}-title ${id}-description" font-family="Helvetica, Arial, sans-serif" font-size="${LETTER}">`,
    `<title id="${id}-title">${escaped(title)}</title>`,
    `<desc id="${id}-description">${escaped(description)}</desc>`,
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    ...shapes.map(drawn),
    '</svg>',
  ].join('\n');
}

function drawn(shape: Shape): string {
  switch (shape.kind) {
    case 'area':
      return `<polygon points="${listed(shape.points)}" fill="${AREA_GREY}"/>`;
    case 'line':
      return `<polyline points="${listed(shape.points)}" fill="none" stroke="#000"${shape.dashed ? ' stroke-dasharray="4 3"' : ''}/>`;
    case 'mark':
      return drawnMark(shape.mark, shape.at);
    case 'text':
      return drawnText(shape);
  }
}

function drawnMark(mark: Mark, at: Position): string {
  const moved = ({ x, y }: Position): Position => ({ x: at.x + x, y: at.y + y });
  if (mark === 'used') return `<circle class="used" cx="${short(at.x)}" cy="${short(at.y)}" r="${DISC}"/>`;
  if (mark === 'left-out') {
    const strokes = CROSS.map((line) => `M${listed(line.map(moved)).replace(' ', 'L')}`);
    return `<path class="left-out" d="${strokes.join('')}" stroke="#000" stroke-width="2"/>`;
  }
  return `<polygon class="${mark}" points="${listed(CORNERS[mark].map(moved))}" fill="#fff" stroke="#000" stroke-width="1.5"/>`;
}

function drawnText({ text, at, anchor, turned }: Extract<Shape, { kind: 'text' }>): string {
  const [x, y] = [short(at.x), short(at.y)];
  const turn = turned ? ` transform="rotate(-90 ${x} ${y})"` : '';
  return `<text x="${x}" y="${y}" text-anchor="${anchor}"${turn}>${escaped(text)}</text>`;
}

const listed = (points: readonly Position[]): string =>
  points.map(({ x, y }) => `${short(x)},${short(y)}`).join(' ');

const short = (value: number): number => Number(value.toFixed(2));
