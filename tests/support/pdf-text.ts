/** What stands in a PDF file that was written with built-in fonts: its pages as lines with their places. */
import { inflateSync } from 'node:zlib';

export interface PdfLine {
  readonly text: string;
  /** pt from the left and from the bottom; of a line in a turned or scaled plane within that. */
  readonly x: number;
  readonly y: number;
  readonly size: number;
}

/** Unpacked contents of the pages, in their order. */
export function pageContents(file: Buffer): string[] {
  const contents: string[] = [];
  for (let at = file.indexOf('stream\n'); at >= 0; at = file.indexOf('stream\n', at + 1)) {
    if (file.subarray(at - 3, at).toString() === 'end') continue;
    const end = file.indexOf('endstream', at);
    contents.push(inflateSync(file.subarray(at + 'stream\n'.length, end)).toString('latin1'));
  }
  return contents;
}

/** Signs of WinAnsiEncoding beside Latin-1, as far as certificates have them [ISO 32000-1 D.2, from memory]. */
const BESIDE_LATIN_1: Readonly<Record<string, string>> = { '\u0092': '’', '\u0096': '–' };

const decoded = (bytes: Buffer): string =>
  bytes.toString('latin1').replace(/[\u0080-\u009f]/g, (sign) => BESIDE_LATIN_1[sign] ?? sign);

/** Lines of a page, its foot last. */
export function linesOfPage(content: string): PdfLine[] {
  return [...content.matchAll(/BT\n([\s\S]*?)ET/g)].map(([, block = '']) => {
    const [, x, y] = /1 0 0 1 (\S+) (\S+) Tm/.exec(block) ?? [];
    const [, size] = /\/F\d+ (\S+) Tf/.exec(block) ?? [];
    const bytes = [...block.matchAll(/<([0-9a-f]*)>/g)].map(([, hex = '']) => Buffer.from(hex, 'hex'));
    return { text: decoded(Buffer.concat(bytes)), x: Number(x), y: Number(y), size: Number(size) };
  });
}

/** pt from the bottom: feet stand below, all else above. */
export const FOOT_BELOW = 54;

/** All text of a file but the feet of its pages, lines joined by blanks. */
export const textOfPdf = (file: Buffer): string =>
  pageContents(file)
    .flatMap(linesOfPage)
    .filter(({ y }) => y >= FOOT_BELOW)
    .map(({ text }) => text)
    .join(' ');
