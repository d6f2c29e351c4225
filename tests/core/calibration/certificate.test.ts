import { describe, expect, test } from 'vitest';
import { certificateOf } from '../../../services/core/calibration/certificate.js';
import type {
  CertificateDocument,
  CertificateSection,
  CertificateTable,
} from '../../../services/core/calibration/certificate-document.js';
import { correctionAt } from '../../../services/core/calibration/index.js';
import type { Calibration } from '../../../services/core/model/calibration-record.js';
import {
  ABOUT,
  BATH_POINTS,
  CALIBRATED_AT,
  calibrationFrom,
  saltCalibration,
  someCalibration,
  unevenCalibration,
} from '../../support/a-calibration.js';
import { codeOf } from '../physics/refused.js';

const of = (record: Calibration, about: Partial<typeof ABOUT> | object = {}): CertificateDocument =>
  certificateOf(record, { ...ABOUT, ...about });

function sectionOf({ sections }: CertificateDocument, heading: string): CertificateSection {
  const found = sections.find((section) => section.heading.startsWith(heading));
  if (found === undefined) throw new Error(`no section ${heading}`);
  return found;
}

const entryOf = (document: CertificateDocument, label: string): string | undefined =>
  document.sections.flatMap(({ rows }) => rows).find(([name]) => name === label)?.[1];

function tableOf(document: CertificateDocument, caption: string): CertificateTable {
  const found = document.sections
    .flatMap(({ tables }) => tables)
    .find((table) => table.caption.startsWith(caption));
  if (found === undefined) throw new Error(`no table ${caption}`);
  return found;
}

/** Texts of a column, by its head. */
function column(table: CertificateTable, head: string): (string | undefined)[] {
  const at = table.columns.findIndex((one) => one.head === head);
  return table.rows.map((row) => row[at]);
}

const textOf = (document: CertificateDocument): string => JSON.stringify(document);

describe('thermometer of JCGM 100:2008 H.3', () => {
  // Table H.6 [seen with the documentation of a public package for uncertainties]: °C indicated, correction.
  const TABLE = [
    [21.521, -0.171],
    [22.012, -0.169],
    [22.512, -0.166],
    [23.003, -0.159],
    [23.507, -0.164],
    [23.999, -0.165],
    [24.513, -0.156],
    [25.002, -0.157],
    [25.503, -0.159],
    [26.01, -0.161],
    [26.511, -0.16],
  ] as const;
  const points = TABLE.map(([indicated, correction]) =>
    Object.freeze({
      indicated,
      reference: indicated + correction,
      referenceUncertainty: 0.01,
      source: 'file' as const,
    }),
  );
  const document = of(
    calibrationFrom(points, {
      quantity: 'temperature',
      form: 'linear',
      centre: 20,
      needs: { gainSpan: 4 },
    }),
  );

  // As printed there [from memory].
  test('coefficients, their uncertainties and correlation are those printed', () => {
    const table = tableOf(document, 'Coefficients');
    expect(column(table, 'Value')).toEqual(['-0.1712', '0.00218']);
    expect(column(table, 'Standard uncertainty')).toEqual(['0.0029', '0.00067']);
    expect(column(table, 'Correlation with y2')).toEqual(['-0.930', '1']);
    expect(column(table, 'Correlation with y1')).toEqual(['1', '-0.930']);
    expect(entryOf(document, 'Standard deviation of the residuals')).toBe('0.0035 °C');
    expect(entryOf(document, 'Degrees of freedom')).toBe('9');
  });

  // -0.17120379013 and 0.00218269774 [numpy]; two digits more than 0.0029 and 0.00067.
  test('the equation can be computed with', () => {
    expect(entryOf(document, 'Equation')).toBe(
      'corrected = indicated - 0.171204 + 0.0021827 (indicated - 20)',
    );
  });
});

describe('what it says of itself', () => {
  const document = of(someCalibration());

  test('is a working calibration, and no accredited one', () => {
    expect(document.title).toContain('working calibration');
    expect(document.statement.join(' ')).toMatch(
      /not an accredited calibration: nobody has assessed it under ISO\/IEC 17025/,
    );
    expect(document.statement.join(' ')).toContain('Sandlarder 0.1.0');
    expect(document.statement.join(' ')).toContain('JCGM 100:2008');
  });

  test('traceability is as entered', () => {
    const section = sectionOf(document, 'Reference');
    expect(section.notes).toContain('Traceability is as entered by the technician, not checked.');
    expect(entryOf(document, 'Certificate')).toBe('LMD 25-118');
  });

  test('who, when, from when on, in the zone of the site', () => {
    expect(entryOf(document, 'Done by')).toBe('Wanja Oduya');
    expect(entryOf(document, 'Done at')).toBe('2026-03-14 12:00 +03:00');
    expect(entryOf(document, 'Holds for readings from')).toBe('2026-03-04 12:00 +03:00');
    expect(entryOf(of(someCalibration(), { timeZone: null }), 'Done at')).toBe('2026-03-14 09:00 +00:00');
  });

  test('the same record twice is the same document', () => {
    expect(textOf(of(someCalibration()))).toBe(textOf(document));
  });

  test('a zone that nobody knows is refused', () => {
    expect(codeOf(() => of(someCalibration(), { timeZone: 'Moon/Sea' }))).toBe('OUT_OF_DOMAIN');
  });
});

describe('what was not entered', () => {
  const bare = someCalibration({ reference: { name: 'A thermometer' }, conditions: {}, bench: null });
  const document = of(bare, { probeModel: null });

  test('is said not to have been', () => {
    for (const label of ['Model of the probe', 'Serial number', 'Due on', 'Air pressure'])
      expect(entryOf(document, label)).toBe('not entered');
    expect(entryOf(document, 'Points taken')).toBe('elsewhere, and entered');
  });

  test('without traceability it warns; salts alone need none', () => {
    expect(document.warnings).toEqual(['Nothing was entered of how the reference is traceable.']);
    expect(of(saltCalibration()).warnings).toEqual([]);
  });
});

describe('warnings', () => {
  test('a sound one in force has none', () => {
    expect(of(someCalibration()).warnings).toEqual([]);
  });

  test('superseded, by which', () => {
    const document = of(someCalibration(), { supersededBy: 'cal-2026-0009', inForce: false });
    expect(document.warnings).toEqual([
      'Superseded: calibration cal-2026-0009 stands in the place of this one. Do not use it.',
    ]);
    expect(entryOf(document, 'Superseded by')).toBe('cal-2026-0009');
  });

  test('not in force', () => {
    expect(of(someCalibration(), { inForce: false }).warnings).toHaveLength(1);
  });

  // Of the day in the zone of the site: 22:30 UTC on the 14th is the 15th in Nairobi.
  test.each([
    ['2026-03-14', 1],
    ['2026-03-15', 0],
  ])('reference due on %s: %d', (dueOn, count) => {
    const doneAt = CALIBRATED_AT + 13.5 * 3_600_000;
    const record = someCalibration({ doneAt, reference: { name: 'R', certificate: 'C', dueOn } });
    expect(of(record).warnings).toHaveLength(count);
  });
});

describe('points', () => {
  test('all are listed, used or not, with what became of them', () => {
    const document = of(unevenCalibration());
    const table = tableOf(document, 'All points');
    expect(column(table, 'Nr')).toEqual(['1', '2', '3', '4', '5', '6', '7']);
    expect(column(table, '')).toEqual(['', '', 'outlier', '', '', 'left out', '']);
    expect(column(table, 'Residual / its s')[5]).toBe('–');
    expect(column(table, 'Residual')[5]).toMatch(/^\+0\.2\d\d$/);
  });

  test('the one left out has its reason, the outlier its bound', () => {
    const remarks = tableOf(of(unevenCalibration()), 'Points left out');
    expect(column(remarks, 'Nr')).toEqual(['3', '6']);
    expect(column(remarks, 'Why')[1]).toBe('The bath was opened while it was read.');
    expect(column(remarks, 'Why')[0]).toMatch(/is 2\.0 of its own standard deviations, where up to 1\.9 /);
  });

  test('no table of remarks where there are none', () => {
    expect(sectionOf(of(someCalibration()), 'Points').tables).toHaveLength(1);
  });

  test('each to the place of its reference', () => {
    const table = tableOf(of(someCalibration()), 'All points');
    const [first = []] = table.rows;
    // Indicated 4.12, reference 4.12 + 0.31 + 0.012 * 15.88 + 0.008 = 4.629; u 0.04; scatter 0.03 of 12.
    expect(first.slice(3, 9)).toEqual(['4.120', '0.030', '12', '4.629', '0.040', '+0.509']);
    expect(first[1]).toBe('2026-03-14 09:05 +03:00');
  });

  test('salts with their name and temperature, what was not noted as –', () => {
    const [first = []] = tableOf(of(saltCalibration()), 'All points').rows;
    expect(first[2]).toBe('over salt, magnesium chloride, 25 °C');
    expect(first.slice(4, 6)).toEqual(['–', '–']);
  });

  test('a fit that speaks of a point that is not there is refused', () => {
    const record = someCalibration();
    const few = { ...record, points: record.points.slice(0, 3) };
    expect(codeOf(() => of(few))).toBe('OUT_OF_DOMAIN');
  });
});

describe('uncertainty of a corrected value', () => {
  test('five values from end to end, as correctionAt has them', () => {
    const record = someCalibration();
    const table = tableOf(of(record), 'At values');
    expect(column(table, 'Indicated')).toHaveLength(5);
    const { expandedUncertainty, corrected } = correctionAt(record.fit, 35.5);
    expect(Number(column(table, 'U (k = 2)')[4])).toBeCloseTo(expandedUncertainty, 2);
    expect(Number(column(table, 'Corrected')[4])).toBeCloseTo(corrected, 2);
    expect(column(tableOf(of(record), 'What the standard'), 'Component')).toEqual([
      'fitted correction',
      'what all references share',
      'resolution of the probe',
      'repeatability of one reading',
    ]);
  });

  // Three points about one offset: 2 degrees of freedom, and the fit's part outweighs the rest.
  const shaky = calibrationFrom(
    [0.3, -0.2, -0.1].map((off, at) =>
      Object.freeze({
        indicated: 20 + at,
        reference: 20 + at + off,
        referenceUncertainty: 0.01,
        source: 'instrument' as const,
      }),
    ),
    { quantity: 'temperature', form: 'offset', weighting: 'ordinary' },
  );

  test('few effective degrees of freedom: Student’s factor [JCGM 100 table G.2, from memory]', () => {
    const table = tableOf(of(shaky), 'At values');
    expect(column(table, 'Effective degrees of freedom')).toEqual(Array(5).fill('2'));
    expect(column(table, 'k for 95 %')).toEqual(Array(5).fill('4.30'));
    expect(sectionOf(of(shaky), 'Uncertainty').notes.join(' ')).toMatch(/covers less than 95 % there/);
  });

  test('known beforehand: infinite, normal, and no such note', () => {
    const document = of(saltCalibration());
    expect(column(tableOf(document, 'At values'), 'k for 95 %')).toEqual(Array(5).fill('1.96'));
    expect(textOf(document)).not.toContain('covers less than 95 % there');
  });

  test('components that are not known are named', () => {
    expect(sectionOf(of(saltCalibration()), 'Uncertainty').notes[0]).toBe(
      'Not known, and so not counted: resolution of the probe, repeatability of one reading. The true uncertainty is larger by it.',
    );
    expect(textOf(of(someCalibration()))).not.toContain('Not known');
  });

  test('a single point is one value, and holds there only', () => {
    const document = of(calibrationFrom(BATH_POINTS.slice(0, 1), { quantity: 'temperature' }));
    expect(tableOf(document, 'At the one').rows).toHaveLength(1);
    expect(entryOf(document, 'Indicated values')).toBe('4.12 °C only');
    expect(entryOf(document, 'Standard deviation of the residuals')).toMatch(/^none/);
  });
});

describe('fit', () => {
  test('a Birge ratio only where points are weighted', () => {
    expect(entryOf(of(saltCalibration()), 'Birge ratio')).toMatch(/^0\.\d\d: the points scatter no more/);
    expect(entryOf(of(someCalibration()), 'Birge ratio')).toBeUndefined();
  });

  test('a curve is written to its square, about its centre', () => {
    const record = calibrationFrom(BATH_POINTS, { quantity: 'temperature', form: 'quadratic' });
    expect(entryOf(of(record), 'Equation')).toMatch(
      /^corrected = indicated \+ [\d.]+ - [\d.]+ \(indicated - 20\) [+-] [\d.]+ \(indicated - 20\)²$/,
    );
    expect(column(tableOf(of(record), 'Coefficients'), 'Unit')).toEqual(['°C', '1', '1/°C']);
  });

  test.each([
    [0, /0\.0\d+ indicated$/],
    [-5, /\(indicated \+ 5\)$/],
  ])('about %d', (centre, ending) => {
    const record = calibrationFrom(BATH_POINTS, { quantity: 'temperature', form: 'linear', centre });
    expect(entryOf(of(record), 'Equation')).toMatch(ending);
  });

  test('points without any scatter are no reason to fail', () => {
    const still = BATH_POINTS.map((point) => ({ ...point, reference: point.indicated + 0.25 }));
    const document = of(calibrationFrom(still, { quantity: 'temperature', form: 'offset' }));
    expect(entryOf(document, 'Equation')).toBe('corrected = indicated + 0.25');
    expect(entryOf(document, 'Standard deviation of the residuals')).toBe('0 °C');
  });
});

describe('before and after', () => {
  test('as found, against its tolerance', () => {
    const document = of(someCalibration());
    expect(entryOf(document, 'Largest error as found')).toBe(
      '-0.497 °C, standard uncertainty 0.043 °C, at an indicated 4.120 °C',
    );
    expect(entryOf(document, 'Against the tolerance')).toMatch(/^kept, but not for certain/);
    expect(entryOf(of(saltCalibration()), 'Against the tolerance')).toMatch(/^exceeded; the distance/);
  });

  test('change since last time, and whether it is seen', () => {
    expect(entryOf(of(someCalibration()), 'Change since last time')).toMatch(
      /^at most \+0\.214 °C.*: more than/,
    );
    const change = { change: 0.1, standardUncertainty: 0.058, indicated: 5 };
    expect(entryOf(of(someCalibration({ change })), 'Change since last time')).toMatch(
      /: within its expanded/,
    );
  });

  test('no change: the first, or nothing in common', () => {
    expect(entryOf(of(saltCalibration()), 'Change since last time')).toBe('none: it is the first');
    expect(entryOf(of(saltCalibration({ before: 'cal-1' })), 'Change since last time')).toMatch(/^unknown/);
  });

  test('which record stands in the place of which', () => {
    expect(entryOf(of(someCalibration({ supersedes: 'cal-2026-0006' })), 'Stands in the place of')).toBe(
      'cal-2026-0006',
    );
    expect(entryOf(of(someCalibration()), 'Calibration in force before')).toBe('cal-2025-0003');
  });

  test('cautions only where a salt was used', () => {
    expect(textOf(of(saltCalibration()))).toContain('gloves');
    expect(textOf(of(someCalibration()))).not.toContain('gloves');
  });
});
