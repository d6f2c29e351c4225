/**
 * From the excess of a probe, hour by hour, to whether its surroundings ask for a look or for unpacking.
 */
import { linearRegression } from 'simple-statistics';
import type { Thresholds } from '../model/threshold.js';
import type { Excess } from './excess.js';
import { addHour, type Hours, toKept } from './hourly-mean.js';
import { PARAMETERS } from './parameters.js';
import { AT_REST, isDeveloping, nextHour } from './persistence.js';
import type { Basis, ProbeState } from './state.js';

interface Severity {
  /** How many times the excess is asked for. */
  readonly times: number;
  /** h for which it must hold at the least. */
  readonly least_h: number;
  /** Whether a rise alone asks for unpacking. */
  readonly rise: boolean;
}

/**
 * How much more is asked for where the basis is weak. Judgement, from made-up seasons: a lone probe with a shade
 * probe strays by up to 1.5 °C in a hot week in a hut, and one with nothing to compare with follows every hot week,
 * which five days of +5 °C in the shade make of the sand's.
 */
const SEVERITY: Readonly<Record<Basis, Severity>> = {
  'shade and neighbours': { times: 1, least_h: 0, rise: true },
  shade: { times: 1.5, least_h: 72, rise: false },
  neighbours: { times: 1, least_h: 0, rise: true },
  'one neighbour and own history': { times: 1.5, least_h: 96, rise: false },
  'own history': { times: 3, least_h: 168, rise: false },
};

/** What an excess must reach by now, °C: the threshold, but never within the band of a sound bed. */
export function asked_C(threshold_C: number, { basis, band_C }: Pick<Excess, 'basis' | 'band_C'>): number {
  return Math.max(threshold_C * SEVERITY[basis].times, band_C);
}

/** Rise of the excess over the last days, °C a day; undefined where it rests on too few hours. */
export function rate_C_per_day(excesses: Hours): number | undefined {
  const points = excesses.flatMap((excess_C, at) => (excess_C === null ? [] : [[at / 24, excess_C]]));
  return points.length >= PARAMETERS.rateNeeds_h ? linearRegression(points).m : undefined;
}

/**
 * Whether an excess is raised or on its way to be: what is measured then is not a sound bed. Own history is left
 * out: without anything to compare with, a season that warms would be kept as an excess for ever.
 */
export function isHeating({ basis, heating: { check, unpack, rise } }: ProbeState): boolean {
  if (basis === 'own history') return false;
  return isDeveloping(check) || isDeveloping(unpack) || isDeveloping(rise);
}

/** A probe's excess of another hour; undefined where there is none. An excess over something else begins anew. */
function keepExcess(probe: ProbeState, excess: Excess | undefined): void {
  if (excess && probe.basis !== excess.basis) {
    probe.basis = excess.basis;
    probe.excesses = [];
  }
  if (excess) probe.band_C = toKept(excess.band_C);
  addHour(probe.excesses, excess?.excess_C, PARAMETERS.rate_days * 24);
}

/** Takes a probe's excess of the next hour. */
export function takeExcess(probe: ProbeState, excess: Excess | undefined, thresholds: Thresholds): void {
  keepExcess(probe, excess);
  const least_h = excess ? SEVERITY[excess.basis].least_h : 0;
  const against = (threshold_C: number, holds = true) =>
    excess && {
      above: holds && excess.excess_C >= asked_C(threshold_C, excess),
      below: excess.excess_C < PARAMETERS.clearShare * asked_C(threshold_C, excess),
    };
  const { heating_check_C, heating_check_h, heating_unpack_C, heating_unpack_h } = thresholds;
  const { check, unpack, rise } = probe.heating;
  const rising = excess !== undefined && isRising(probe, excess, thresholds);
  probe.heating.unpack = nextHour(unpack, against(heating_unpack_C), Math.max(heating_unpack_h, least_h));
  probe.heating.rise = nextHour(rise, against(heating_check_C, rising), PARAMETERS.rateHeld_h);
  probe.heating.check = asksToUnpack(probe)
    ? AT_REST
    : nextHour(check, against(heating_check_C), Math.max(heating_check_h, least_h));
}

function isRising(probe: ProbeState, excess: Excess, thresholds: Thresholds): boolean {
  if (!SEVERITY[excess.basis].rise) return false;
  if (!(excess.excess_C >= asked_C(thresholds.heating_check_C, excess))) return false;
  const rate = rate_C_per_day(probe.excesses);
  return rate !== undefined && rate >= thresholds.heating_rate_C_per_day;
}

/** Whether what surrounds the probe asks for unpacking. */
export function asksToUnpack({ heating }: ProbeState): boolean {
  return heating.unpack.open || heating.rise.open;
}
