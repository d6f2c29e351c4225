/**
 * The excess of every probe of a bed over a sound bed, and what it was measured against.
 *
 * With a shade probe and neighbours both must agree: the excess over what the shade explains, and that excess less
 * what the neighbours have of it, for a week that warms the whole bed is no source. Without a shade probe the
 * two neighbours most alike take its place and must agree; with a single one the difference does not tell which of the two has
 * changed, so the probe's own history must agree.
 */
import { medianOf } from './median.js';
import { PARAMETERS } from './parameters.js';
import { expectedFrom } from './response.js';
import type { Baseline, Basis, ProbeState } from './state.js';

export interface Excess {
  readonly basis: Basis;
  /** Daily mean less the sound bed's, °C. */
  readonly excess_C: number;
  /** Half width of the band of a sound bed, °C. */
  readonly band_C: number;
}

interface Opinion {
  readonly excess_C: number;
  readonly deviation_C: number;
}

/** By probe id: daily means of now, °C. */
type Means = ReadonlyMap<string, number>;

const smaller = (one: Opinion, other: Opinion): Opinion => (one.excess_C <= other.excess_C ? one : other);

function overShade(probe_C: number, { shade }: Baseline, shade_C: readonly number[] | undefined): Opinion[] {
  if (!shade || !shade_C) return [];
  return [{ excess_C: probe_C - expectedFrom(shade, shade_C), deviation_C: shade.deviation }];
}

function overNeighbours(probe_C: number, { peers }: Baseline, means: Means): Opinion[] {
  const heard = peers.flatMap(([id, { middle, deviation }]): Opinion[] => {
    const other_C = means.get(id);
    return other_C === undefined ? [] : [{ excess_C: probe_C - other_C - middle, deviation_C: deviation }];
  });
  return heard.sort((one, other) => one.deviation_C - other.deviation_C);
}

function withShade(id: string, mine: Opinion, overShades: ReadonlyMap<string, Opinion>): [Basis, Opinion] {
  const others = [...overShades].filter(([other]) => other !== id).map(([, { excess_C }]) => excess_C);
  const shared_C = others.length > 0 ? medianOf(others) : undefined;
  if (shared_C === undefined) return ['shade', mine];
  return [
    'shade and neighbours',
    smaller(mine, { ...mine, excess_C: mine.excess_C - PARAMETERS.sharedShare * shared_C }),
  ];
}

function withoutShade(probe_C: number, baseline: Baseline, means: Means): [Basis, Opinion] {
  const own: Opinion = { excess_C: probe_C - baseline.own.middle, deviation_C: baseline.own.deviation };
  const alike = overNeighbours(probe_C, baseline, means);
  const [first, second] = alike;
  if (!first) return ['own history', own];
  if (second) return ['neighbours', smaller(first, second)];
  return ['one neighbour and own history', smaller(first, own)];
}

/**
 * How the probes of a bed compare with a sound bed; a probe without a mean or without a baseline is absent.
 *
 * @param means by probe id: daily means of now, °C
 * @param shade_C the shade's slow means of now by memory, °C; undefined where there is none
 */
export function excessesOf(
  probes: ReadonlyMap<string, ProbeState>,
  means: Means,
  shade_C: readonly number[] | undefined,
): Map<string, Excess> {
  const judged = [...probes].flatMap(([id, { baseline }]): [string, number, Baseline][] => {
    const probe_C = means.get(id);
    return probe_C === undefined || !baseline ? [] : [[id, probe_C, baseline]];
  });
  const overShades = new Map(
    judged.flatMap(([id, probe_C, baseline]) =>
      overShade(probe_C, baseline, shade_C).map((opinion): [string, Opinion] => [id, opinion]),
    ),
  );
  return new Map(
    judged.map(([id, probe_C, baseline]) => {
      const mine = overShades.get(id);
      const [basis, { excess_C, deviation_C }] = mine
        ? withShade(id, mine, overShades)
        : withoutShade(probe_C, baseline, means);
      const band_C = Math.max(PARAMETERS.bandLeast_C, PARAMETERS.bandDeviations * deviation_C);
      return [id, { basis, excess_C, band_C }];
    }),
  );
}
