/**
 * The numbers that an alarm of the first watch rests on, each with its unit in its name.
 */
import type { Evidence } from '../model/alarm.js';
import type { Thresholds } from '../model/threshold.js';
import { asked_C, rate_C_per_day } from './heating.js';
import type { Basis, ProbeState } from './state.js';

/** What the judgement of warmth rests on, for people. */
export const BASIS_IN_WORDS: Readonly<Record<Basis, string>> = {
  'shade and neighbours': 'shade probe and neighbours',
  shade: 'shade probe, but no neighbour to compare with: half as much excess again is asked for',
  neighbours: 'neighbours: no shade probe',
  'one neighbour and own history':
    'one neighbour and its own history, no shade probe: half as much excess again, for four days, is asked for',
  'own history':
    'its own history, no shade probe and no neighbour: three times the excess, for a week, is asked for',
};

const to2 = (value: number): number => Number(value.toFixed(2));
const to1 = (value: number): number => Number(value.toFixed(1));

/** Leaves out what is not known: a gap is absent. */
function known(entries: Readonly<Record<string, number | string | undefined>>): Evidence {
  const present = Object.entries(entries).filter(
    (entry): entry is [string, number | string] => entry[1] !== undefined,
  );
  return Object.fromEntries(present);
}

/** The last excess of a probe, °C. */
export function lastExcess_C({ excesses }: ProbeState): number | undefined {
  return excesses.findLast((excess_C) => excess_C !== null) ?? undefined;
}

/** Why the surroundings of a probe are held to be heating. */
export function heatingEvidence(id: string, probe: ProbeState, thresholds: Thresholds): Evidence {
  const { check, unpack, rise } = probe.heating;
  const { basis, band_C } = probe;
  const excess_C = lastExcess_C(probe);
  const rate = rate_C_per_day(probe.excesses);
  const byRise = rise.open && !unpack.open;
  const [leading, threshold_C] = unpack.open
    ? [unpack, thresholds.heating_unpack_C]
    : [rise.open ? rise : check, thresholds.heating_check_C];
  return known({
    probe: id,
    excess_C: excess_C === undefined ? undefined : to2(excess_C),
    rate_C_per_day: rate === undefined ? undefined : to2(rate),
    held_h: leading.above_h,
    threshold_C: to2(basis === null ? threshold_C : asked_C(threshold_C, { basis, band_C })),
    threshold_C_per_day: byRise ? to2(thresholds.heating_rate_C_per_day) : undefined,
    basis: basis === null ? undefined : BASIS_IN_WORDS[basis],
  });
}

/** Why the surroundings of a probe are held to be damp. */
export function dampEvidence(id: string, { damp }: ProbeState, thresholds: Thresholds): Evidence {
  const leading = damp.unpack.open ? damp.unpack : damp.check;
  return known({
    probe: id,
    humidity_RH: damp.humidity_RH === null ? undefined : to1(damp.humidity_RH),
    held_h: leading.above_h,
    threshold_RH: to1(damp.unpack.open ? thresholds.damp_unpack_RH : thresholds.damp_check_RH),
  });
}
