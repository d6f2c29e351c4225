import { describe, expect, test } from 'vitest';
import { correctionAt } from '../../../services/core/calibration/index.js';
import {
  BATH_POINTS,
  calibrationFrom,
  saltCalibration,
  someCalibration,
} from '../../support/a-calibration.js';
import { column, entryOf, of, sectionOf, tableOf, textOf } from './read-certificate.js';

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
