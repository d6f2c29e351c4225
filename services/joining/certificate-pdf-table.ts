/** Tables of a certificate on sheets: a head that is repeated on every page, rows that stay whole where they can. */
import type { CertificateRow, CertificateTable } from '../core/calibration/certificate-document.js';
import {
  CONTENT_HEIGHT,
  CONTENT_WIDTH,
  type Letters,
  lineHeight,
  linesOf,
  PAGE,
  type Sheet,
  writeLine,
  writeParagraph,
} from './certificate-pdf-sheet.js';

interface Column {
  readonly x: number;
  readonly width: number;
  readonly isNumber: boolean;
}

/** The lines of each cell. */
type Row = readonly (readonly string[])[];

const CAPTION: Letters = { size: 8.5 };
const CELL: Letters = { size: 7.5 };
const HEAD: Letters = { size: 7.5, bold: true };
const LABEL: Letters = { size: 9 };

/** Around the text of a cell, pt. */
const PAD_X = 2.5;
const PAD_Y = 2;
/** Letters stand high in their line: this much of the pad goes from below them to above, pt. */
const LOWER_Y = 1.2;
/** Of a label beside its value, of the whole. */
const LABEL_SHARE = 0.32;
/** A block that is no higher is not torn apart, pt. */
const SHORT = CONTENT_HEIGHT / 3;
/** Lines of a row that is higher than a page which are worth beginning at its foot. */
const WORTH_BEGINNING = 3;

const heightOf = (lines: number, letters: Letters): number => lines * lineHeight(letters) + 2 * PAD_Y;

const mostLines = (row: Row): number => Math.max(1, ...row.map((lines) => lines.length));

const cut = (sheet: Sheet, cells: readonly string[], columns: readonly Column[], letters: Letters): Row =>
  columns.map(({ width }, at) => linesOf(sheet.pdf, cells[at] ?? '', letters, width - 2 * PAD_X));

/** What stands above a block and must not be parted from it. */
export interface Lead {
  /** pt. */
  readonly height: number;
  readonly write: () => void;
}

/**
 * Begins a block: on a fresh page where it would be torn apart that need not be, or parted from its lead.
 *
 * @param head height above the first row, pt
 */
function begin(
  sheet: Sheet,
  lead: Lead | undefined,
  head: number,
  rows: readonly Row[],
  letters: Letters,
): void {
  const heights = rows.map((row) => heightOf(mostLines(row), letters));
  const above = (lead?.height ?? 0) + head;
  const whole = heights.reduce((sum, height) => sum + height, above);
  sheet.need(Math.min(whole <= SHORT ? whole : above + (heights[0] ?? 0), CONTENT_HEIGHT));
  lead?.write();
}

/** A table with its caption and head. */
export function writeTable(sheet: Sheet, table: CertificateTable, lead?: Lead): void {
  const columns = columnsOf(table.columns);
  const heads = table.columns.map((column) => column.head);
  const head = cut(sheet, heads, columns, HEAD);
  const headHeight = heightOf(mostLines(head), HEAD);
  const rows = table.rows.map((row) => cut(sheet, row, columns, CELL));
  begin(sheet, lead, 2 * lineHeight(CAPTION) + headHeight, rows, CELL);
  writeParagraph(sheet, table.caption, CAPTION, 2);
  const writeHead = (): void => {
    writeCells(sheet, head, columns, HEAD);
    rule(sheet, 0.9);
  };
  writeHead();
  for (const row of rows)
    writeRow(sheet, row, columns, CELL, CONTENT_HEIGHT - headHeight, () => {
      sheet.newPage();
      writeHead();
    });
  sheet.y += 8;
}

/** Labels with their values: a table without a head. */
export function writeRows(sheet: Sheet, labelled: readonly CertificateRow[], lead?: Lead): void {
  const columns = columnsOf([
    { share: LABEL_SHARE, isNumber: false },
    { share: 1 - LABEL_SHARE, isNumber: false },
  ]);
  const rows = labelled.map((row) => cut(sheet, row, columns, LABEL));
  begin(sheet, lead, 0, rows, LABEL);
  for (const row of rows) writeRow(sheet, row, columns, LABEL, CONTENT_HEIGHT, sheet.newPage);
  sheet.y += 6;
}

function columnsOf(described: readonly { readonly share: number; readonly isNumber: boolean }[]): Column[] {
  const all = described.reduce((sum, { share }) => sum + share, 0);
  let x: number = PAGE.side;
  return described.map(({ share, isNumber }) => {
    const column = { x, width: (share / all) * CONTENT_WIDTH, isNumber };
    x += column.width;
    return column;
  });
}

/** @param fresh room of a page with nothing but the head on it, pt */
function writeRow(
  sheet: Sheet,
  row: Row,
  columns: readonly Column[],
  letters: Letters,
  fresh: number,
  turnPage: () => void,
): void {
  let rest = row;
  for (let lines = mostLines(rest); lines > 0; ) {
    const isWhole = heightOf(lines, letters) <= fresh;
    const worth = isWhole ? lines : WORTH_BEGINNING;
    if (!(heightOf(worth, letters) <= sheet.room())) turnPage();
    const count = Math.min(lines, Math.floor((sheet.room() - 2 * PAD_Y) / lineHeight(letters)));
    writeCells(
      sheet,
      rest.map((cell) => cell.slice(0, count)),
      columns,
      letters,
    );
    rule(sheet, 0.3);
    rest = rest.map((cell) => cell.slice(count));
    lines -= count;
  }
}

function writeCells(sheet: Sheet, row: Row, columns: readonly Column[], letters: Letters): void {
  columns.forEach(({ x, width, isNumber }, at) => {
    (row[at] ?? []).forEach((line, nth) => {
      const y = sheet.y + PAD_Y + LOWER_Y + nth * lineHeight(letters);
      writeLine(sheet.pdf, line, letters, { x: x + PAD_X, y, width: width - 2 * PAD_X, toRight: isNumber });
    });
  });
  sheet.y += heightOf(mostLines(row), letters);
}

function rule({ pdf, y }: Sheet, width: number): void {
  pdf
    .lineWidth(width)
    .moveTo(PAGE.side, y)
    .lineTo(PAGE.side + CONTENT_WIDTH, y)
    .stroke('black');
}
