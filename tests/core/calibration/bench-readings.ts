/** Readings of a made-up probe in a bath. */
import { SETTLING_RULES, settling } from '../../../services/core/calibration/settling.js';
import type { BenchReading } from '../../../services/core/calibration/settling-window.js';

export const START = 1_700_000_000_000;
export const { temperature: TEMPERATURE, humidity: HUMIDITY } = SETTLING_RULES;

/** Readings every `every_s` for `minutes`, frozen. `at` gets seconds since the start. */
export function readings(
  every_s: number,
  minutes: number,
  at: (s: number) => number,
): readonly BenchReading[] {
  const count = Math.floor((60 * minutes) / every_s) + 1;
  return Object.freeze(
    Array.from({ length: count }, (_, step) =>
      Object.freeze({ time: START + step * every_s * 1000, value: at(step * every_s) }),
    ),
  );
}

export const approach = (end: number, gap: number, constant_s: number) => (s: number) =>
  end - gap * Math.exp(-s / constant_s);

export const roundedTo = (step: number, value: number): number => Math.round(value / step) * step;

/** s from the start at which the rule first says settled, judged at each reading. */
export function settledAfter_s(all: readonly BenchReading[], rule = TEMPERATURE): number {
  const count = all.findIndex((_, at) => settling(all.slice(0, at + 1), rule).settled);
  return ((all[count]?.time ?? Number.NaN) - START) / 1000;
}
