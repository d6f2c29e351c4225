/** What of a bed is of the filling that is in it now. */
import type { Bed, Latest, Probe } from '../api/types/bed.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';

/** Whether nothing was measured since it was filled, though something was before. */
export const isFilledAnew = ({ filled, probes }: Pick<Bed, 'filled' | 'probes'>): boolean =>
  filled !== null &&
  probes.some(({ latest }) => latest !== null) &&
  !probes.some(({ latest }) => isSince(latest, filled));

const isSince = (latest: Latest | null, filled: string): boolean =>
  latest !== null && Date.parse(latest.at) >= Date.parse(filled);

/** Whether what a probe said last is of the filling that is in the bed now. */
export const isOfThisFilling = (
  { filled }: Pick<Bed, 'filled'>,
  { latest }: Pick<Probe, 'latest'>,
): boolean => filled === null || isSince(latest, filled);

/** What was measured before the bed was filled is of other roots: its probes as they stand in this filling. */
export function inThisFilling<Known extends Pick<Bed, 'filled' | 'probes'>>(bed: Known): Known {
  const { probes } = bed;
  return {
    ...bed,
    probes: probes.map((probe) =>
      isOfThisFilling(bed, probe)
        ? probe
        : { ...probe, latest: null, expected_C: null, band_C: null, excess_C: null },
    ),
  };
}

/** Why nothing is to be shown of its season. */
export const noSeasonSaid = (bed: Pick<Bed, 'filled' | 'probes'>): string =>
  bed.filled !== null && isFilledAnew(bed)
    ? say('bed.noReadingSince', { when: dayAndTime(bed.filled) })
    : say('bed.noSeason');
