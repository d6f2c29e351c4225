/** The points of a calibration as a certificate lists them: all that were given, those left out with their reason. */
import type { CalibrationPoint } from '../model/calibration.js';
import type { Calibration } from '../model/calibration-record.js';
import {
  type CertificateColumn,
  type CertificateSection,
  type CertificateTable,
  section,
} from './certificate-document.js';
import { NONE, numberOf, pointOf, SOURCE_WORDS, timeInWords } from './certificate-words.js';
import { correctionOf } from './point.js';
import { roundTo, signedText, uncertaintyText } from './rounding.js';
import { UNIT } from './words.js';

const text = (head: string, share: number): CertificateColumn => ({ head, isNumber: false, share });
const number = (head: string, share: number): CertificateColumn => ({ head, isNumber: true, share });

const POINT_COLUMNS: readonly CertificateColumn[] = [
  number('Nr', 3),
  text('Time', 9),
  text('Source', 11),
  number('Indicated', 8),
  number('Scatter', 7),
  number('Readings', 7.5),
  number('Reference', 8),
  number('u of reference', 8),
  number('Correction', 8.5),
  number('Residual', 8),
  number('Residual / its s', 8),
  text('', 7),
];

const REMARK_COLUMNS: readonly CertificateColumn[] = [
  number('Nr', 3),
  text('What', 12),
  number('Residual', 8),
  text('Why', 40),
];

export function pointsSection(record: Calibration, timeZone: string | null): CertificateSection {
  const unit = UNIT[record.quantity];
  const remarks = remarksTable(record);
  return section('Points', {
    tables: [
      {
        caption: `All points that were given, values in ${unit}`,
        columns: POINT_COLUMNS,
        rows: record.points.map((point, index) => pointRow(record, point, index, timeZone)),
      },
      ...(remarks.rows.length === 0 ? [] : [remarks]),
    ],
    notes: [
      'Indicated: what the probe showed, the mean of so many readings; scatter: standard deviation of one of them. ' +
        'u: standard uncertainty. Correction: reference less indicated. Residual: correction measured less correction ' +
        'fitted; the last number is the residual in its own standard deviations.',
    ],
  });
}

function pointRow(
  { fit }: Calibration,
  point: CalibrationPoint,
  index: number,
  timeZone: string | null,
): string[] {
  const { at, indicated, indicatedScatter, indicatedCount, reference, referenceUncertainty } = point;
  const used = fit.residuals.find((one) => one.index === index);
  const left = fit.leftOut.find((one) => one.index === index);
  const residual = used?.residual ?? left?.residual;
  return [
    numberOf(index),
    at === undefined ? NONE : timeInWords(at, timeZone),
    sourceText(point),
    roundTo(indicated, referenceUncertainty),
    indicatedScatter === undefined ? NONE : uncertaintyText(indicatedScatter),
    indicatedCount === undefined ? NONE : String(indicatedCount),
    roundTo(reference, referenceUncertainty),
    uncertaintyText(referenceUncertainty),
    signedText(correctionOf(point), referenceUncertainty),
    residual === undefined ? NONE : signedText(residual, referenceUncertainty),
    used?.standardised === undefined ? NONE : used.standardised.toFixed(1).replace('-0.0', '0.0'),
    left === undefined ? (fit.outliers.some((one) => one.index === index) ? 'outlier' : '') : 'left out',
  ];
}

function sourceText({ source, label, temperature_C }: CalibrationPoint): string {
  const parts = [SOURCE_WORDS[source]];
  if (label !== undefined) parts.push(label);
  if (temperature_C !== undefined) parts.push(`${Number(temperature_C.toFixed(2))} °C`);
  return parts.join(', ');
}

/** Points that were left out, and points that do not belong to the others, in the order of their numbers. */
function remarksTable(record: Calibration): CertificateTable {
  const { fit, quantity } = record;
  const remarks = [
    ...fit.leftOut.map(({ index, residual, reason }) => ({ index, residual, what: 'left out', why: reason })),
    ...fit.outliers.map(({ index, residual, standardised, bound }) => ({
      index,
      residual,
      what: 'outlier, used',
      why:
        `It does not belong to the others: its residual is ${Math.abs(standardised).toFixed(1)} of its own standard ` +
        `deviations, where up to ${bound.toFixed(1)} is to be expected. It was named, not dropped.`,
    })),
  ].sort((one, other) => one.index - other.index);
  return {
    caption: `Points left out, and points that do not belong to the others; residuals in ${UNIT[quantity]}`,
    columns: REMARK_COLUMNS,
    rows: remarks.map(({ index, residual, what, why }) => [
      numberOf(index),
      what,
      signedText(residual, pointOf(record, index).referenceUncertainty),
      why,
    ]),
  };
}
