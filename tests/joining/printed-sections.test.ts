/** Where figures go on the sheets of a document. */
import { expect, test } from 'vitest';
import type { CertificateSection } from '../../services/core/calibration/certificate-document.js';
import { printedPdf } from '../../services/joining/printed-pdf.js';
import { linesOfPage, pageContents } from '../support/pdf-text.js';

const NONE = { rows: [], tables: [], hasPlot: false, notes: [] } as const;

const notes = (heading: string, count: number): CertificateSection => ({
  ...NONE,
  heading,
  notes: Array.from({ length: count }, (_, nth) => `${heading}, line ${nth + 1}.`),
});

/** Of 265 pt where it has the whole width. */
const figures = (...captions: string[]): CertificateSection => ({
  ...NONE,
  heading: 'Drawn',
  figures: captions.map((caption) => ({
    plot: { width: 640, height: 330, title: 'Lines', description: 'None.', shapes: [] },
    caption,
  })),
});

/** Text of each sheet, without feet. */
async function sheets(...sections: CertificateSection[]): Promise<string[][]> {
  const file = await printedPdf({
    ...{ title: 'Trial', fileTitle: 'Trial', warnings: [], statement: [], foot: 'foot' },
    ...{ sections, issuedAt: 0, program: 'Sandlarder' },
  });
  return pageContents(file).map((content) => linesOfPage(content).map(({ text }) => text));
}

const places = (pages: readonly string[][], ...texts: string[]): number[] =>
  texts.map((text) => pages.findIndex((lines) => lines.includes(text)) + 1);

test('a figure that is a little too high for the room is drawn smaller', async () => {
  const pages = await sheets(notes('Found', 33), figures('First.'));
  expect(places(pages, 'Found, line 33.', 'Drawn', 'First.')).toEqual([1, 1, 1]);
});

test('one that finds no room lets text go first, so that no sheet stays half empty', async () => {
  const pages = await sheets(notes('Found', 42), figures('First.', 'Second.'), notes('Rests on', 12));
  expect(places(pages, 'Rests on, line 5.', 'Drawn', 'First.', 'Second.')).toEqual([1, 2, 2, 2]);
});

test('figures keep their order, and the last of them wait for nothing', async () => {
  const pages = await sheets(notes('Found', 42), figures('First.', 'Second.', 'Third.', 'Fourth.'));
  expect(places(pages, 'Drawn', 'First.', 'Second.', 'Third.', 'Fourth.')).toEqual([2, 2, 2, 3, 3]);
});
