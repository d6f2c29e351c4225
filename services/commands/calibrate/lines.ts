/** Calibrations in words, on the command line. */
import type { BenchAnswer, CalibrationAnswer } from '../../http/index.js';

export const UNITS = { temperature: '°C', humidity: '%RH' } as const;

/** With as many digits as its uncertainty gives it: two of the uncertainty. */
export function withDigits(value: number, uncertainty: number): string {
  const digits = uncertainty > 0 ? Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(uncertainty)))) : 3;
  return value.toFixed(digits);
}

const columns = (rows: readonly (readonly string[])[]): string[] => {
  const widths = (rows[0] ?? []).map((_, at) => Math.max(...rows.map((row) => (row[at] ?? '').length)));
  return rows.map((row) =>
    row
      .map((cell, at) => cell.padEnd(widths[at] ?? 0))
      .join('  ')
      .trimEnd(),
  );
};

/** A bench as it stands: its points, and how its probes settle at the current one. */
export function benchLines(
  { id, state, quantity, probes, points, settling, cautions }: BenchAnswer,
  withCautions: boolean,
): string[] {
  const unit = UNITS[quantity];
  const current = points.at(-1);
  return [
    `Bench ${id}, ${state}: ${quantity} of ${probes.length} ${probes.length === 1 ? 'probe' : 'probes'}`,
    ...points.map(
      ({ number, label, reference, referenceUncertainty, captured }) =>
        `  point ${number}: ${label}, ${withDigits(reference, referenceUncertainty)} ${unit} (k = 1: ${withDigits(referenceUncertainty, referenceUncertainty)}); ${captured.length} of ${probes.length} captured`,
    ),
    ...(current && settling.length > 0 ? ['', ...settlingLines(settling, unit)] : []),
    ...(withCautions && cautions.length > 0 ? ['', ...cautions.map((caution) => `Caution: ${caution}`)] : []),
  ];
}

function settlingLines(settling: BenchAnswer['settling'], unit: string): string[] {
  return columns([
    ['probe', 'shows', 'scatter', 'per minute', 'readings', ''],
    ...settling.map(({ probe, captured, words, mean, scatter, slope_perMinute, readings }) => [
      probe,
      mean === null ? '-' : `${mean.toFixed(2)} ${unit}`,
      scatter === null ? '-' : scatter.toFixed(3),
      slope_perMinute === null ? '-' : slope_perMinute.toFixed(4),
      String(readings),
      captured ? 'captured' : words,
    ]),
  ]);
}

/** One calibration: what it corrects by, how well that is known, and how the probe was found. */
export function calibrationLines(record: CalibrationAnswer): string[] {
  const { id, probe, quantity, from, fit, asFound, change, inForce, supersededBy } = record;
  const unit = UNITS[quantity];
  const uncertainty = Math.sqrt(fit.covariance[0]?.[0] ?? 0);
  const largest = `${withDigits(asFound.largest, asFound.standardUncertainty)} ${unit} off at ${asFound.indicated.toFixed(1)}`;
  const verdict = asFound.exceeds
    ? `above its tolerance of ${asFound.tolerance}${asFound.certain ? '' : ', though not for certain'}`
    : `within its tolerance of ${asFound.tolerance}`;
  return [
    `${probe}, ${quantity}, from ${from}: ${equation(fit, unit)}${standing(inForce, supersededBy)}`,
    `  ${fit.reason}`,
    `  known to ${withDigits(2 * uncertainty, uncertainty)} ${unit} at ${fit.centre} (k = 2, the fit alone), over ${fit.range.map((end) => end.toFixed(1)).join(' to ')} ${unit}`,
    `  as found: ${largest}, ${verdict}`,
    ...(change
      ? [
          `  since the calibration before its correction changed by ${withDigits(change.change, change.standardUncertainty)} ${unit}`,
        ]
      : []),
    ...fit.outliers.map(
      ({ index, standardised }) =>
        `  point ${index + 1} does not belong to the others (${standardised.toFixed(1)} deviations): look at it, or leave it out with a reason`,
    ),
    ...fit.leftOut.map(({ index, reason }) => `  point ${index + 1} was left out: ${reason}`),
    `  certificate: sandlarder calibrate certificate ${id}`,
  ];
}

const standing = (inForce: boolean, supersededBy: string | null): string => {
  if (supersededBy !== null) return ` (superseded by ${supersededBy})`;
  return inForce ? ' (in force)' : '';
};

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
