/** Which probes stand where, for whoever asks what they would find. */
import type { Probe } from '../../model/site.js';
import type { Point } from '../warmth/responses.js';

/** The last placements of probes, those that have ended left out. */
const lastOf = (probes: readonly Probe[], now: number): Probe['placements'] =>
  probes.flatMap(({ placements }) => {
    const last = placements.at(-1);
    return last && !(now >= (last.to ?? Number.POSITIVE_INFINITY)) ? [last] : [];
  });

/**
 * @param now ms: placements that ended by then are over, those that begin later count
 * @returns cm, in the order of the probes
 */
export const standingIn = (bed: string, probes: readonly Probe[], now: number): Point[] =>
  lastOf(probes, now).flatMap((placement) => {
    if (placement.ambient || placement.bed !== bed) return [];
    const { x, y, depth } = placement;
    return [{ x, y, depth }];
  });

/** Whether any of the probes stands in the shade outside. */
export const shadeStands = (probes: readonly Probe[], now: number): boolean =>
  lastOf(probes, now).some(({ ambient }) => ambient === true);
