import { describe, expect, test } from 'vitest';
import {
  fitCalibration,
  MOST_CHARACTERS,
  MOST_PAIRS,
  readPairs,
} from '../../../services/core/calibration/index.js';
import { SandlarderError } from '../../../services/core/errors.js';
import { codeOf } from '../physics/refused.js';

const HEADER = 'probe,time,indicated,reference,uncertainty,unit';
const LINE = 'p01,2026-05-04T08:00:00Z,20.1,20.35,0.05,Cel';
const file = (...lines: readonly string[]): string => `${lines.join('\n')}\n`;

/** What is said of the only line after a header. */
const saidOf = (header: string, line: string): string | undefined => {
  const { pairs, badLines } = readPairs(file(header, line));
  expect(pairs).toEqual([]);
  expect(badLines).toHaveLength(1);
  return badLines[0]?.message;
};

const messageOf = (text: string): string => {
  try {
    readPairs(text);
  } catch (error) {
    if (error instanceof SandlarderError) return `${error.code} ${error.message}`;
    throw error;
  }
  return 'no error';
};

describe('a pair', () => {
  test('has its probe, time, quantity and point', () => {
    expect(readPairs(file(HEADER, LINE))).toEqual({
      pairs: [
        {
          line: 2,
          probe: 'p01',
          quantity: 'temperature',
          point: {
            at: Date.UTC(2026, 4, 4, 8),
            indicated: 20.1,
            reference: 20.35,
            referenceUncertainty: 0.05,
            source: 'file',
          },
        },
      ],
      badLines: [],
    });
  });

  test('is read the same with a byte order mark, CR LF, quotes, capitals and blanks', () => {
    const dressed = `\uFEFF${HEADER.toUpperCase()}\r\n"p01", 2026-05-04T08:00:00Z ,20.1,"20.35",0.05,Cel\r\n`;
    expect(readPairs(dressed)).toEqual(readPairs(file(HEADER, LINE)));
  });

  test('is read the same with semicolons and a decimal comma', () => {
    const german = file(HEADER, LINE).replaceAll(',', ';').replaceAll('.', ',');
    expect(readPairs(german)).toEqual(readPairs(file(HEADER, LINE)));
  });

  test('is read the same with semicolons and a decimal point', () => {
    expect(readPairs(file(HEADER, LINE).replaceAll(',', ';'))).toEqual(readPairs(file(HEADER, LINE)));
  });

  test.each([
    ['K', '293.25,293.5,0.05', { indicated: 20.1, reference: 20.35, referenceUncertainty: 0.05 }],
    ['/', '0.741,0.753,0.002', { indicated: 74.1, reference: 75.3, referenceUncertainty: 0.2 }],
    ['%RH', '74.1,75.3,0.2', { indicated: 74.1, reference: 75.3, referenceUncertainty: 0.2 }],
  ])('in %s comes in the stored unit', (unit, numbers, point) => {
    const [pair] = readPairs(file('indicated,reference,uncertainty,unit', `${numbers},${unit}`)).pairs;
    expect(pair?.point).toEqual({ ...point, source: 'file' });
  });

  test('has half of an expanded uncertainty', () => {
    const [pair] = readPairs(file('indicated,reference,uncertainty_k2,unit', '20,20.1,0.3,Cel')).pairs;
    expect(pair?.point.referenceUncertainty).toBe(0.15);
  });

  test('takes quantity and uncertainty from the defaults where the file has none', () => {
    const text = file('indicated,reference,temperature', '74.1,75.3,25');
    const [pair] = readPairs(text, { quantity: 'humidity', referenceUncertainty: 0.5 }).pairs;
    expect(pair).toMatchObject({
      quantity: 'humidity',
      point: { indicated: 74.1, referenceUncertainty: 0.5, temperature_C: 25 },
    });
  });

  test('keeps to the file’s own quantity against the default', () => {
    const text = file('quantity,indicated,reference,uncertainty', 'temperature,20,20.1,0.1');
    expect(readPairs(text, { quantity: 'humidity' }).pairs[0]?.quantity).toBe('temperature');
  });

  test('can be fitted', () => {
    const lines = [0, 10, 20, 30, 40].map((t) => `${t},${t + 0.2},0.05,Cel`);
    const { pairs } = readPairs(file('indicated,reference,uncertainty,unit', ...lines));
    const fit = fitCalibration(
      pairs.map(({ point }) => point),
      { quantity: 'temperature' },
    );
    expect(fit.coefficients[0]).toBeCloseTo(0.2, 12);
  });
});

describe('probe and reference in different units', () => {
  const UNITS = 'indicated,indicated_unit,reference,reference_unit,uncertainty';

  test('are refused in one sentence', () => {
    expect(saidOf(UNITS, '20.1,Cel,293.5,K,0.05')).toBe(
      'line 2: expected probe and reference in one unit, got Cel for the probe and K for the reference',
    );
    expect(saidOf(UNITS, '74,%RH,0.75,/,0.05')).toContain('got %RH for the probe and / for the reference');
    expect(saidOf(UNITS, '20.1,Cel,20.3,,0.05')).toContain(
      'got Cel for the probe and none for the reference',
    );
  });

  test('are told by their numbers too', () => {
    expect(saidOf('indicated,reference,uncertainty,unit', '20.1,293.5,0.05,Cel')).toBe(
      'line 2: reference and indicated: expected at most 30 °C apart and in the same unit, got 273 °C',
    );
  });

  test('in the same unit are taken', () => {
    expect(readPairs(file(UNITS, '293.25,K,293.5,K,0.05')).pairs).toHaveLength(1);
  });
});

describe('a bad line is named, and the others are kept', () => {
  test('each with its number in the file', () => {
    const text = file(HEADER, LINE, 'p01,,abc,20,0.05,Cel', '', LINE, 'p01,,20', LINE);
    const { pairs, badLines } = readPairs(text);
    expect(pairs.map(({ line }) => line)).toEqual([2, 5, 7]);
    expect(badLines).toEqual([
      { line: 3, message: 'line 3: indicated: expected a number with a decimal point, got "abc"' },
      { line: 6, message: 'line 6: expected 6 fields as in the header, got 3' },
    ]);
  });

  test.each([
    ['p01,,20,1,20,35,0,05,Cel', /expected 6 fields.*got 9; decimals with a comma need semicolons/],
    ['p01,,"20,1",20.35,0.05,Cel', /indicated: expected a number with a decimal point, got "20,1"/],
    ['p01,,,20.35,0.05,Cel', /indicated: expected a number, got nothing/],
    ['p01,,20.1,,0.05,Cel', /reference: expected a number, got nothing/],
    ['p01,,20.1,20.35,,Cel', /uncertainty: expected a number, got nothing/],
    ['p01,,20.1,20.35,0,Cel', /uncertainty: expected more than 0, got 0/],
    ['p01,,20.1,20.35,-0.05,Cel', /uncertainty: expected more than 0, got -0.05/],
    ['p01,,NaN,20.35,0.05,Cel', /indicated: expected a number/],
    ['p01,,Infinity,20.35,0.05,Cel', /indicated: expected a number/],
    ['p01,,1e999,20.35,0.05,Cel', /indicated: expected a number/],
    ['p01,,0x14,20.35,0.05,Cel', /indicated: expected a number/],
    ['p01,,20.1 °C,20.35,0.05,Cel', /indicated: expected a number/],
    ['p01,,20.1,20.35,0.05,F', /unit: expected Cel, K, %RH, \/, got "F"/],
    ['p01,,20.1,20.35,0.05,', /expected a unit or a quantity, got neither/],
    ['P 1,,20.1,20.35,0.05,Cel', /probe: expected 1 to 32/],
    ['p01,4.5.2026,20.1,20.35,0.05,Cel', /time: expected an RFC 3339 time/],
    ['p01,2026-02-30T08:00:00Z,20.1,20.35,0.05,Cel', /time: expected/],
    ['p01,,20.1,20.35,0.05,K', /indicated: expected -60 to 160 °C, got -253.05/],
    ['p01,,90,101,0.5,%RH', /reference: expected 0 to 100 %RH, got 101/],
    ['p01,,20.1,20.35,0.05,"Cel', /expected a quoted field to be closed/],
  ])('%s', (line, message) => {
    expect(saidOf(HEADER, line)).toMatch(message);
    expect(saidOf(HEADER, line)).toMatch(/^line 2: /);
  });

  test.each([
    ['density,20,20.1,0.1,Cel', /quantity: expected temperature or humidity, got "density"/],
    ['battery,3,3,0.1,V', /quantity: expected temperature or humidity/],
    ['humidity,20,20.1,0.1,Cel', /unit: expected one of humidity, got Cel/],
  ])('%s', (line, message) => {
    expect(saidOf('quantity,indicated,reference,uncertainty,unit', line)).toMatch(message);
  });

  test('a decimal point among decimal commas', () => {
    const { pairs, badLines } = readPairs(
      'indicated;reference;uncertainty;unit\n20,1;20,3;0,05;Cel\n1.234;1,2;0,05;Cel\n',
    );
    expect(pairs).toHaveLength(1);
    expect(badLines[0]?.message).toBe(
      'line 3: indicated: expected a number with a decimal comma, got "1.234"',
    );
  });
});

describe('a header that cannot be used', () => {
  test.each([
    ['', /expected a header and pairs, got nothing/],
    ['indicated,uncertainty', /expected a column reference, got none/],
    ['reference,uncertainty', /expected a column indicated, got none/],
    ['indicated,reference', /expected a column uncertainty \(k = 1\) or uncertainty_k2, got neither/],
    ['indicated,reference,uncertainty,uncertainty_k2', /got both/],
    ['indicated,reference,uncertainty,uncertain', /expected columns of probe, time, .*got "uncertain"/],
    ['indicated,reference,uncertainty,indicated', /expected column indicated once/],
    ['indicated,reference,uncertainty,unit,reference_unit,indicated_unit', /got both/],
    ['indicated,reference,uncertainty,indicated_unit', /expected both indicated_unit and reference_unit/],
    ['indicated,reference,uncer"tainty', /expected a quote only around/],
    ['20.1,20.3,0.05', /got "20\.1"/],
    ['indicated\treference\tuncertainty', /expected columns of/],
  ])('%j', (header, message) => {
    expect(messageOf(header === '' ? '' : file(header, '1,2,3'))).toMatch(
      /^BAD_REQUEST header of the pairs: /,
    );
    expect(messageOf(header === '' ? '' : file(header, '1,2,3'))).toMatch(message);
  });
});

test('a header alone has no pairs', () => {
  expect(readPairs(HEADER)).toEqual({ pairs: [], badLines: [] });
});

test('more lines than are taken are refused, not cut off', () => {
  const lines = Array.from({ length: MOST_PAIRS }, () => LINE);
  expect(readPairs(file(HEADER, ...lines)).pairs).toHaveLength(MOST_PAIRS);
  expect(codeOf(() => readPairs(file(HEADER, ...lines, LINE)))).toBe('LIMIT_EXCEEDED');
  const long = `${file(HEADER)}"${'x'.repeat(MOST_CHARACTERS - HEADER.length - 2)}`;
  expect(readPairs(long).badLines).toHaveLength(1);
  const quotes = `${file(HEADER)}"${'""'.repeat(MOST_CHARACTERS / 2 - HEADER.length)}`;
  expect(readPairs(quotes).badLines).toHaveLength(1);
  expect(codeOf(() => readPairs(`${long}x`))).toBe('LIMIT_EXCEEDED');
});
