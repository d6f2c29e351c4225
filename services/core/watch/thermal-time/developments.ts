/**
 * What develops in a bed with its warmth: data, each with the honest tag of its source. None of the sums is
 * published as such, and the tags say so to whoever reads them.
 *
 * The weevils' sums are for eggs that came in with the roots. Larvae and pupae came in too and emerge sooner; no
 * sum tells when, and the look by hand stays.
 */
import { requireInDomain } from '../../errors.js';
import { THRESHOLDS, type ThresholdName, type Thresholds, thresholdsInForce } from '../../model/threshold.js';

export const DEVELOPMENT_NAMES = [
  'sprouting',
  'cylas-puncticollis',
  'cylas-brunneus',
  'cylas-formicarius',
] as const;
export type DevelopmentName = (typeof DEVELOPMENT_NAMES)[number];

export interface Development {
  readonly name: DevelopmentName;
  readonly kind: 'sprouting' | 'weevils';
  /** °C at and below which nothing develops. */
  readonly base_C: number;
  /** °C at and above which nothing develops; absent where nobody has said. */
  readonly upper_C?: number;
  /** Degree-days above the base after which sprouts are short and adults emerge. */
  readonly sum_C_days: number;
  /** Share of the sum at which a look must have fallen. */
  readonly lookAtShare: number;
  readonly source: string;
}

export interface ThermalTimeSettings {
  /** Days from a look to the next, at the latest; in [1, 14]. */
  readonly inspectEvery_days: number;
  readonly developments: readonly Development[];
}

/** Sprouts of 6 mm, which the sum stands for, are short: they are rubbed off up to 15 mm (common practice). */
const SPROUTS_LOOK_SHARE = 1;

/** The quickest adults of C. puncticollis take 20 days where the middle takes 24: 0.83, and some days' grace. Judgement. */
const WEEVILS_LOOK_SHARE = 0.8;

const NEEDED = [
  'inspect_every_days',
  'sprouting_base_C',
  'sprouting_sum_C_days',
  'weevil_puncticollis_sum_C_days',
  'weevil_brunneus_sum_C_days',
  'weevil_formicarius_sum_C_days',
] as const satisfies readonly ThresholdName[];

/**
 * What a bed's thresholds make of the data.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a threshold out of its range
 */
export function thermalTimeSettings(thresholds: Thresholds): ThermalTimeSettings {
  for (const name of NEEDED)
    requireInDomain(name, thresholds[name], THRESHOLDS[name].low, THRESHOLDS[name].high);
  return Object.freeze({
    inspectEvery_days: thresholds.inspect_every_days,
    developments: Object.freeze([sprouting(thresholds), ...weevils(thresholds)]),
  });
}

function sprouting(thresholds: Thresholds): Development {
  return {
    name: 'sprouting',
    kind: 'sprouting',
    base_C: thresholds.sprouting_base_C,
    sum_C_days: thresholds.sprouting_sum_C_days,
    lookAtShare: SPROUTS_LOOK_SHARE,
    source:
      'computed, illustrative: a line through two points, 21 days at 27 °C (2 to 4 weeks at 24 to 29 °C to sprouts of 6 mm, verified) and 180 days at 15 °C (about 6 months at 12.5 to 15 °C, verified); above 27 °C it goes beyond both; moist air, so dry sand should be slower; cultivars differ widely',
  };
}

function weevils(thresholds: Thresholds): Development[] {
  const weevil = { kind: 'weevils', lookAtShare: WEEVILS_LOOK_SHARE } as const;
  return [
    {
      ...weevil,
      name: 'cylas-puncticollis',
      base_C: 11,
      sum_C_days: thresholds.weevil_puncticollis_sum_C_days,
      source:
        'computed: egg to adult in 20 to 28 days at 27 °C (Smit & van Huis, abstract, verified), 320 to 450 degree-days; the base is borrowed from C. brunneus; no upper limit found',
    },
    {
      ...weevil,
      name: 'cylas-brunneus',
      base_C: 11,
      upper_C: 35,
      sum_C_days: thresholds.weevil_brunneus_sum_C_days,
      source:
        'computed: a line through 59.4 days at 20 °C, 34.7 at 25 °C and 28.7 at 30 °C, base 10 to 11 °C, 530 to 555 degree-days; an inference, as the abstract (Uganda J. Agric. Sci. article 360) contradicts itself on the temperatures; agrees with 32 to 41 days at 27 °C (Smit & van Huis, abstract, verified); at 35 °C larvae do not pupate (same abstract, verified)',
    },
    {
      ...weevil,
      name: 'cylas-formicarius',
      base_C: 14,
      sum_C_days: thresholds.weevil_formicarius_sum_C_days,
      source:
        'weak, computed: about 33 days at 27 to 30 °C (a web page); no base found, so the mean of stored-product beetles (Stejskal et al. 2019, verified); no upper limit found',
    },
  ];
}

/** With every threshold at its default. */
export const DEFAULT_SETTINGS: ThermalTimeSettings = thermalTimeSettings(thresholdsInForce());

/** Degree-days that an hour, or a day, of the temperature gives in a day; 0 outside the range of development. */
export function degreesAbove({ base_C, upper_C }: Development, temperature_C: number): number {
  if (upper_C !== undefined && temperature_C >= upper_C) return 0;
  return Math.max(0, temperature_C - base_C);
}
