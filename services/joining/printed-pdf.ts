/** A document as a PDF file: the same text as its page, on A4, with the fonts that every reader has. */
import type { CertificateSection } from '../core/calibration/certificate-document.js';
import type { PlotGeometry } from '../core/calibration/residual-plot.js';
import { drawPlot } from './certificate-pdf-plot.js';
import {
  CONTENT_WIDTH,
  createSheet,
  lineHeight,
  linesOf,
  PAGE,
  type Pdf,
  type Sheet,
  writeLine,
  writeParagraph,
} from './certificate-pdf-sheet.js';
import { type Lead, writeRows, writeTable } from './certificate-pdf-table.js';
import { isPdfText } from './certificate-pdf-text.js';

const TITLE = { size: 16, bold: true } as const;
const HEADING = { size: 11, bold: true } as const;
const TEXT = { size: 9.5 } as const;
const WARNING = { size: 9.5, bold: true } as const;
const NOTE = { size: 8.5 } as const;
const FOOT = { size: 8 } as const;

/** pt. */
const ABOVE_HEADING = 6;
/** A heading is not left at the foot of a page without so much room for notes under it, pt. */
const UNDER_HEADING = 40;

/** Room for the page's number at the foot, pt. */
const PAGE_NUMBER = 60;

const NOT_ALL_LETTERS =
  'The fonts of this file do not have every letter that was entered. The nearest letter stands for it, or its ' +
  'Unicode number in brackets. The printable page has all as entered.';

export interface PrintedDocument {
  readonly title: string;
  /** Of the file, where it is more than the heading. */
  readonly fileTitle: string;
  readonly warnings: readonly string[];
  readonly statement: readonly string[];
  readonly sections: readonly CertificateSection[];
  /** At the foot of every page. */
  readonly foot: string;
  /** ms. */
  readonly issuedAt: number;
  readonly program: string;
}

/**
 * The file.
 *
 * @param plot for the section that has one
 * @returns equal bytes for equal documents: nothing in it is of the time or the machine that it is written at
 */
export async function printedPdf(document: PrintedDocument, plot?: PlotGeometry): Promise<Buffer> {
  return (await printedFile(document, plot)).file;
}

/** The same, with how many pages it has. */
export async function printedFile(
  document: PrintedDocument,
  plot?: PlotGeometry,
): Promise<{ file: Buffer; pages: number }> {
  const pdf = await openPdf(document);
  const whole = bytesOf(pdf);
  const sheet = createSheet(pdf);
  writeParagraph(sheet, document.title, TITLE, 6);
  for (const warning of document.warnings) writeParagraph(sheet, warning, WARNING, 4);
  for (const paragraph of document.statement) writeParagraph(sheet, paragraph, TEXT, 4);
  for (const section of document.sections) writeSection(sheet, section, plot);
  if (!textsOf(document).every(isPdfText)) writeParagraph(sheet, NOT_ALL_LETTERS, NOTE, 0);
  writeFeet(pdf, document);
  const pages = pdf.bufferedPageRange().count;
  pdf.end();
  return { file: await whole, pages };
}

/**
 * The file's identifier is a digest of what stands in `info`, so that nothing here may be of the moment. The library is
 * read once somebody prints: a start need not wait for it.
 */
async function openPdf({ fileTitle, issuedAt, program }: PrintedDocument): Promise<Pdf> {
  const { default: PDFDocument } = await import('pdfkit');
  return new PDFDocument({
    size: [PAGE.width, PAGE.height],
    margin: 0,
    bufferPages: true,
    lang: 'en',
    displayTitle: true,
    info: {
      Title: fileTitle,
      Creator: program,
      CreationDate: new Date(issuedAt),
    },
  });
}

function bytesOf(pdf: Pdf): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    const chunks: Buffer[] = [];
    pdf.on('data', (chunk: Uint8Array) => chunks.push(Buffer.from(chunk)));
    pdf.on('end', () => resolve(Buffer.concat(chunks)));
    pdf.on('error', reject);
  });
}

function writeSection(
  sheet: Sheet,
  { heading, rows, tables, hasPlot, figures = [], notes }: CertificateSection,
  plot: PlotGeometry | undefined,
): void {
  const lead: Lead = {
    height: ABOVE_HEADING + lineHeight(HEADING) + 3,
    write: () => {
      sheet.y += ABOVE_HEADING;
      writeParagraph(sheet, heading, HEADING, 3);
    },
  };
  if (rows.length > 0) writeRows(sheet, rows, lead);
  tables.forEach((table, nth) => {
    writeTable(sheet, table, rows.length === 0 && nth === 0 ? lead : undefined);
  });
  if (rows.length === 0 && tables.length === 0) {
    sheet.need(lead.height + UNDER_HEADING);
    lead.write();
  }
  if (hasPlot && plot) drawPlot(sheet, plot);
  for (const figure of figures) {
    drawPlot(sheet, figure.plot);
    writeParagraph(sheet, figure.caption, NOTE, 5);
  }
  for (const note of notes) writeParagraph(sheet, note, NOTE, 3);
}

/** Everything that may hold letters which somebody entered. */
function textsOf({ title, fileTitle, foot, warnings, statement, sections }: PrintedDocument): string[] {
  const ofSections = sections.flatMap(({ heading, rows, tables, figures = [], notes }) => [
    heading,
    ...figures.flatMap(({ plot, caption }) => [
      caption,
      ...plot.shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : [])),
    ]),
    ...rows.flat(),
    ...tables.flatMap((table) => [table.caption, ...table.rows.flat()]),
    ...notes,
  ]);
  return [title, fileTitle, foot, ...warnings, ...statement, ...ofSections];
}

/** What it is, and `1 of 3`, at the foot of every page, once their number is known. */
function writeFeet(pdf: Pdf, { foot }: PrintedDocument): void {
  const { start, count } = pdf.bufferedPageRange();
  const y = PAGE.height - PAGE.bottom + 18;
  for (let page = start; page < start + count; page += 1) {
    pdf.switchToPage(page);
    linesOf(pdf, foot, FOOT, CONTENT_WIDTH - PAGE_NUMBER).forEach((line, nth) => {
      writeLine(pdf, line, FOOT, { x: PAGE.side, y: y + nth * lineHeight(FOOT), width: CONTENT_WIDTH });
    });
    writeLine(pdf, `${page - start + 1} of ${count}`, FOOT, {
      x: PAGE.side,
      y,
      width: CONTENT_WIDTH,
      toRight: true,
    });
  }
}
