/** What each number and word of an alarm's evidence is called, and what it is measured in. English. */

/** What of a probe's readings a number rests on; absent where it rests on none, or on those of the whole bed. */
export type EvidenceQuantity = 'temperature' | 'humidity';

export interface EvidenceName {
  readonly label: string;
  /** `time` for an event time; absent for a word. Shares and ratios are `1`. */
  readonly unit?: string;
  readonly quantity?: EvidenceQuantity;
}

const warmth = (label: string, unit: string): EvidenceName => ({ label, unit, quantity: 'temperature' });
const moisture = (label: string, unit: string): EvidenceName => ({ label, unit, quantity: 'humidity' });
const plain = (label: string, unit: string): EvidenceName => ({ label, unit });
const word = (label: string): EvidenceName => ({ label });

const NAMES: ReadonlyMap<string, EvidenceName> = new Map([
  ['probe', word('Probe')],
  ['excess_C', warmth('Warmer than a sound bed would be there', '°C')],
  ['excessAt', plain('It was so much warmer on', 'time')],
  ['rate_C_per_day', warmth('How fast that grows', '°C/day')],
  ['probes', plain('Probes that show it', 'probes')],
  ['power_W', plain('Power of the likely source of warmth', 'W')],
  ['strength', plain('How sure', '1')],
  ['onsetAt', plain('It began about', 'time')],
  ['since', plain('Since', 'time')],
  ['dueAt', plain('The look is due by', 'time')],
  ['humidity_RH', moisture('Humidity of the air in the sand', '%RH')],
  ['before_RH', moisture('Humidity before', '%RH')],
  ['rise_RH', moisture('Rise above its own sound weeks', '%RH')],
  ['slope_RH_per_day', moisture('How fast the humidity rises', '%RH/day')],
  ['forecast_RH', moisture('Where that leads within days', '%RH')],
  ['threshold_RH', moisture('Limit of the humidity', '%RH')],
  ['held_h', moisture('How long it has been above the limit', 'h')],
  ['vapourDensity_g_m3', moisture('Water vapour in the air of the sand', 'g/m³')],
  ['vapourDensityExpected_g_m3', moisture('Water vapour as in its own sound weeks', 'g/m³')],
  ['saturation_g_m3', warmth('Water vapour that the air at the sand can hold', 'g/m³')],
  ['class', word('The sand passes heat on as')],
  ['dampProbability', warmth('Probability that the sand is damp', '1')],
  ['swingShare', warmth('Share of the daily swing that reaches it', '1')],
  ['diffusivity_m2_s', warmth('How fast heat spreads in the sand', 'm²/s')],
  ['uncertaintyFactor', warmth('By what factor that may be off', '1')],
  ['against', word('Measured against')],
  ['change_C', warmth('Change of temperature', '°C')],
  ['dewPoint_C', plain('Dew point of the air', '°C')],
  ['sand_C', warmth('Temperature of the coldest sand', '°C')],
  ['air', word('Of which air')],
  ['degreeDays', plain('Warmth gathered', '°C days')],
  ['species', word('Weevil')],
  ['source', word('Where that sum comes from')],
  ['fault', word('What the probe does')],
  ['quantity', word('Of which quantity')],
  ['drift_C_per_day', warmth('Drift of the probe', '°C/day')],
  ['drift_C', warmth('The probe reads wrong by', '°C')],
  ['shift_C', warmth('Step of the probe', '°C')],
  ['because', word('Why now')],
  ['basis', word('Judged by')],
]);

/** Names that have words of their own. */
export const EVIDENCE_NAMES: readonly string[] = [...NAMES.keys()];

/** Units by the end of a name that is not in the table: the longest first. */
const ENDINGS = [
  ['_C_per_day', '°C/day'],
  ['_RH_per_day', '%RH/day'],
  ['_m2_s', 'm²/s'],
  ['_g_m3', 'g/m³'],
  ['_RH', '%RH'],
  ['_C', '°C'],
  ['_W', 'W'],
  ['_h', 'h'],
  ['At', 'time'],
] as const;

/** A name that is not in the table is shown as it is, with the unit that it ends in: nothing is left out. */
export function evidenceName(name: string, value: number | string): EvidenceName {
  const known = NAMES.get(name);
  if (known) return known;
  const unit = ENDINGS.find(([ending]) => name.endsWith(ending))?.[1];
  if (unit !== undefined) return { label: name, unit };
  return typeof value === 'number' ? { label: name, unit: '1' } : { label: name };
}
