/** What trials say of beds, for exports. */
import type { Registry } from '../registry/index.js';
import type { TreatmentPort } from './export-chunks.js';
import type { BedsOfTrial } from './export-selection.js';

interface Treated {
  readonly from: number;
  readonly to: number;
  readonly treatment: string;
}

/**
 * Trials as they stand. Where two hold a bed at one time, what was written down last is told; of a chosen trial its own.
 */
export function treatmentsIn(
  { trials }: Pick<Registry, 'trials'>,
  chosen: string | undefined,
): TreatmentPort {
  const byBed = new Map<string, Treated[]>();
  for (const { trial, from, to = Number.POSITIVE_INFINITY, beds } of trials.standing()) {
    if (chosen !== undefined && trial !== chosen) continue;
    for (const { bed, treatment } of beds)
      if (treatment !== undefined) byBed.set(bed, [...(byBed.get(bed) ?? []), { from, to, treatment }]);
  }
  return {
    isTreated: (bed) => byBed.has(bed),
    treatmentOf: (bed, at) =>
      byBed.get(bed)?.find(({ from, to }) => at >= from && at < to)?.treatment ?? null,
  };
}

export const bedsOfTrial =
  ({ trials }: Pick<Registry, 'trials'>): BedsOfTrial =>
  (id) =>
    trials
      .standing()
      .find(({ trial }) => trial === id)
      ?.beds.map(({ bed }) => bed);
