/** Calibrations in words, on the command line: in a line each, or at length. */
import type { CalibrationAnswer } from '../../http/index.js';
import { columns, UNITS, withDigits } from './lines.js';

/** What it corrects by, how well that is known, and how the probe was found. */
export function calibrationLines(record: CalibrationAnswer, isKept: boolean): string[] {
  const { id, probe, quantity, from, fit, change, cautions } = record;
  const unit = UNITS[quantity];
  return [
    `${probe}, ${quantity}, from ${from}: ${equation(fit, unit)}${standing(record, ' (', ')')}`,
    `  ${fit.reason}`,
    `  ${knownTo(record)}`,
    `  ${stepWords(fit, unit)}`,
    `  ${asFound(record)}`,
    ...(change
      ? [
          `  since the calibration before its correction changed by ${withDigits(change.change, change.standardUncertainty)} ${unit}`,
        ]
      : []),
    ...fit.outliers.map(
      ({ index, standardised }) =>
        `  ${pointName(record, index)} does not belong to the others (${standardised.toFixed(1)} deviations): look at it, or leave it out with a reason`,
    ),
    ...fit.leftOut.map(({ index, reason }) => `  ${pointName(record, index)} was left out: ${reason}`),
    ...cautions.map((caution) => `  ${caution}`),
    ...(isKept ? [`  certificate: sandlarder calibrate certificate ${id}`] : []),
  ];
}

/** The newest first: a line each, under a head. */
export function recordTable(records: readonly CalibrationAnswer[]): string[] {
  return columns([
    ['probe', 'quantity', 'from', 'done', 'by', 'form', 'U (k = 2)', '', 'id'],
    ...records.map((record) => [
      ...[record.probe, record.quantity, record.from, record.doneAt, record.by, record.fit.form],
      `${withDigits(record.uncertainty.expanded, record.uncertainty.expanded)} ${UNITS[record.quantity]}`,
      standing(record, '', ''),
      record.id,
    ]),
  ]);
}

function knownTo({ fit, uncertainty, quantity }: CalibrationAnswer): string {
  const { expanded, indicated } = uncertainty;
  const unit = UNITS[quantity];
  const range = fit.range.map((end) => end.toFixed(1)).join(' to ');
  return `one corrected reading is known to ${withDigits(expanded, expanded)} ${unit} at ${indicated.toFixed(1)} (k = 2, all that is known of it), over ${range} ${unit}`;
}

const STEP_FROM = {
  given: 'as given',
  seen: 'as its readings show',
  usual: 'that of a usual sensor, since its readings show none',
} as const;

const stepWords = (
  { resolution, resolutionFrom = 'given' }: CalibrationAnswer['fit'],
  unit: string,
): string =>
  resolution === undefined
    ? 'step of the probe not known, not counted'
    : `step of the probe: ${resolution} ${unit}, ${STEP_FROM[resolutionFrom]}`;

function asFound({ asFound: found, quantity }: CalibrationAnswer): string {
  const { largest, standardUncertainty, indicated, tolerance, exceeds, certain } = found;
  const off = `${withDigits(largest, standardUncertainty)} ${UNITS[quantity]} off at ${indicated.toFixed(1)}`;
  return exceeds
    ? `as found: ${off}, above its tolerance of ${tolerance}${certain ? '' : ', though not for certain'}`
    : `as found: ${off}, within its tolerance of ${tolerance}`;
}

const NAMED = /^(?:point|line) \d+/;

/** By the number of the bench or the line of the file, where the point has one. */
const pointName = ({ points }: CalibrationAnswer, index: number): string =>
  NAMED.exec(points[index]?.label ?? '')?.[0] ?? `point ${index + 1}`;

function standing({ inForce, supersededBy }: CalibrationAnswer, before: string, after: string): string {
  if (supersededBy !== null) return `${before}superseded by ${supersededBy}${after}`;
  return inForce ? `${before}in force${after}` : '';
}

function equation({ coefficients, centre }: CalibrationAnswer['fit'], unit: string): string {
  const [offset = 0, gain, bend] = coefficients;
  const around = `(shown - ${centre})`;
  return [
    `corrected = shown ${signed(offset, 3)} ${unit}`,
    ...(gain === undefined ? [] : [`${signed(gain, 5)} ${around}`]),
    ...(bend === undefined ? [] : [`${signed(bend, 6)} ${around}²`]),
  ].join(' ');
}

const signed = (value: number, digits: number): string =>
  `${value < 0 ? '-' : '+'} ${Math.abs(value).toFixed(digits)}`;
