/**
 * How long warm sand takes to cool to the shade, by conduction.
 *
 * A bed that was filled warm is a block whose six faces are held at the shade's daily mean: its remainder is the
 * product of three slabs [Carslaw & Jaeger 1959, 1.15, clause from memory]. Sand spread out cools through its top
 * alone (the ground below it is as warm: judgement). Both are held at the shade at once, without a film of air: real
 * sand takes longer, so that what is returned is the least.
 */
import { requireInDomain } from '../errors.js';
import { centreRemainder, diffusivityOfSand_m2_s, fourierNumber } from '../physics/index.js';
import { type CitedLimit, cite, SAND_LIMITS, type SandLimits, sandLimits } from './sand-limits.js';

export type SandBody =
  | {
      readonly shape: 'block';
      readonly length_cm: number;
      readonly width_cm: number;
      readonly height_cm: number;
    }
  | { readonly shape: 'layer'; readonly thickness_cm: number };

export const COOLING_VERDICTS = ['fill', 'wait until evening', 'wait longer'] as const;
export type CoolingVerdict = (typeof COOLING_VERDICTS)[number];

export interface SandCooling {
  /** Sand less the shade's daily mean, °C; below 0 it is colder. */
  readonly above_C: number;
  /** Until the warmest place is within the limit at the earliest, s; 0 where it is. */
  readonly least_s: number;
  readonly verdict: CoolingVerdict;
  readonly limit: CitedLimit;
  readonly sentence: string;
}

export interface WarmSand {
  readonly sand_C: number;
  /** Mean of the shade over a day. */
  readonly shadeMean_C: number;
  readonly body: SandBody;
  /** m2/s; that of loose dry sand where absent. */
  readonly diffusivity_m2_s?: number | undefined;
}

/** Loose and dry: the slowest that sand cools. */
const DRY_DIFFUSIVITY_m2_s = diffusivityOfSand_m2_s(0.4, 0);

/** From here on the series of a slab is used; before, its middle has felt nothing (to 1e-13). */
const LEAST_FOURIER = 0.001;

const LEAST_cm = 1;
const MOST_cm = 500;

/** Halvings: 60 leave less than the last binary digit. */
const HALVINGS = 60;

/**
 * Whether sand is cool enough to be filled in, and else how long it has to wait.
 *
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function sandCooling(sand: WarmSand, limits: SandLimits = sandLimits()): SandCooling {
  requireInDomain('temperature of the sand, °C,', sand.sand_C, -20, 90);
  requireInDomain('mean of the shade, °C,', sand.shadeMean_C, -20, 60);
  const within_C = limits.sand_warm_above_C;
  const above_C = sand.sand_C - sand.shadeMean_C;
  const least_s = coolingTime_s(sand.body, above_C, within_C, sand.diffusivity_m2_s);
  const verdict = verdictOf(least_s, limits.sand_evening_h);
  return {
    above_C,
    least_s,
    verdict,
    limit: cite(SAND_LIMITS, 'sand_warm_above_C', within_C),
    sentence: sentenceOf(above_C, least_s, verdict, within_C),
  };
}

/**
 * Least time until the warmest place of a body is within some °C of what surrounds it.
 *
 * @param above_C by which it is warmer at first, -100 to 100
 * @param within_C above 0
 * @param diffusivity_m2_s of loose dry sand where absent
 * @returns s; 0 where it is no warmer than that
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function coolingTime_s(
  body: SandBody,
  above_C: number,
  within_C: number,
  diffusivity_m2_s: number = DRY_DIFFUSIVITY_m2_s,
): number {
  requireInDomain('warmth above the shade, °C,', above_C, -100, 100);
  requireInDomain('warmth that is left, °C,', within_C, 0.01, 50);
  const radii_m = radiiOf(body);
  const share = within_C / above_C;
  const left = (time_s: number): number =>
    radii_m.reduce((product, radius_m) => product * slabRemainder(diffusivity_m2_s, time_s, radius_m), 1);
  // First of all, so that a diffusivity that no solid has is refused whatever the temperatures.
  const leftAtOnce = left(1);
  if (!(above_C > within_C && leftAtOnce > share)) return 0;
  let [low_s, high_s] = [1, 2];
  while (left(high_s) > share) [low_s, high_s] = [high_s, 2 * high_s];
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const middle_s = (low_s + high_s) / 2;
    if (left(middle_s) > share) low_s = middle_s;
    else high_s = middle_s;
  }
  return high_s;
}

/** Half the thickness of each slab; a layer is half a slab of twice its thickness. */
function radiiOf(body: SandBody): readonly number[] {
  if (body.shape === 'layer') {
    requireInDomain('thickness of the layer, cm,', body.thickness_cm, LEAST_cm, MOST_cm);
    return [body.thickness_cm / 100];
  }
  return [body.length_cm, body.width_cm, body.height_cm].map((side_cm) => {
    requireInDomain('side of the block, cm,', side_cm, LEAST_cm, MOST_cm);
    return side_cm / 200;
  });
}

function slabRemainder(diffusivity_m2_s: number, time_s: number, radius_m: number): number {
  const fourier = fourierNumber(diffusivity_m2_s, time_s, radius_m);
  return fourier < LEAST_FOURIER ? 1 : centreRemainder('slab', fourier);
}

function verdictOf(least_s: number, evening_h: number): CoolingVerdict {
  if (least_s === 0) return 'fill';
  return least_s <= evening_h * 3600 ? 'wait until evening' : 'wait longer';
}

function sentenceOf(above_C: number, least_s: number, verdict: CoolingVerdict, within_C: number): string {
  const found = `the sand is ${Math.abs(above_C).toFixed(1)} °C ${above_C < 0 ? 'below' : 'above'} the mean of the shade`;
  if (verdict === 'fill') return `Cool enough: ${found}, and up to ${within_C} °C above is taken.`;
  const wait = `at least ${timeText(least_s)} until it is within ${within_C} °C`;
  if (verdict === 'wait until evening') return `Wait until evening: ${found}, ${wait}.`;
  return `Wait longer, or spread the sand thinner in the shade: ${found}, ${wait}.`;
}

function timeText(time_s: number): string {
  const hours = Math.ceil(time_s / 3600);
  if (hours < 48) return `${hours} ${hours === 1 ? 'hour' : 'hours'}`;
  return `${Math.ceil(hours / 24)} days`;
}
