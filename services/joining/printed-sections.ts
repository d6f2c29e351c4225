/**
 * Sections of a document on sheets. A figure that finds no room waits until there is some, and lets the text after it
 * go first, so that no sheet stays half empty.
 */
import type { CertificateSection, DocumentFigure } from '../core/calibration/certificate-document.js';
import type { PlotGeometry } from '../core/calibration/residual-plot.js';
import { drawPlot, leastHeightOf } from './certificate-pdf-plot.js';
import { CONTENT_WIDTH, lineHeight, linesOf, type Sheet, writeParagraph } from './certificate-pdf-sheet.js';
import { type Lead, writeRows, writeTable } from './certificate-pdf-table.js';

const HEADING = { size: 11, bold: true } as const;
export const NOTE = { size: 8.5 } as const;

/** pt. */
const ABOVE_HEADING = 6;
const BELOW_HEADING = 3;
const BELOW_CAPTION = 5;
/** A heading is not left at the foot of a page without so much room for notes under it, pt. */
const UNDER_HEADING = 40;

/** One figure of a section that has nothing else; the first has its heading. */
interface LoneFigure {
  readonly figure: DocumentFigure;
  readonly heading: string | undefined;
}

export function writeSections(
  sheet: Sheet,
  sections: readonly CertificateSection[],
  plot: PlotGeometry | undefined,
): void {
  const waiting: LoneFigure[] = [];
  const writeWaiting = (): void => {
    for (let [next] = waiting; next && hasRoom(sheet, next); [next] = waiting) {
      writeLone(sheet, next);
      waiting.shift();
    }
  };
  for (const section of sections) {
    if (isOfFigures(section)) waiting.push(...loneFigures(section));
    else writeSection(sheet, section, plot);
    writeWaiting();
  }
  for (const one of waiting) writeLone(sheet, one);
}

const isOfFigures = ({ rows, tables, hasPlot, figures = [], notes }: CertificateSection): boolean =>
  figures.length > 0 && !hasPlot && rows.length + tables.length + notes.length === 0;

const loneFigures = ({ heading, figures = [] }: CertificateSection): LoneFigure[] =>
  figures.map((figure, nth) => ({ figure, heading: nth === 0 ? heading : undefined }));

function hasRoom(sheet: Sheet, { figure, heading }: LoneFigure): boolean {
  const above = heading === undefined ? 0 : leadOf(sheet, heading).height;
  return above + leastHeightOf(figure.plot) + captionHeight(sheet, figure) <= sheet.room();
}

function writeLone(sheet: Sheet, one: LoneFigure): void {
  if (!hasRoom(sheet, one)) sheet.newPage();
  if (one.heading !== undefined) leadOf(sheet, one.heading).write();
  writeFigure(sheet, one.figure);
}

function writeFigure(sheet: Sheet, figure: DocumentFigure): void {
  drawPlot(sheet, figure.plot, captionHeight(sheet, figure));
  writeParagraph(sheet, figure.caption, NOTE, BELOW_CAPTION);
}

const captionHeight = ({ pdf }: Sheet, { caption }: DocumentFigure): number =>
  linesOf(pdf, caption, NOTE, CONTENT_WIDTH).length * lineHeight(NOTE);

const leadOf = (sheet: Sheet, heading: string): Lead => ({
  height: ABOVE_HEADING + lineHeight(HEADING) + BELOW_HEADING,
  write: () => {
    sheet.y += ABOVE_HEADING;
    writeParagraph(sheet, heading, HEADING, BELOW_HEADING);
  },
});

function writeSection(
  sheet: Sheet,
  { heading, rows, tables, hasPlot, figures = [], notes }: CertificateSection,
  plot: PlotGeometry | undefined,
): void {
  const lead = leadOf(sheet, heading);
  if (rows.length > 0) writeRows(sheet, rows, lead);
  tables.forEach((table, nth) => {
    writeTable(sheet, table, rows.length === 0 && nth === 0 ? lead : undefined);
  });
  if (rows.length === 0 && tables.length === 0) {
    sheet.need(lead.height + UNDER_HEADING);
    lead.write();
  }
  if (hasPlot && plot) drawPlot(sheet, plot);
  for (const figure of figures) writeFigure(sheet, figure);
  for (const note of notes) writeParagraph(sheet, note, NOTE, 3);
}
