/** Shapes of a plot, drawn as vectors. */
import {
  AREA_GREY,
  CORNERS,
  CROSS,
  DISC,
  LETTER,
  type Mark,
  type Position,
  type Shape,
} from '../core/calibration/plot-shapes.js';
import type { PlotGeometry } from '../core/calibration/residual-plot.js';
import { CONTENT_WIDTH, PAGE, type Pdf, type Sheet } from './certificate-pdf-sheet.js';
import { pdfText } from './certificate-pdf-text.js';

/** A plot is drawn so small, of its whole width, before it takes a fresh page: its letters stay legible. */
const SMALLEST = 0.7;
/** Under a plot, pt. */
const UNDER = 4;

/** Room that a plot takes at the least, pt. */
export const leastHeightOf = ({ width, height }: PlotGeometry): number =>
  ((SMALLEST * CONTENT_WIDTH) / width) * height + UNDER;

/**
 * Over the whole width, or as much smaller as the page asks for, on one page.
 *
 * @param below room that is kept free under it on the same page, pt
 */
export function drawPlot(sheet: Sheet, plot: PlotGeometry, below = 0): void {
  const { width, height, shapes } = plot;
  sheet.need(leastHeightOf(plot) + below);
  const scale = Math.min(CONTENT_WIDTH / width, (sheet.room() - below - UNDER) / height);
  const { pdf } = sheet;
  pdf.save().translate(PAGE.side, sheet.y).scale(scale);
  for (const shape of shapes) draw(pdf, shape);
  pdf.restore();
  sheet.y += height * scale + UNDER;
}

function draw(pdf: Pdf, shape: Shape): void {
  switch (shape.kind) {
    case 'area':
      path(pdf, shape.points).closePath().fill(AREA_GREY);
      return;
    case 'line':
      if (shape.dashed) pdf.dash(4, { space: 3 });
      path(pdf, shape.points).lineWidth(1).stroke('black');
      pdf.undash();
      return;
    case 'mark':
      drawMark(pdf, shape.mark, shape.at);
      return;
    case 'text':
      drawText(pdf, shape);
  }
}

function path(pdf: Pdf, points: readonly Position[]): Pdf {
  points.forEach(({ x, y }, at) => {
    if (at === 0) pdf.moveTo(x, y);
    else pdf.lineTo(x, y);
  });
  return pdf;
}

function drawMark(pdf: Pdf, mark: Mark, at: Position): void {
  const moved = ({ x, y }: Position): Position => ({ x: at.x + x, y: at.y + y });
  if (mark === 'used') {
    pdf.circle(at.x, at.y, DISC).fill('black');
    return;
  }
  if (mark === 'left-out') {
    for (const line of CROSS) path(pdf, line.map(moved)).lineWidth(2).stroke('black');
    return;
  }
  path(pdf, CORNERS[mark].map(moved)).closePath().lineWidth(1.5).fillAndStroke('white', 'black');
}

function drawText(pdf: Pdf, { text, at, anchor, turned }: Extract<Shape, { kind: 'text' }>): void {
  const line = pdfText(text);
  pdf.font('Helvetica').fontSize(LETTER);
  const width = pdf.widthOfString(line);
  const x = at.x - (anchor === 'start' ? 0 : anchor === 'middle' ? width / 2 : width);
  pdf.save();
  if (turned) pdf.rotate(-90, { origin: [at.x, at.y] });
  pdf.fillColor('black').text(line, x, at.y, { lineBreak: false, baseline: 'alphabetic' });
  pdf.restore();
}
