/** Which treatment a bed had at a time, by the trials as they stand. */
import type { Trial } from '../core/model/trial.js';
import type { Station } from './station.js';

export interface Treated {
  readonly trial: string;
  readonly treatment: string;
  readonly block: string | null;
}

/** Of a bed at an event time, ms; undefined where it was in no trial, or had no treatment yet. */
export type TreatmentOf = (bed: string, at: number) => Treated | undefined;

interface Stretch extends Treated {
  readonly from: number;
  readonly to: number;
}

/** Whether a trial and another span have a time in common. */
export const overlaps = (
  { from, to }: Pick<Trial, 'from' | 'to'>,
  other: Pick<Trial, 'from' | 'to'>,
): boolean => from < (other.to ?? Number.POSITIVE_INFINITY) && other.from < (to ?? Number.POSITIVE_INFINITY);

/** As the trials stand now: made once for many questions. */
export function treatmentsOf({ registry }: Pick<Station, 'registry'>): TreatmentOf {
  const byBed = new Map<string, Stretch[]>();
  for (const { trial, from, to = Number.POSITIVE_INFINITY, beds } of registry.trials.standing())
    for (const { bed, treatment, block = null } of beds)
      if (treatment !== undefined)
        byBed.set(bed, [...(byBed.get(bed) ?? []), { trial, treatment, block, from, to }]);
  return (bed, at) => {
    const stretch = byBed.get(bed)?.find(({ from, to }) => at >= from && at < to);
    return stretch && { trial: stretch.trial, treatment: stretch.treatment, block: stretch.block };
  };
}
