/** Which thresholds an alarm's numbers were held against, by kind and action. */
import type { Episode } from '../../model/alarm.js';
import { THRESHOLDS, type ThresholdName, type ThresholdOverrides } from '../../model/threshold.js';
import { limitFor } from '../../watch/warmth/verdict.js';
import { numberOf, wordOf } from '../evidence-values.js';

type Judged = Pick<Episode, 'kind' | 'action' | 'evidence'>;

/** What a site and its bed set otherwise than the defaults. */
export interface Overrides {
  readonly site?: ThresholdOverrides | undefined;
  readonly bed?: ThresholdOverrides | undefined;
}

export interface HeldAgainst {
  readonly name: ThresholdName;
  readonly value: number;
  readonly unit: string;
  /** Whether it is the default or was set for the site or for the bed. */
  readonly setFor: 'default' | 'site' | 'bed';
  /** Of the default. */
  readonly source: string;
  readonly meaning: string;
  /** The same in the unit of the number, where that is another: what the number had to pass. */
  readonly limit?: number;
}

const SPECIES: ReadonlyMap<string, ThresholdName> = new Map([
  ['cylas-puncticollis', 'weevil_puncticollis_sum_C_days'],
  ['cylas-brunneus', 'weevil_brunneus_sum_C_days'],
  ['cylas-formicarius', 'weevil_formicarius_sum_C_days'],
]);

const SPROUTING = ['sprouting_sum_C_days', 'sprouting_base_C'] as const;

const LOOKS: ReadonlyMap<string, readonly ThresholdName[]> = new Map<string, readonly ThresholdName[]>([
  ['two-weeks', ['inspect_every_days']],
  ['warmth', SPROUTING],
  ['sprouting', SPROUTING],
  ['weevils', [...SPECIES.values()]],
]);

const CALIBRATION_DUE = ['calibrate_temperature_days', 'calibrate_humidity_days'] as const;

/** Of damp by humidity; that by the swing has other numbers. */
function dampBy(name: string, { action, evidence }: Judged): readonly ThresholdName[] {
  const isGrave = action === 'unpack';
  const together = (numberOf(evidence, 'probes') ?? 1) > 1;
  switch (name) {
    case 'humidity_RH':
    case 'threshold_RH':
      return [isGrave ? 'damp_unpack_RH' : 'damp_check_RH'];
    case 'held_h':
      return [isGrave ? 'damp_unpack_h' : 'damp_check_h'];
    case 'rise_RH':
      return [together ? 'damp_rise_together_RH' : 'damp_rise_RH'];
    case 'forecast_RH':
      return ['damp_check_RH'];
    case 'swingShare':
      return ['damp_swing_share'];
    default:
      return [];
  }
}

function namesFor(name: string, judged: Judged): readonly ThresholdName[] {
  const { kind, action, evidence } = judged;
  if (kind === 'heating' && name === 'strength')
    return [action === 'unpack' ? 'heating_unpack_per_bed_month' : 'heating_check_per_bed_month'];
  if (kind === 'damp') return dampBy(name, judged);
  if (kind === 'wetting' && name === 'humidity_RH') return ['wetting_rise_RH'];
  if (kind === 'condensation' && name === 'dewPoint_C') return ['condensation_margin_C', 'condensation_h'];
  if (kind === 'sprouting' && name === 'degreeDays') return SPROUTING;
  if (kind === 'weevil' && name === 'degreeDays') {
    const sum = SPECIES.get(wordOf(evidence, 'species') ?? '');
    return sum ? [sum] : [];
  }
  if (kind === 'inspection-due' && name === 'dueAt')
    return LOOKS.get(wordOf(evidence, 'because') ?? '') ?? [];
  const isDue = kind === 'probe-fault' && wordOf(evidence, 'fault') === 'calibration-due';
  return isDue && name === 'since' ? CALIBRATION_DUE : [];
}

/** A rate of false alarms is passed where the weight of the evidence passes the logarithm of its run length. */
const limitOf = (name: ThresholdName, value: number): { limit?: number } =>
  name.startsWith('heating_') ? { limit: Number(limitFor(value).toFixed(2)) } : {};

function heldAgainst(name: ThresholdName, { site, bed }: Overrides): HeldAgainst {
  const { default: usual, unit, source, meaning } = THRESHOLDS[name];
  const [ofBed, ofSite] = [bed?.[name], site?.[name]];
  const value = ofBed ?? ofSite ?? usual;
  const setFor = ofBed !== undefined ? 'bed' : ofSite !== undefined ? 'site' : 'default';
  return { name, value, unit, setFor, source, meaning, ...limitOf(name, value) };
}

/**
 * What one number of an alarm was held against; none where it only tells more.
 *
 * A bed whose thresholds are changed is judged anew from its first hour: so what is set is what was in force for every
 * alarm that stands. A limit that the evidence itself names was in force, whatever is set since.
 */
export function thresholdsOf(name: string, judged: Judged, overrides: Overrides): HeldAgainst[] {
  return namesFor(name, judged).map((threshold) => {
    const held = heldAgainst(threshold, overrides);
    const named = threshold.endsWith('_RH') && name !== 'rise_RH' && name !== 'forecast_RH';
    const inForce = judged.kind === 'damp' && named ? numberOf(judged.evidence, 'threshold_RH') : undefined;
    return inForce === undefined ? held : { ...held, value: inForce };
  });
}
