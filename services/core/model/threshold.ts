/**
 * Thresholds: each with its name, unit, default and the honest source of the default. None is a constant in
 * code; each can be set for a site or a bed.
 */
import { z } from 'zod';
import { KEEPING_THRESHOLDS, type KeepingThresholdName } from './keeping-threshold.js';
import { type Threshold, threshold } from './threshold-table.js';

export { type Threshold, threshold };

export const THRESHOLDS = {
  heating_unpack_per_bed_month: threshold(
    'alarms/bed-month',
    0.0001,
    [0.000001, 1],
    'judgement: by the filter alone; beds that differ from its model cry more often, see the evaluation in DEVELOPERS.md',
    'how often a sound bed may be told to be unpacked for warmth: a lower rate waits for more evidence',
  ),
  heating_check_per_bed_month: threshold(
    'alarms/bed-month',
    0.1,
    [0.001, 10],
    'judgement: less often than the two-weekly look that is had anyway',
    'how often a sound bed may be told to be looked into for warmth at the next visit',
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
  damp_rise_RH: threshold(
    '%RH',
    6,
    [1, 50],
    'judgement: no published limit; twice what a sensor creeps above 80 %RH (3 %RH after 60 h, data sheets)',
    'rise of one probe above its own sound weeks that, on the way to damp_check_RH, asks for a look',
  ),
  damp_rise_together_RH: threshold(
    '%RH',
    3,
    [1, 50],
    'judgement: no published limit; several points within days',
    'the same rise where two or more probes of a bed have it',
  ),
  damp_swing_share: threshold(
    'share',
    0.15,
    [0.05, 0.9],
    'judgement: no published limit; at 20 cm 0.065 of the swing is left in dry sand, 0.30 in moist (computed)',
    'share of the outdoor daily swing at 20 cm or deeper above which the sand is held to be damp',
  ),
  wetting_rise_RH: threshold(
    '%RH',
    2.5,
    [1, 50],
    'judgement: no published limit; sound sand changes by less in days',
    'rise within two hours, to 90 %RH or more, by which a wet front is known',
  ),
  condensation_margin_C: threshold(
    '°C',
    0.5,
    [0, 10],
    'judgement: no published limit; the error of a dew point from cheap sensors',
    'dew point above the coldest sand that, held for condensation_h, lets water condense there',
  ),
  condensation_h: threshold(
    'h',
    3,
    [1, 720],
    'judgement: no published limit',
    'how long condensation_margin_C must hold for the air outside; for the air inside the bed it is a day',
  ),
  inspect_every_days: threshold(
    'days',
    14,
    [1, 14],
    'common practice, no source: a look about every two weeks; it can be set shorter, never longer',
    'days after the last opening or the filling at which a look by hand is due at the latest',
  ),
  probe_tolerance_C: threshold(
    '°C',
    0.5,
    [0.05, 10],
    'judgement: twice what cheap sensors are sold as; a source shows at 0.5 °C',
    'error of a temperature as found at a calibration above which the readings since the one before are marked',
  ),
  probe_tolerance_RH: threshold(
    '%RH',
    5,
    [0.5, 30],
    'judgement: twice what cheap sensors are sold as',
    'the same for a humidity',
  ),
  calibrate_temperature_days: threshold(
    'days',
    365,
    [7, 3650],
    'common practice, no source: once a season',
    'days after the last calibration of a temperature at which the next is due; a probe that never had one has none due',
  ),
  calibrate_humidity_days: threshold(
    'days',
    180,
    [7, 3650],
    'judgement: cheap humidity sensors go off by up to 0.5 %RH a year in clean air, by more in damp sand',
    'the same for a humidity',
  ),
  sprouting_base_C: threshold(
    '°C',
    13.4,
    [5, 20],
    'judgement: illustrative, computed from two points (21 days at 27 °C, 180 days at 15 °C); cultivars differ widely',
    'temperature above which sprouting goes on, in proportion to the degrees above it',
  ),
  sprouting_sum_C_days: threshold(
    '°C days',
    285,
    [50, 2000],
    'judgement: illustrative, computed from two points (21 days at 27 °C, 180 days at 15 °C) in moist air; dry sand should be slower',
    'degree-days above sprouting_base_C since filling or repacking after which sprouts are to be looked for',
  ),
  weevil_puncticollis_sum_C_days: threshold(
    '°C days',
    385,
    [100, 2000],
    'judgement: computed from 20 to 28 days from egg to adult at 27 °C (Smit & van Huis) with the base of C. brunneus, borrowed',
    'degree-days above 11 °C since filling after which eggs of Cylas puncticollis have become adults',
  ),
  weevil_brunneus_sum_C_days: threshold(
    '°C days',
    545,
    [100, 2000],
    'judgement: computed from development times of a published abstract that contradicts itself, in their likeliest reading',
    'degree-days above 11 °C since filling after which eggs of Cylas brunneus have become adults',
  ),
  weevil_formicarius_sum_C_days: threshold(
    '°C days',
    480,
    [100, 2000],
    'judgement: weak, computed from about 33 days at 27 to 30 °C (a web page) with the mean base of stored-product beetles',
    'degree-days above 14 °C since filling after which eggs of Cylas formicarius have become adults',
  ),
} as const satisfies Record<string, Threshold>;

export type ThresholdName = keyof typeof THRESHOLDS;
export type Thresholds = Readonly<Record<ThresholdName, number>>;

const overrideShape = Object.fromEntries(
  Object.entries({ ...THRESHOLDS, ...KEEPING_THRESHOLDS }).map(([name, { low, high }]) => [
    name,
    z.number().min(low).max(high).optional(),
  ]),
) as Record<ThresholdName | KeepingThresholdName, z.ZodOptional<z.ZodNumber>>;

/** `{ "damp_check_RH": 94 }`: what a site or a bed sets otherwise than the default, of the watch or of keeping. */
export const thresholdOverridesSchema = z.strictObject(overrideShape);

/** Thresholds of which the milder must not be above the graver. */
const ORDERED = [
  ['heating_unpack_per_bed_month', 'heating_check_per_bed_month'],
  ['damp_check_RH', 'damp_unpack_RH'],
  ['damp_rise_together_RH', 'damp_rise_RH'],
] as const satisfies readonly (readonly [ThresholdName, ThresholdName])[];

/** What does not hold among thresholds in force; undefined where all does. */
export function thresholdProblem(thresholds: Thresholds): string | undefined {
  const wrong = ORDERED.find(([milder, graver]) => !(thresholds[milder] <= thresholds[graver]));
  if (!wrong) return undefined;
  const [milder, graver] = wrong;
  return `expected ${milder} not above ${graver}, got ${thresholds[milder]} and ${thresholds[graver]}`;
}

export type ThresholdOverrides = z.output<typeof thresholdOverridesSchema>;

/** The thresholds of the watch in force: the later override wins (site first, then bed). */
export function thresholdsInForce(...overrides: readonly (ThresholdOverrides | undefined)[]): Thresholds {
  const inForce = Object.fromEntries(
    Object.entries(THRESHOLDS).map(([name, { default: value }]) => [name, value]),
  ) as Record<ThresholdName, number>;
  for (const override of overrides) {
    for (const [name, value] of Object.entries(override ?? {}))
      if (value !== undefined && name in THRESHOLDS) inForce[name as ThresholdName] = value;
  }
  return Object.freeze(inForce);
}
