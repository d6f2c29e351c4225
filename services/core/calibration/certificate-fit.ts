/** The fitted correction as a certificate tells it: form, equation, coefficients, scatter, and where it holds. */
import type { CalibrationFit, Weighting } from '../model/calibration.js';
import type { Calibration } from '../model/calibration-record.js';
import {
  type CertificateColumn,
  type CertificateRow,
  type CertificateSection,
  type CertificateTable,
  section,
} from './certificate-document.js';
import { FORM_WORDS, NONE, withUnit } from './certificate-words.js';
import { uncertaintyText, valueText } from './rounding.js';
import { UNIT } from './words.js';

const WEIGHTING_WORDS: Readonly<Record<Weighting, string>> = {
  ordinary: 'every point counts alike; their scatter about the curve tells how uncertain it is',
  weighted: 'each point counts by its own known uncertainty',
};

/** The equation gets so much more than its uncertainties bear out, so that it can be computed with [JCGM 100 7.2.6]. */
const FINER = 100;

export function fitSection({ fit, quantity }: Calibration): CertificateSection {
  return section('Correction', {
    rows: [
      ['Form', FORM_WORDS[fit.form]],
      ['Why this form', fit.reason],
      ['Weighting', WEIGHTING_WORDS[fit.weighting]],
      ['Equation', equationOf(fit)],
      ['Degrees of freedom', String(fit.degreesOfFreedom)],
      ...scatterRows(fit),
      ['What all references share', sharedText(fit)],
    ],
    tables: [coefficientTable(fit)],
    hasPlot: true,
    notes: [
      `The equation is in ${UNIT[quantity]} on both sides. It has two digits more than its uncertainties bear out, so that it ` +
        'can be computed with.',
    ],
  });
}

function scatterRows({
  residualDeviation,
  birgeRatio,
  weighting,
  quantity,
}: CalibrationFit): CertificateRow[] {
  const rows: CertificateRow[] = [
    [
      'Standard deviation of the residuals',
      residualDeviation === undefined
        ? 'none: there are no more points than coefficients'
        : withUnit(uncertaintyText(residualDeviation), quantity),
    ],
  ];
  if (weighting === 'weighted') rows.push(['Birge ratio', birgeText(birgeRatio)]);
  return rows;
}

const sharedText = ({ commonUncertainty, quantity }: CalibrationFit): string =>
  commonUncertainty > 0
    ? `standard uncertainty ${withUnit(uncertaintyText(commonUncertainty), quantity)}`
    : 'nothing beside what each point has counted already';

function birgeText(birgeRatio: number | undefined): string {
  if (birgeRatio === undefined) return 'none: there are no more points than coefficients';
  const shown = birgeRatio.toFixed(2);
  return birgeRatio > 1
    ? `${shown}: the points scatter more than their uncertainties let expect, and the coefficients were taken as so much less certain`
    : `${shown}: the points scatter no more than their uncertainties let expect`;
}

/** `corrected = indicated + 0.1234 - 0.00456 (indicated - 22)`. */
function equationOf({ coefficients, covariance, centre }: CalibrationFit): string {
  const from = centre === 0 ? '' : centre > 0 ? ` - ${centre}` : ` + ${-centre}`;
  const base = from === '' ? 'indicated' : `(indicated${from})`;
  const powers = ['', ` ${base}`, ` ${base}²`];
  const terms = coefficients.map((value, at) => {
    const size = valueText(Math.abs(value), deviationAt(covariance, at) / FINER);
    return `${value < 0 ? '-' : '+'} ${size}${powers[at]}`;
  });
  return ['corrected = indicated', ...terms].join(' ');
}

const deviationAt = (covariance: CalibrationFit['covariance'], at: number): number =>
  Math.sqrt(covariance[at]?.[at] ?? Number.NaN);

/** With as many columns of correlations as there are coefficients, where these are two or more. */
function coefficientTable(fit: CalibrationFit): CertificateTable {
  const { coefficients, centre, quantity, covariance } = fit;
  const of = [`1: the correction at ${centre} ${UNIT[quantity]}`, `indicated less ${centre}`, 'its square'];
  const units = [UNIT[quantity], '1', `1/${UNIT[quantity]}`];
  const correlated = coefficients.length > 1 ? coefficients.map((_, at) => at) : [];
  return {
    caption: 'Coefficients of the correction',
    columns: [
      text('Coefficient', 13),
      text('Of', 26),
      number('Value', 13),
      number('Standard uncertainty', 13),
      text('Unit', 9),
      ...correlated.map((other) => number(`Correlation with ${nameOf(other)}`, 13)),
    ],
    rows: coefficients.map((value, at) => {
      const deviation = deviationAt(covariance, at);
      return [
        nameOf(at),
        of[at] ?? NONE,
        valueText(value, deviation),
        uncertaintyText(deviation),
        units[at] ?? NONE,
        ...correlated.map((other) => (other === at ? '1' : correlationText(fit, at, other))),
      ];
    }),
  };
}

const text = (head: string, share: number): CertificateColumn => ({ head, isNumber: false, share });
const number = (head: string, share: number): CertificateColumn => ({ head, isNumber: true, share });

/** As JCGM 100 H.3 names them. */
const nameOf = (at: number): string => `y${at + 1}`;

function correlationText({ covariance }: CalibrationFit, one: number, other: number): string {
  const deviations = deviationAt(covariance, one) * deviationAt(covariance, other);
  const correlation = (covariance[one]?.[other] ?? Number.NaN) / deviations;
  return Number.isFinite(correlation) ? correlation.toFixed(3).replace(/^-(0\.000)$/, '$1') : NONE;
}

export function rangeSection({ fit, quantity }: Calibration): CertificateSection {
  const [low, high] = fit.range.map((value) => String(Number(value.toFixed(3))));
  return section('Where it holds', {
    rows: [
      [
        'Indicated values',
        low === high ? `${withUnit(`${low}`, quantity)} only` : withUnit(`${low} to ${high}`, quantity),
      ],
    ],
    notes: [
      'Outside this range a corrected value is marked: the correction is carried on there by its form alone, and its ' +
        'uncertainty does not hold what that form may miss.',
    ],
  });
}
