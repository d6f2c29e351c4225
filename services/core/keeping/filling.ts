/**
 * What a buried probe shows of the daily swing outside if it lies where it was said to lie, in dry sand.
 *
 * Source: `way-to-air.ts` for the sand; what lies between the air and the sand, and how far beds differ, as the watch
 * for damp has them. Deep in dry sand so little of the swing is left that nothing can be told: at 30 cm about 1 %.
 */
import { requireInDomain } from '../errors.js';
import type { CoveredBed } from '../watch/dampness/cover.js';
import { DAMPNESS } from '../watch/dampness/parameters.js';
import { DRY_DAMPING_cm, type Place, throughSand } from './way-to-air.js';

export interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export interface ExpectedSwing {
  readonly depth_cm: number;
  /** Share of the amplitude outside that reaches the probe. */
  readonly share: Range;
  /** By how much the warmest time of day is later than outside, h; may exceed a day. */
  readonly lag_h: Range;
  /** Damping depths from the air to the probe, in one number for both. */
  readonly way: number;
  /** Standard uncertainty of it by what is not known of sand, roof and walls, and with that of the place as said. */
  readonly ofBed: number;
  readonly deviation: number;
}

/** Standard deviations to either side of the likely value: 95 %. */
export const DEVIATIONS = 2;

/** Hours in a radian of lag. */
export const HOUR_of_lag = 24 / (2 * Math.PI);

/** @throws SandlarderError OUT_OF_DOMAIN for a depth below 0 or above 300 cm */
export function expectedSwing(bed: CoveredBed, place: Place): ExpectedSwing {
  requireInDomain('depth, cm,', place.depth, 0, 300);
  const { beside, drySpread } = DAMPNESS;
  const sand = throughSand(bed, place);
  const { attenuation, lag, deviation: above } = beside[bed.kind];
  const inSand = (sand.lag - Math.log(sand.share)) / 2;
  // A damping depth grows with the root of the diffusivity.
  const ofBed = Math.hypot((inSand * drySpread) / 2, above);
  const deviation = Math.hypot(ofBed, DAMPNESS.depth_cm / DRY_DAMPING_cm);
  const share = sand.share * Math.exp(-attenuation);
  const lag_h = (sand.lag + lag) * HOUR_of_lag;
  const off = DEVIATIONS * deviation;
  return {
    depth_cm: place.depth,
    share: { low: share * Math.exp(-off), likely: share, high: Math.min(1, share * Math.exp(off)) },
    lag_h: {
      low: Math.max(0, lag_h - off * HOUR_of_lag),
      likely: lag_h,
      high: lag_h + off * HOUR_of_lag,
    },
    way: inSand + (attenuation + lag) / 2,
    ...{ ofBed, deviation },
  };
}
