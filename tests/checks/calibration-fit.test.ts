/** Fits of calibrations against published results. */
import { describe, expect, test } from 'vitest';
import {
  budgetAt,
  correctionAt,
  fitCalibration,
  fitPolynomial,
  type PolynomialFit,
  polynomialAt,
  polynomialUncertaintyAt,
  studentScore,
  studentTail,
} from '../../services/core/calibration/index.js';
import type { CalibrationPoint } from '../../services/core/model/calibration.js';
import { NORRIS } from './norris.js';

/** Significant digits in which two numbers agree: the logarithm of the relative error [NIST StRD: LRE]. */
const digits = (found: number | undefined, certified: number): number =>
  -Math.log10(Math.max(1e-16, Math.abs((found ?? Number.NaN) / certified - 1)));

const deviations = (fit: PolynomialFit): number[] =>
  fit.coefficients.map((_, at) => Math.sqrt(fit.covariance[at]?.[at] ?? Number.NaN));

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
  const fit = fitPolynomial({ x: TABLE.map(([t]) => t), y: TABLE.map(([, b]) => b) }, 1, 20);
  /** Half of the last place that was recomputed with numpy. */
  const LAST_PLACE = 1e-11;

  // As printed, rounded [from memory]; recomputed [numpy].
  test.each([
    ['y1', fit.coefficients[0], -0.1712, -0.17120379013],
    ['y2', fit.coefficients[1], 0.00218, 0.00218269774],
    ['s', fit.residualDeviation, 0.0035, 0.00349756396],
    ['s(y1)', deviations(fit)[0], 0.0029, 0.00287759784],
    ['s(y2)', deviations(fit)[1], 0.00067, 0.00066793877],
    ['r(y1, y2)', fit.correlation[0]?.[1], -0.93, -0.93042960309],
    ['b(30 °C)', polynomialAt(fit, 30), -0.1494, -0.14937681273],
    ['u of b(30 °C)', polynomialUncertaintyAt(fit, 30), 0.0041, 0.00413859575],
    ['u of b(24 °C)', polynomialUncertaintyAt(fit, 24), 0.0011, 0.00105457],
  ])('%s is %d, printed %d, recomputed %d', (_, found, printed, recomputed) => {
    const places = String(printed).split('.')[1]?.length ?? 0;
    expect(found?.toFixed(places)).toBe(printed.toFixed(places));
    expect(Math.abs((found ?? Number.NaN) - recomputed)).toBeLessThan(
      recomputed === 0.00105457 ? 0.5e-8 : LAST_PLACE,
    );
  });

  test('without the correlation u at 30 °C would be 0.0073', () => {
    const [u1 = Number.NaN, u2 = Number.NaN] = deviations(fit);
    expect(Math.hypot(u1, 10 * u2).toFixed(4)).toBe('0.0073');
  });

  test('9 degrees of freedom, 95 % within 0.00936215', () => {
    expect(fit.degreesOfFreedom).toBe(9);
    const half = studentScore(0.025, 9) * polynomialUncertaintyAt(fit, 30);
    expect(Math.abs(half - 0.00936215)).toBeLessThan(0.5e-8);
  });

  // Fitted corrections and residuals as printed, 4 places [from memory].
  const FITTED = [
    -0.1679, -0.1668, -0.1657, -0.1646, -0.1635, -0.1625, -0.1614, -0.1603, -0.1592, -0.1581, -0.157,
  ];
  const RESIDUALS = [
    -0.0031, -0.0022, -0.0003, 0.0056, -0.0005, -0.0025, 0.0054, 0.0033, 0.0002, -0.0029, -0.003,
  ];
  test('fitted values and residuals are the table’s', () => {
    TABLE.forEach(([t], at) => {
      expect(Math.abs(polynomialAt(fit, t) - (FITTED[at] ?? Number.NaN))).toBeLessThan(0.51e-4);
      expect(Math.abs((fit.residuals[at] ?? Number.NaN) - (RESIDUALS[at] ?? Number.NaN))).toBeLessThan(
        0.51e-4,
      );
    });
  });

  test('leverages add up to the number of coefficients', () => {
    expect(Math.abs(fit.leverages.reduce((sum, value) => sum + value, 0) - 2)).toBeLessThan(1e-12);
  });

  const points = TABLE.map(
    ([indicated, b]): CalibrationPoint => ({
      indicated,
      reference: indicated + b,
      referenceUncertainty: 0.01,
      source: 'instrument',
    }),
  );

  /** The points lie within 5 °C, too near for a gain by the usual needs. */
  const options = { quantity: 'temperature', form: 'linear', centre: 20, needs: { gainSpan: 4.9 } } as const;

  test('the whole way from points gives the same, and the reference comes on top', () => {
    const whole = fitCalibration(points, options);
    expect(whole).toMatchObject({
      form: 'linear',
      weighting: 'ordinary',
      outliers: [],
    });
    expect(Math.abs((whole.coefficients[0] ?? Number.NaN) + 0.17120379013)).toBeLessThan(1e-10);
    const { correction, components, standardUncertainty, outsideRange } = correctionAt(whole, 30);
    expect(correction.toFixed(4)).toBe('-0.1494');
    expect(components[0]?.standardUncertainty.toFixed(4)).toBe('0.0041');
    expect(Math.abs(standardUncertainty - Math.hypot(0.00413859575, 0.01))).toBeLessThan(1e-9);
    expect(outsideRange).toBe(true);
  });

  test('effective degrees of freedom: 9 where the fit is all there is, more with the reference', () => {
    const alone = fitCalibration(points, { ...options, commonUncertainty: 0 });
    expect(Math.abs((budgetAt(alone, 30).effectiveDegreesOfFreedom ?? 0) - 9)).toBeLessThan(1e-9);
    // (0.0041386^2 + 0.01^2)^2 / (0.0041386^4 / 9) = 420.87 [computed by hand].
    const both = budgetAt(fitCalibration(points, options), 30).effectiveDegreesOfFreedom ?? 0;
    expect(Math.abs(both - 420.87)).toBeLessThan(0.01);
  });
});

describe('Norris, NIST StRD, lower difficulty', () => {
  // Certified values [seen with the tests of a public library and in a public package of data sets].
  const fit = fitPolynomial({ x: NORRIS.map(([x]) => x), y: NORRIS.map(([, y]) => y) }, 1);

  test.each([
    ['B0', fit.coefficients[0], -0.262323073774029, 12],
    ['B1', fit.coefficients[1], 1.00211681802045, 14],
    ['deviation of B0', deviations(fit)[0], 0.232818234301152, 12.5],
    ['deviation of B1', deviations(fit)[1], 0.429796848199937e-3, 12.5],
    ['residual deviation', fit.residualDeviation, 0.884796396144373, 12.5],
  ])('%s %d to the certified digits: %d, at least %d', (_, found, certified, least) => {
    expect(digits(found, certified)).toBeGreaterThan(least);
  });

  test('34 degrees of freedom', () => {
    expect(fit.degreesOfFreedom).toBe(34);
  });
});

describe('Pontius, NIST StRD, a load cell, a quadratic', () => {
  // Data from memory; exact arithmetic (60 digits) gives the certified values from them to all 15 digits [mpmath].
  const Y = [
    0.11019, 0.21956, 0.32949, 0.43899, 0.54803, 0.65694, 0.76562, 0.87487, 0.98292, 1.09146, 1.20001,
    1.30822, 1.41599, 1.52399, 1.63194, 1.73947, 1.84646, 1.95392, 2.06128, 2.16844, 0.11052, 0.22018,
    0.32939, 0.43886, 0.54798, 0.65739, 0.76596, 0.87474, 0.983, 1.0915, 1.20004, 1.30818, 1.41613, 1.52408,
    1.63159, 1.73965, 1.84696, 1.95445, 2.06177, 2.16829,
  ];
  const fit = fitPolynomial({ x: Y.map((_, at) => 150_000 * ((at % 20) + 1)), y: Y }, 2);

  // Certified values [seen in a public package of data sets].
  test.each([
    ['B0', fit.coefficients[0], 0.673565789473684e-3, 11],
    ['B1', fit.coefficients[1], 0.732059160401003e-6, 13],
    ['B2', fit.coefficients[2], -0.316081871345029e-14, 11],
    ['deviation of B0', deviations(fit)[0], 0.107938612033077e-3, 11],
    ['deviation of B1', deviations(fit)[1], 0.157817399981659e-9, 11],
    ['deviation of B2', deviations(fit)[2], 0.486652849992036e-16, 11],
    ['residual deviation', fit.residualDeviation, 0.205177424076185e-3, 11],
  ])('%s %d to the certified digits: %d, at least %d', (_, found, certified, least) => {
    expect(digits(found, certified)).toBeGreaterThan(least);
  });

  test('37 degrees of freedom', () => {
    expect(fit.degreesOfFreedom).toBe(37);
  });
});

describe('Student’s t', () => {
  // Degrees of freedom; one-sided tails 0.1, 0.05, 0.025, 0.005, 0.0005 [scipy 1.17; to 3 places as in printed tables].
  const TABLE = [
    [1, [3.0776835371752544, 6.313751514675037, 12.706204736174694, 63.656741162871526, 636.6192487687897]],
    [2, [1.8856180831641272, 2.9199855803537242, 4.302652729749462, 9.924843200918287, 31.599054576445365]],
    [3, [1.637744353696209, 2.3533634348018233, 3.1824463052837078, 5.840909309733355, 12.923978636687961]],
    [5, [1.4758840488244815, 2.0150483733330233, 2.5705818356363146, 4.032142983555228, 6.868826625881276]],
    [9, [1.3830287383966329, 1.833112932656237, 2.262157162798205, 3.249835541592126, 4.780912585931217]],
    [30, [1.3104150253913955, 1.697260886593957, 2.0422724563012378, 2.7499956535672254, 3.6459586350420627]],
    [100, [1.290074761346516, 1.6602343260853392, 1.9839715185235518, 2.6258905214380173, 3.390491311164263]],
  ] as const;
  const TAILS = [0.1, 0.05, 0.025, 0.005, 0.0005];
  /** The stated accuracy of `studentScore`. */
  const TOLERANCE = 1e-10;

  test.each(TABLE)('%d degrees of freedom', (degreesOfFreedom, scores) => {
    scores.forEach((score, at) => {
      const tail = TAILS[at] ?? Number.NaN;
      expect(Math.abs(studentScore(tail, degreesOfFreedom) / score - 1)).toBeLessThan(TOLERANCE);
      expect(Math.abs(studentTail(score, degreesOfFreedom) / tail - 1)).toBeLessThan(TOLERANCE);
    });
  });

  // Degrees of freedom, tail, score [scipy 1.17]: far out, near the middle, and many degrees.
  test.each([
    [1, 1e-9, 318309886.1837907],
    [1, 1e-5, 31830.98860790709],
    [1, 0.3, 0.7265425280053609],
    [7, 1e-9, 38.70598064323161],
    [7, 0.3, 0.5491096579472854],
    [999, 1e-9, 6.053746657762562],
    [999, 0.3, 0.5245678747137387],
    [50000, 1e-5, 4.265300029752309],
    [50000, 0.3, 0.5244038557675486],
  ])('of %d degrees of freedom %d lies above %d', (degreesOfFreedom, tail, score) => {
    const tolerance = degreesOfFreedom <= 1000 ? TOLERANCE : 1e-9;
    expect(Math.abs(studentScore(tail, degreesOfFreedom) / score - 1)).toBeLessThan(tolerance);
  });

  test('JCGM 100 table G.2, 95 %, 2 places [from memory]', () => {
    const G2 = [12.71, 4.3, 3.18, 2.78, 2.57, 2.45, 2.36, 2.31, 2.26, 2.23];
    expect(G2.map((_, at) => Number(studentScore(0.025, at + 1).toFixed(2)))).toEqual(G2);
  });

  test('the normal distribution is its end: 1.959963984540054 [scipy]', () => {
    expect(Math.abs(studentScore(0.025) - 1.959963984540054)).toBeLessThan(1e-13);
    expect(Math.abs(studentScore(0.025, 100_000) - 1.959963984540054)).toBeLessThan(3e-5);
  });
});
