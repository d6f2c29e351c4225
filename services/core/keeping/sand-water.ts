/** How much water a weighed sample of sand holds, and whether it had dried out when it was weighed last. */
import type { Weighing } from '../model/sand-samples.js';
import { type DryingState, dryingState } from './sand-drying.js';
import type { SandLimits } from './sand-limits.js';
import { moistureOf, type SandMoisture } from './sand-moisture.js';

export interface SandWater {
  readonly moisture: SandMoisture;
  /** `unknown` where it was weighed dry once only. */
  readonly drying: DryingState;
}

/**
 * What was weighed before it had dried out shows less water than there is: that is no proof of dry sand. An oven is held
 * to dry it in a day (ASTM D2216, from memory), a pan only where weighings say so, as far as the balance tells.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a weighing that cannot be
 */
export function waterOf(weighing: Weighing, limits: SandLimits): SandWater {
  const moisture = moistureOf(weighing, limits);
  const drying = dryingOf(weighing, limits);
  const isWeighedAgain = (weighing.driedBefore_g ?? []).length > 0;
  const mayHaveDried =
    drying === 'constant' || (drying === 'unknown' && (isWeighedAgain || weighing.way === 'oven'));
  if (mayHaveDried || moisture.dryEnough !== 'met') return { moisture, drying };
  const sentence = `Not sure: ${moisture.water_percent.toFixed(2)} % of water, and more if it had not dried out. Heat the sample again, and weigh it again.`;
  return { moisture: { ...moisture, dryEnough: 'unknown', sentence }, drying };
}

function dryingOf(
  { wet_g, dry_g, container_g, resolution_g, driedBefore_g: before = [] }: Weighing,
  limits: SandLimits,
): DryingState {
  if (before.length === 0) return 'unknown';
  return dryingState({ masses_g: [wet_g, ...before, dry_g], container_g, resolution_g }, limits);
}
