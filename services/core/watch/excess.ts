/**
 * The excess of a probe over a sound bed, and what it was measured against.
 *
 * With a shade probe it is what the shade does not explain, as far as the two neighbours most alike bear it out:
 * a hot week warms the whole bed and is no source. Without a shade probe these neighbours alone decide, and both
 * must agree; with a single neighbour the difference does not tell which of the two has changed, so the probe's
 * own history must agree.
 */
import { PARAMETERS } from './parameters.js';
import { expectedFrom } from './response.js';
import type { Baseline, Basis } from './state.js';

export interface Excess {
  readonly basis: Basis;
  /** Daily mean less the sound bed's, °C. */
  readonly excess_C: number;
  /** Half width of the band of a sound bed, °C. */
  readonly band_C: number;
}

/** Means of now. */
export interface Present {
  /** Daily mean of the probe, °C. */
  readonly probe_C: number;
  /** By probe id: daily means of the bed's probes, °C. */
  readonly means: ReadonlyMap<string, number>;
  /** The shade's slow means by memory, °C; undefined where there are none. */
  readonly shade_C: readonly number[] | undefined;
}

interface Opinion {
  readonly excess_C: number;
  readonly deviation_C: number;
}

const smaller = (one: Opinion, other: Opinion): Opinion => (one.excess_C <= other.excess_C ? one : other);

function overShade({ probe_C, shade_C }: Present, { shade }: Baseline): Opinion | undefined {
  if (!shade || !shade_C) return undefined;
  return { excess_C: probe_C - expectedFrom(shade, shade_C), deviation_C: shade.deviation };
}

/** Over each neighbour that is heard, the most alike first. */
function overNeighbours({ probe_C, means }: Present, { peers }: Baseline): Opinion[] {
  const heard = peers.flatMap(([id, { middle, deviation }]): Opinion[] => {
    const other_C = means.get(id);
    return other_C === undefined ? [] : [{ excess_C: probe_C - other_C - middle, deviation_C: deviation }];
  });
  return heard.sort((one, other) => one.deviation_C - other.deviation_C);
}

function borneOut(mine: Opinion, neighbours: Opinion): Opinion {
  const local_C = PARAMETERS.localTimes * neighbours.excess_C;
  const excess_C = Math.max(Math.min(mine.excess_C, local_C), PARAMETERS.aloneShare * mine.excess_C);
  return { ...mine, excess_C };
}

function opinionOf(present: Present, baseline: Baseline): [Basis, Opinion] {
  const shade = overShade(present, baseline);
  const [first, second] = overNeighbours(present, baseline);
  const both = first && second && smaller(first, second);
  if (shade && first) return ['shade and neighbours', borneOut(shade, both ?? first)];
  if (shade) return ['shade', shade];
  if (both) return ['neighbours', both];
  const own = {
    excess_C: present.probe_C - baseline.own.middle,
    deviation_C: baseline.own.deviation,
  };
  return first ? ['one neighbour and own history', smaller(first, own)] : ['own history', own];
}

/** How a probe compares with a sound bed. */
export function excessOf(present: Present, baseline: Baseline): Excess {
  const [basis, { excess_C, deviation_C }] = opinionOf(present, baseline);
  const band_C = Math.max(PARAMETERS.bandLeast_C, PARAMETERS.bandDeviations * deviation_C);
  return { basis, excess_C, band_C };
}
