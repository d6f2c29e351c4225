/**
 * Thresholds: each with its name, unit, default and the honest source of the default. None is a constant in
 * code; each can be set for a site or a bed.
 */
import { z } from 'zod';

export interface Threshold {
  readonly unit: string;
  readonly default: number;
  readonly low: number;
  readonly high: number;
  /** Where the default comes from: published, or `judgement`, `common practice, no source`, `from memory`. */
  readonly source: string;
  /** What it decides, in a sentence. */
  readonly meaning: string;
}

const threshold = (
  unit: string,
  value: number,
  [low, high]: readonly [number, number],
  source: string,
  meaning: string,
): Threshold => ({ unit, default: value, low, high, source, meaning });

export const THRESHOLDS = {
  heating_check_C: threshold(
    '°C',
    1.0,
    [0.2, 20],
    'judgement: no published limit; a 1 W cluster gives 1.1 to 1.6 °C at 30 to 20 cm in dry sand (computed)',
    'excess over the sound bed that, held for heating_check_h, asks for a look at the next visit',
  ),
  heating_check_h: threshold(
    'h',
    48,
    [1, 720],
    'judgement: no published limit',
    'how long heating_check_C must hold',
  ),
  heating_unpack_C: threshold(
    '°C',
    2.0,
    [0.4, 40],
    'judgement: no published limit',
    'excess over the sound bed that, held for heating_unpack_h, means unpack today',
  ),
  heating_unpack_h: threshold(
    'h',
    6,
    [1, 720],
    'judgement: no published limit',
    'how long heating_unpack_C must hold',
  ),
  heating_rate_C_per_day: threshold(
    '°C/day',
    0.3,
    [0.05, 10],
    'judgement: no published limit; the first 3 to 7 days after a source starts are when a probe 10 to 20 cm off warms (computed)',
    'rise of the excess over three days that, with at least heating_check_C of excess, means unpack today',
  ),
  damp_check_RH: threshold(
    '%RH',
    95,
    [50, 100],
    'judgement: no published limit; sound roots keep their sand at 80 to 95 %RH',
    'humidity of the pore air that, held for damp_check_h, asks for a weighed sand sample',
  ),
  damp_check_h: threshold(
    'h',
    48,
    [1, 720],
    'judgement: no published limit',
    'how long damp_check_RH must hold',
  ),
  damp_unpack_RH: threshold(
    '%RH',
    97,
    [50, 100],
    'judgement: no published limit; pore air above 97 %RH cannot be told from wet sand (Kelvin relation, computed)',
    'humidity of the pore air that, held for damp_unpack_h, means unpack today',
  ),
  damp_unpack_h: threshold(
    'h',
    48,
    [1, 720],
    'judgement: no published limit',
    'how long damp_unpack_RH must hold',
  ),
} as const satisfies Record<string, Threshold>;

export type ThresholdName = keyof typeof THRESHOLDS;
export type Thresholds = Readonly<Record<ThresholdName, number>>;

const overrideShape = Object.fromEntries(
  Object.entries(THRESHOLDS).map(([name, { low, high }]) => [name, z.number().min(low).max(high).optional()]),
) as Record<ThresholdName, z.ZodOptional<z.ZodNumber>>;

/** `{ "heating_check_C": 1.2 }`: what a site or a bed sets otherwise than the default. */
export const thresholdOverridesSchema = z.strictObject(overrideShape);

/** Thresholds of which the milder must not be above the graver. */
const ORDERED = [
  ['heating_check_C', 'heating_unpack_C'],
  ['damp_check_RH', 'damp_unpack_RH'],
] as const satisfies readonly (readonly [ThresholdName, ThresholdName])[];

/** What does not hold among thresholds in force; undefined where all does. */
export function thresholdProblem(thresholds: Thresholds): string | undefined {
  const wrong = ORDERED.find(([milder, graver]) => !(thresholds[milder] <= thresholds[graver]));
  if (!wrong) return undefined;
  const [milder, graver] = wrong;
  return `expected ${milder} not above ${graver}, got ${thresholds[milder]} and ${thresholds[graver]}`;
}

export type ThresholdOverrides = z.output<typeof thresholdOverridesSchema>;

/** The thresholds in force: the later override wins (site first, then bed). */
export function thresholdsInForce(...overrides: readonly (ThresholdOverrides | undefined)[]): Thresholds {
  const inForce = Object.fromEntries(
    Object.entries(THRESHOLDS).map(([name, { default: value }]) => [name, value]),
  ) as Record<ThresholdName, number>;
  for (const override of overrides) {
    for (const [name, value] of Object.entries(override ?? {}))
      if (value !== undefined) inForce[name as ThresholdName] = value;
  }
  return Object.freeze(inForce);
}
