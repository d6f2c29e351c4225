/** A bench in words, on the command line. */
import type { BenchAnswer } from '../../http/index.js';

export const UNITS = { temperature: '°C', humidity: '%RH' } as const;

/** With as many digits as its uncertainty gives it: two of the uncertainty. */
export function withDigits(value: number, uncertainty: number): string {
  const digits = uncertainty > 0 ? Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(uncertainty)))) : 3;
  return value.toFixed(digits);
}

/** Cells under each other. */
export const columns = (rows: readonly (readonly string[])[]): string[] => {
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
  { id, state, quantity, probes, finishedProbes, points, settling, cautions, warnings }: BenchAnswer,
  withCautions: boolean,
): string[] {
  const unit = UNITS[quantity];
  const done = finishedProbes.length > 0 ? `; finished: ${finishedProbes.join(', ')}` : '';
  return [
    `Bench ${id}, ${state}: ${quantity} of ${probes.length} ${probes.length === 1 ? 'probe' : 'probes'}, ${probes.join(', ')}${done}`,
    ...points.map(
      ({ number, label, reference, referenceUncertainty, captured }) =>
        `  point ${number}: ${label}, ${withDigits(reference, referenceUncertainty)} ${unit} (k = 1: ${withDigits(referenceUncertainty, referenceUncertainty)}); ${captured.length} of ${probes.length} captured`,
    ),
    ...(settling.length > 0 ? ['', ...settlingLines(settling, unit)] : []),
    ...(warnings.length > 0 ? ['', ...warnings.map((warning) => `Warning: ${warning}`)] : []),
    ...(withCautions && cautions.length > 0 ? ['', ...cautions.map((caution) => `Caution: ${caution}`)] : []),
  ];
}

function settlingLines(settling: BenchAnswer['settling'], unit: string): string[] {
  return columns([
    ['probe', 'shows', 'scatter', 'per minute', 'readings', ''],
    ...settling.map(({ probe, captured, words, latest, scatter, slope_perMinute, readings }) => [
      probe,
      latest === null ? '-' : `${latest.toFixed(2)} ${unit}`,
      scatter === null ? '-' : scatter.toFixed(3),
      slope_perMinute === null ? '-' : slope_perMinute.toFixed(4),
      String(readings),
      captured ? 'captured' : words,
    ]),
  ]);
}
