/** How many probes a bed needs and where, by what they would find. */
import { requireInDomain } from '../errors.js';
import { thresholdsInForce } from '../model/threshold.js';
import {
  type BedShape,
  type CoverageQuestion,
  enoughProbes,
  MOST_PROBES,
  type OnPlaced,
} from '../watch/coverage/index.js';
import { figureOf } from './plan-figures.js';

export interface PlannedProbe {
  readonly id: string;
  /** Along the length, along the width and down, cm from the north-west corner of the opening. */
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

export interface PlannedProbes {
  readonly probes: readonly PlannedProbe[];
  /** Of the bed: where a source would be told in time. */
  readonly share: number;
  /** By count of probes, from one on, from fewer places: within some hundredths. */
  readonly shares: readonly number[];
}

/** What the probes shall find: two kilograms that rot, within a week. As `sandlarder coverage` asks unless told otherwise. */
export const SOUGHT = { power_W: 2, days: 7 } as const;

function question(): CoverageQuestion {
  const thresholds = thresholdsInForce();
  return {
    ...SOUGHT,
    shade: true,
    rates: {
      unpack_per_bed_month: thresholds.heating_unpack_per_bed_month,
      check_per_bed_month: thresholds.heating_check_per_bed_month,
    },
  };
}

/**
 * Probes, each where it adds most to those before it. Costs some seconds of one core.
 *
 * @param count whole, 0 to 20; where absent as few as find three quarters of the bed, and six at the most
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function planProbes(bed: BedShape, count?: number, onPlaced?: OnPlaced): PlannedProbes {
  if (count !== undefined) requireInDomain('probes', count, 0, MOST_PROBES);
  if (count === 0) return { probes: [], share: 0, shares: [] };
  const most = count ?? figureOf('probes_most');
  // All that were asked for are taken, also where fewer would do.
  const enough = count === undefined ? figureOf('probes_enough') : Number.POSITIVE_INFINITY;
  const { placed, taken, share } = enoughProbes(bed, most, question(), enough, onPlaced);
  const probes = placed
    .slice(0, taken)
    .map(({ x, y, depth }, index) => ({ id: `p${index + 1}`, x, y, depth }));
  return { probes, share, shares: placed.map((one) => one.share) };
}
