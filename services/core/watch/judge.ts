/** How warm each probe of a bed is in an hour, beside a sound bed. */
import type { Thresholds } from '../model/threshold.js';
import { excessOf } from './excess.js';
import { takeExcess } from './heating.js';
import { meanOf } from './hourly-mean.js';
import { PARAMETERS } from './parameters.js';
import { shadeNow } from './slow-mean.js';
import { BASES, type Basis, type WatchState } from './state.js';
import type { Judgement } from './watch.js';

const weaker = (one: Basis, other: Basis): Basis =>
  BASES.indexOf(one) >= BASES.indexOf(other) ? one : other;

function dailyMeans(state: WatchState): Map<string, number> {
  const means = new Map<string, number>();
  for (const [id, { hours }] of state.probes) {
    const mean_C = meanOf(hours, PARAMETERS.meanNeeds_h);
    if (mean_C !== undefined) means.set(id, mean_C);
  }
  return means;
}

/** Judges every probe's warmth once more; the state keeps what must last. */
export function judgeWarmth(state: WatchState, thresholds: Thresholds): Map<string, Judgement> {
  const means = dailyMeans(state);
  const shade_C = shadeNow(state.shade);
  const judgements = new Map<string, Judgement>();
  let weakest: Basis | undefined;
  for (const [id, probe] of state.probes) {
    const probe_C = means.get(id);
    const { baseline } = probe;
    if (probe_C === undefined || !baseline) {
      takeExcess(probe, undefined, thresholds);
      continue;
    }
    const excess = excessOf({ probe_C, means, shade_C }, baseline);
    takeExcess(probe, excess, thresholds);
    const { excess_C, band_C, basis } = excess;
    judgements.set(id, { expected_C: probe_C - excess_C, band_C, excess_C });
    weakest = weakest ? weaker(weakest, basis) : basis;
  }
  state.basis = weakest ?? state.basis;
  return judgements;
}
