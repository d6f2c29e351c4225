import { describe, expect, test } from 'vitest';
import { certificateOf } from '../../services/core/calibration/certificate.js';
import { plotGeometry } from '../../services/core/calibration/residual-plot.js';
import type { CalibrationPoint } from '../../services/core/model/calibration.js';
import type { Calibration } from '../../services/core/model/calibration-record.js';
import { certificatePdf } from '../../services/joining/certificate-pdf.js';
import { isPdfText, pdfText } from '../../services/joining/certificate-pdf-text.js';
import {
  ABOUT,
  BATH_POINTS,
  calibrationFrom,
  saltCalibration,
  someCalibration,
  unevenCalibration,
} from '../support/a-calibration.js';
import { FOOT_BELOW, linesOfPage, pageContents, textOfPdf } from '../support/pdf-text.js';

const pdfOf = (record: Calibration, about: object = {}): Promise<Buffer> =>
  certificatePdf(certificateOf(record, { ...ABOUT, ...about }), plotGeometry(record));

/** So many points along the bath, each with a name. */
const many = (count: number): readonly CalibrationPoint[] =>
  Array.from({ length: count }, (_, nth) => ({
    indicated: 5 + (30 * nth) / count,
    reference: 5.2 + (30 * nth) / count + (nth % 3) / 100,
    referenceUncertainty: 0.05,
    source: 'file' as const,
    label: `r${nth + 1}`,
  }));

const NOT_ALL = 'do not have every letter';

describe('file', () => {
  test('is a PDF file from head to end', async () => {
    const file = await pdfOf(someCalibration());
    expect(file.subarray(0, 5).toString()).toBe('%PDF-');
    expect(file.toString('latin1').trimEnd()).toMatch(/%%EOF$/);
  });

  test('the same record gives the same bytes, a later issue others', async () => {
    const [one, other] = [await pdfOf(unevenCalibration()), await pdfOf(unevenCalibration())];
    expect(one.equals(other)).toBe(true);
    const later = await pdfOf(unevenCalibration(), { issuedAt: ABOUT.issuedAt + 60_000 });
    expect(one.equals(later)).toBe(false);
  });

  test('tells its title, language, program and time of issue', async () => {
    const text = (await pdfOf(someCalibration())).toString('latin1');
    expect(text).toContain('(Certificate of a working calibration cal-2026-0007)');
    expect(text).toContain('/Lang (en)');
    expect(text).toContain('(Sandlarder 0.1.0)');
    // A day after 2026-03-14T09:00:00Z.
    expect(text).toContain('(D:20260315090000Z)');
    expect(text).not.toMatch(/\/JavaScript|\/Launch|\/URI|\/EmbeddedFile/);
  });

  test('pages are counted at their feet', async () => {
    const file = await pdfOf(someCalibration());
    const pages = pageContents(file);
    expect(file.toString('latin1').match(/\/Type \/Page\n/g)).toHaveLength(pages.length);
    expect(pages).toHaveLength(3);
    pages.forEach((content, nth) => {
      const feet = linesOfPage(content).filter(({ y }) => y < FOOT_BELOW);
      expect(feet.map(({ text }) => text)).toEqual([
        'Calibration cal-2026-0007. Issued 2026-03-15 12:00 +03:00 by Sandlarder 0.1.0.',
        `${nth + 1} of 3`,
      ]);
    });
  });
});

describe('text', () => {
  test('has every cell, row, note and warning of the document', async () => {
    const record = saltCalibration();
    const about = { ...ABOUT, supersededBy: 'cal-9', inForce: false };
    const document = certificateOf(record, about);
    // Lines are broken at blanks, and cells of a row stand line by line.
    const words = new Set((await textOfPdf(await pdfOf(record, about))).split(/\s+/));
    const expected = [
      ...document.warnings,
      ...document.statement,
      ...document.sections.flatMap(({ heading, rows, tables, notes }) => [
        heading,
        ...rows.flat(),
        ...notes,
        ...tables.flatMap(({ caption, columns, rows: cells }) => [
          caption,
          ...columns.map(({ head }) => head),
          ...cells.flat(),
        ]),
      ]),
    ].flatMap((text) => text.split(/\s+/));
    expect(expected.length).toBeGreaterThan(300);
    expect(expected.filter((word) => word !== '' && !words.has(word))).toEqual([]);
  });

  test('stands between the margins', async () => {
    const long = 'a very long reason without end '.repeat(16).trim();
    const record = unevenCalibration();
    const fit = { ...record.fit, leftOut: record.fit.leftOut.map((left) => ({ ...left, reason: long })) };
    const file = await pdfOf({ ...record, fit, by: 'W'.repeat(100) });
    for (const { x, y, size } of pageContents(file)
      .flatMap(linesOfPage)
      .filter((line) => line.size < 12)) {
      expect(x).toBeGreaterThanOrEqual(40);
      expect(y).toBeGreaterThan(size > 8 ? 50 : 20);
      expect(y).toBeLessThan(841.89 - 42);
    }
    expect(textOfPdf(file).match(/W/g)?.length).toBeGreaterThanOrEqual(100);
  });
});

describe('long tables', () => {
  test('repeat their head on every page and lose no row', async () => {
    const file = await pdfOf(calibrationFrom(many(150), { quantity: 'temperature' }));
    const pages = pageContents(file).map((content) => linesOfPage(content).map(({ text }) => text));
    const withRows = pages.filter((lines) => lines.some((text) => /^from file, r\d+$/.test(text)));
    expect(withRows.length).toBeGreaterThan(2);
    for (const lines of withRows) expect(lines.filter((text) => text === 'Readings')).toHaveLength(1);
    const rows = pages.flat().filter((text) => /^from file, r\d+$/.test(text));
    expect(rows).toEqual(Array.from({ length: 150 }, (_, nth) => `from file, r${nth + 1}`));
  });

  test('a row that is higher than a page goes on over it', async () => {
    const note = '\u{1f954}'.repeat(1000);
    const record = someCalibration({ conditions: { note } });
    const text = textOfPdf(await pdfOf(record));
    expect(text.replace(/\s/g, '').match(/\[U\+1F954\]/g)).toHaveLength(1000);
  });
});

describe('plot', () => {
  test('is drawn as vectors: no picture, a disc for each point used', async () => {
    const file = await pdfOf(unevenCalibration());
    expect(file.toString('latin1')).not.toContain('/Subtype /Image');
    // A disc is four curves; six lie in the field and one in the legend without the outlier and the one left out.
    const curves = pageContents(file).join('\n').match(/ c\n/g) ?? [];
    expect(curves).toHaveLength(4 * (5 + 1));
    expect(textOfPdf(file)).toContain('residual, °C');
  });

  test('stands once, on one page', async () => {
    const file = await pdfOf(someCalibration());
    const axes = pageContents(file)
      .flatMap(linesOfPage)
      .filter(({ text }) => text === 'indicated temperature, °C');
    expect(axes).toHaveLength(1);
  });
});

describe('letters that the fonts do not have', () => {
  test('the nearest stand for them, and the file says so', async () => {
    const record = someCalibration({ by: 'Ɗanladi Ƙofa, Ọlá Ńdú' });
    const text = textOfPdf(await pdfOf(record));
    expect(text).toContain('Danladi Kofa, Olá Ndú');
    expect(text).toContain(NOT_ALL);
  });

  test('no word of it where there are none', async () => {
    expect(textOfPdf(await pdfOf(someCalibration({ by: 'Zoë Müller, 20 °C ± 1 µm “x” – …' })))).not.toContain(
      NOT_ALL,
    );
  });

  test.each([
    ['ƁɓƊɗƘƙƳƴ', 'BbDdKkYy'],
    ['ọjọ́ ẹ̀kọ́', 'ojo eko'],
    ['e\u0301', 'é'],
    ['a → b ≤ c − d', 'a -> b <= c - d'],
    ['ﬁ', '[U+FB01]'],
    ['中', '[U+4E2D]'],
    ['م', '[U+0645]'],
    ['😀', '[U+1F600]'],
    ['\ud800', '[U+D800]'],
    ['\u0000\u001b\u0081', '[U+0000][U+001B][U+0081]'],
    ['\u0301', '[U+0301]'],
    ['a\tb\r\nc', 'a b c'],
    ['°±µ²–€Žÿ', '°±µ²–€Žÿ'],
  ])('%j is written as %j', (text, written) => {
    expect(pdfText(text)).toBe(written);
    expect(isPdfText(pdfText(text))).toBe(true);
  });

  test('whatever is entered, every line keeps whole bytes', async () => {
    const hostile = '\u0000\u0007ƙ\ud800\u202e\ufffe中😀()\\<>';
    const { points, ...rest } = unevenCalibration();
    const record: Calibration = {
      ...rest,
      points: points.map((point) => ({ ...point, label: hostile })),
      by: hostile,
      reference: { name: hostile, note: hostile },
    };
    const file = await pdfOf(record, { siteName: hostile, program: hostile });
    for (const content of pageContents(file))
      for (const [, hex = ''] of content.matchAll(/<([^>]*)>/g)) expect(hex).toMatch(/^([0-9a-f]{2})*$/);
    expect(textOfPdf(file).replace(/\s/g, '')).toContain(
      '[U+0000][U+0007]k[U+D800][U+202E][U+FFFE][U+4E2D][U+1F600]()\\<>',
    );
  });
});

test('a single point, and a row of plain points, give a file too', async () => {
  for (const points of [BATH_POINTS.slice(0, 1), many(4)])
    expect((await pdfOf(calibrationFrom(points, { quantity: 'temperature' }))).length).toBeGreaterThan(1000);
});
