/** Sheets of A4 that are filled from the top, and lines of text on them. */
import type PDFDocument from 'pdfkit';
import { pdfText } from './certificate-pdf-text.js';

export type Pdf = InstanceType<typeof PDFDocument>;

/** A4 and its margins, pt. */
export const PAGE = { width: 595.28, height: 841.89, side: 40, top: 42, bottom: 54 } as const;

/** What fits between the margins, pt. */
export const CONTENT_WIDTH = PAGE.width - 2 * PAGE.side;
export const CONTENT_HEIGHT = PAGE.height - PAGE.top - PAGE.bottom;

export interface Letters {
  readonly size: number;
  readonly bold?: boolean;
}

export interface Sheet {
  readonly pdf: Pdf;
  /** Where the next thing goes, pt from the top. */
  y: number;
  /** pt down to the margin. */
  room(): number;
  /** A fresh page unless there is so much room, pt. */
  need(height: number): void;
  newPage(): void;
}

export function createSheet(pdf: Pdf): Sheet {
  const sheet: Sheet = {
    pdf,
    y: PAGE.top,
    room: () => PAGE.height - PAGE.bottom - sheet.y,
    need: (height) => {
      if (!(height <= sheet.room())) sheet.newPage();
    },
    newPage: () => {
      pdf.addPage();
      sheet.y = PAGE.top;
    },
  };
  return sheet;
}

/** Distance of base lines, pt. */
export const lineHeight = ({ size }: Letters): number => size * 1.25;

function use(pdf: Pdf, { size, bold = false }: Letters): void {
  pdf.font(bold ? 'Helvetica-Bold' : 'Helvetica').fontSize(size);
}

/**
 * Text cut into lines: at blanks, and within a word only where it is wider than a line.
 *
 * @param text of any letters
 * @param width pt, above that of any single letter
 * @returns lines in the letters of the fonts; one that is empty for an empty text
 */
export function linesOf(pdf: Pdf, text: string, letters: Letters, width: number): string[] {
  use(pdf, letters);
  const fits = (line: string): boolean => pdf.widthOfString(line) <= width;
  const lines: string[] = [];
  let line = '';
  for (const word of pdfText(text).split(/ +/)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    const parts = fits(word) ? [word] : broken(word, fits);
    lines.push(...parts.slice(0, -1));
    line = parts.at(-1) ?? '';
  }
  return [...lines, line];
}

/** At least one letter a line, so that it comes to an end. */
function broken(word: string, fits: (line: string) => boolean): string[] {
  const parts: string[] = [];
  let part = '';
  for (const letter of word) {
    if (part !== '' && !fits(part + letter)) {
      parts.push(part);
      part = '';
    }
    part += letter;
  }
  return [...parts, part];
}

/** One line that was cut to fit, its top at `y`. */
export function writeLine(
  pdf: Pdf,
  line: string,
  letters: Letters,
  at: { readonly x: number; readonly y: number; readonly width: number; readonly toRight?: boolean },
): void {
  use(pdf, letters);
  const x = at.toRight === true ? at.x + at.width - pdf.widthOfString(line) : at.x;
  pdf.fillColor('black').text(line, x, at.y, { lineBreak: false });
}

/** A paragraph over the whole width, from page to page where it must. */
export function writeParagraph(sheet: Sheet, text: string, letters: Letters, gap: number): void {
  for (const line of linesOf(sheet.pdf, text, letters, CONTENT_WIDTH)) {
    sheet.need(lineHeight(letters));
    writeLine(sheet.pdf, line, letters, { x: PAGE.side, y: sheet.y, width: CONTENT_WIDTH });
    sheet.y += lineHeight(letters);
  }
  sheet.y += gap;
}
