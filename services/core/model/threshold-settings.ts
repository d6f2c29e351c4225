/** Every threshold with its value in force and where that was set, to be shown and set. */
import { READINESS_LIMITS } from './readiness-thresholds.js';
import { SAND_LIMITS } from './sand-thresholds.js';
import type { Bed, Site } from './site.js';
import { MORNING, TELLING, type TellingSettings, tellingInForce } from './telling-defaults.js';
import { THRESHOLDS, type Threshold, type ThresholdName, type ThresholdOverrides } from './threshold.js';

export const THRESHOLD_GROUPS = [
  'warmth',
  'damp',
  'looks',
  'calibration',
  'sand',
  'readiness',
  'telling',
] as const;
export type ThresholdGroup = (typeof THRESHOLD_GROUPS)[number];

export type ThresholdValue = number | string;

export interface ThresholdSetting {
  readonly name: string;
  readonly group: ThresholdGroup;
  /** What it decides, in a sentence. */
  readonly meaning: string;
  readonly unit: string;
  /** What it can be set to; null for a time of the clock. */
  readonly low: number | null;
  readonly high: number | null;
  readonly default: ThresholdValue;
  readonly source: string;
  readonly value: ThresholdValue;
  readonly setAt: 'default' | 'site' | 'bed';
  /** What would be in force if it were not set here. */
  readonly otherwise: ThresholdValue;
  /** Where it is set in a description of a site or a bed. */
  readonly path: readonly string[];
}

const GROUP_OF: Readonly<Record<ThresholdName, ThresholdGroup>> = {
  heating_unpack_per_bed_month: 'warmth',
  heating_check_per_bed_month: 'warmth',
  damp_check_RH: 'damp',
  damp_check_h: 'damp',
  damp_unpack_RH: 'damp',
  damp_unpack_h: 'damp',
  damp_rise_RH: 'damp',
  damp_rise_together_RH: 'damp',
  damp_swing_share: 'damp',
  wetting_rise_RH: 'damp',
  condensation_margin_C: 'damp',
  condensation_h: 'damp',
  inspect_every_days: 'looks',
  sprouting_base_C: 'looks',
  sprouting_sum_C_days: 'looks',
  weevil_puncticollis_sum_C_days: 'looks',
  weevil_brunneus_sum_C_days: 'looks',
  weevil_formicarius_sum_C_days: 'looks',
  probe_tolerance_C: 'calibration',
  probe_tolerance_RH: 'calibration',
  calibrate_temperature_days: 'calibration',
  calibrate_humidity_days: 'calibration',
};

type Row = readonly [name: string, group: ThresholdGroup, threshold: Threshold];

const rowsOf = (table: Readonly<Record<string, Threshold>>, group: (name: string) => ThresholdGroup): Row[] =>
  Object.entries(table).map(([name, threshold]) => [name, group(name), threshold]);

const ROWS: readonly Row[] = [
  ...rowsOf(THRESHOLDS, (name) => GROUP_OF[name as ThresholdName]),
  ...rowsOf(SAND_LIMITS, () => 'sand'),
  ...rowsOf(READINESS_LIMITS, () => 'readiness'),
];

/** Thresholds of a site, how people are told among them; those of no site where it is absent. */
export function siteThresholds(site: Partial<Pick<Site, 'thresholds' | 'telling'>> = {}): ThresholdSetting[] {
  const rows = ROWS.map((row) => {
    const own = ownOf(site.thresholds, row[0]);
    return settingOf(row, own, own === undefined ? 'default' : 'site', row[2].default);
  });
  return [...rows, ...tellingSettings(site.telling)];
}

/** Thresholds of a bed; people are told by what its site says. */
export function bedThresholds(
  site: Pick<Site, 'thresholds'>,
  bed: Pick<Bed, 'thresholds'>,
): ThresholdSetting[] {
  return ROWS.map((row) => {
    const ofSite = ownOf(site.thresholds, row[0]);
    const own = ownOf(bed.thresholds, row[0]);
    const otherwise = ofSite ?? row[2].default;
    const setAt = own !== undefined ? 'bed' : ofSite !== undefined ? 'site' : 'default';
    return settingOf(row, own, setAt, otherwise);
  });
}

const ownOf = (overrides: ThresholdOverrides | undefined, name: string): number | undefined =>
  (overrides as Readonly<Record<string, number | undefined>> | undefined)?.[name];

function settingOf(
  [name, group, threshold]: Row,
  own: number | undefined,
  setAt: ThresholdSetting['setAt'],
  otherwise: number,
): ThresholdSetting {
  const { meaning, unit, low, high, source } = threshold;
  return {
    ...{ name, group, meaning, unit, low, high, source, default: threshold.default },
    ...{ value: own ?? otherwise, setAt, otherwise, path: ['thresholds', name] },
  };
}

/** Where each is set within `telling`, whose storm has two of them. */
const TELLING_PATH: Readonly<Record<keyof typeof TELLING, readonly string[]>> = {
  most_per_bed_a_day: ['telling', 'most_per_bed_a_day'],
  storm_alarms: ['telling', 'storm', 'alarms'],
  storm_within_min: ['telling', 'storm', 'within_min'],
  repeat_after_h: ['telling', 'repeat_after_h'],
  give_up_after_h: ['telling', 'give_up_after_h'],
};

function tellingSettings(telling: TellingSettings | undefined): ThresholdSetting[] {
  const { morning } = tellingInForce(telling);
  const isMorningSet = telling?.morning !== undefined;
  return [
    {
      ...{ ...MORNING, name: 'morning', group: 'telling', unit: 'time of the clock', low: null, high: null },
      ...{ value: morning, setAt: isMorningSet ? 'site' : 'default', otherwise: MORNING.default },
      path: ['telling', 'morning'],
    },
    ...Object.entries(TELLING).map(([name, threshold]) => {
      const path = TELLING_PATH[name as keyof typeof TELLING];
      const own = valueAt({ telling }, path);
      const setting = settingOf(
        [name, 'telling', threshold],
        own,
        own === undefined ? 'default' : 'site',
        threshold.default,
      );
      return { ...setting, path };
    }),
  ];
}

function valueAt(from: unknown, path: readonly string[]): number | undefined {
  const found = path.reduce<unknown>(
    (part, key) => (part as Readonly<Record<string, unknown>> | undefined)?.[key],
    from,
  );
  return found as number | undefined;
}
