import { describe, expect, test } from 'vitest';
import {
  placesOf,
  roundTo,
  signedText,
  uncertaintyText,
  valueText,
} from '../../../services/core/calibration/rounding.js';
import { codeOf, refuses } from '../physics/refused.js';

describe('a value by its uncertainty', () => {
  // JCGM 100:2008 7.2.6: y = 10.057 62 ohm with u = 27 milliohm is to be given as 10.058 ohm [from memory].
  test.each([
    [10.05762, 0.027, '10.058'],
    [-0.17120379, 0.00287759784, '-0.1712'],
    [20.0625, 0.05, '20.063'],
    [19.9999, 0.05, '20.000'],
    [12345, 123, '12350'],
    [12345, 12, '12345'],
    [0.2, 1.5, '0.2'],
    [5, 9.96, '5'],
  ])('%d by %d is %s', (value, uncertainty, text) => {
    expect(roundTo(value, uncertainty)).toBe(text);
  });

  test('an uncertainty that rounds up to the next power of ten takes its value along', () => {
    expect(uncertaintyText(0.0994)).toBe('0.099');
    expect(roundTo(1.2345, 0.0994)).toBe('1.234');
    expect(uncertaintyText(0.0996)).toBe('0.10');
    expect(roundTo(1.2345, 0.0996)).toBe('1.23');
  });

  test.each([
    [-0.0004, 0.05, '0.000'],
    [-3, 120, '0'],
    [-0, 0.05, '0.000'],
  ])('%d by %d has no minus before nothing', (value, uncertainty, text) => {
    expect(roundTo(value, uncertainty)).toBe(text);
  });

  test('a minus stays before something', () => {
    expect(roundTo(-0.0006, 0.05)).toBe('-0.001');
    expect(roundTo(-10, 0.5)).toBe('-10.00');
  });

  test.each([
    [0.05, 3],
    [0.99, 2],
    [0.996, 1],
    [1, 1],
    [12, 0],
    [120, -1],
  ])('the second digit of %d stands at place %d', (uncertainty, places) => {
    expect(placesOf(uncertainty)).toBe(places);
  });

  refuses('value', (value) => roundTo(value, 0.1), []);
  refuses('uncertainty', (uncertainty) => roundTo(1, uncertainty), [0, -0.1, 1e-10, 1e10]);
});

describe('an uncertainty of nothing but arithmetic', () => {
  test('is 0, and its value has six digits', () => {
    expect(uncertaintyText(0)).toBe('0');
    expect(uncertaintyText(3e-17)).toBe('0');
    expect(valueText(0.1 + 0.2, 1e-17)).toBe('0.3');
    expect(valueText(20.1234567, 0)).toBe('20.1235');
  });

  test.each([-1e-12, Number.NaN])('%d is not taken for one', (uncertainty) => {
    expect(codeOf(() => uncertaintyText(uncertainty))).toBe('OUT_OF_DOMAIN');
    expect(codeOf(() => valueText(1, uncertainty))).toBe('OUT_OF_DOMAIN');
  });
});

test('a plus stands before what is shown as above 0, and only there', () => {
  expect(signedText(0.51, 0.1)).toBe('+0.51');
  expect(signedText(-0.51, 0.1)).toBe('-0.51');
  expect(signedText(0.0004, 0.05)).toBe('0.000');
});
