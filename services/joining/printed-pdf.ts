/** A document as a PDF file: the same text as its page, on A4, with the fonts that every reader has. */
import type { CertificateSection } from '../core/calibration/certificate-document.js';
import type { PlotGeometry } from '../core/calibration/residual-plot.js';
import {
  CONTENT_WIDTH,
  createSheet,
  lineHeight,
  linesOf,
  PAGE,
  type Pdf,
  writeLine,
  writeParagraph,
} from './certificate-pdf-sheet.js';
import { isPdfText } from './certificate-pdf-text.js';
import { NOTE, writeSections } from './printed-sections.js';

const TITLE = { size: 16, bold: true } as const;
const TEXT = { size: 9.5 } as const;
const WARNING = { size: 9.5, bold: true } as const;
const FOOT = { size: 8 } as const;

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
  writeSections(sheet, document.sections, plot);
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
