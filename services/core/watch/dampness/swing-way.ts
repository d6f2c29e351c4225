/**
 * How far a probe lies from a reference in damping depths, from how much weaker and how much later the daily wave
 * arrives there.
 *
 * In a deep solid the logarithm of the amplitude ratio and the lag in radians are the same number: depth over damping
 * depth (Carslaw & Jaeger). By the fit both are equally uncertain, so they count alike.
 */
import { amplitude_C, type DailyWave } from './daily-wave.js';
import { DAMPNESS } from './parameters.js';

export interface Way {
  /** Share of the reference's amplitude that arrives; an upper bound where `atMost`. */
  readonly share: number;
  /** Damping depths between the two, what lies over the sand taken off; a lower bound where `atMost`. */
  readonly way: number;
  /** Standard uncertainty of the way by the fits, and by what is not known of roof, film and walls. */
  readonly fit: number;
  readonly model: number;
  readonly atMost: boolean;
}

/** What lies between the reference and the sand besides sand: attenuation as a logarithm, lag in radians. */
export interface Beside {
  readonly attenuation: number;
  readonly lag: number;
  readonly deviation: number;
}

/** Nothing but sand lies between two probes. */
export const NOTHING_BESIDE: Beside = { attenuation: 0, lag: 0, deviation: DAMPNESS.pairDeviation };

const relative = (wave: DailyWave): number => wave.deviation_C / amplitude_C(wave);

/** Whether a wave stands out of what is left over: what does not is a bound, and no reference. */
export const isClear = (wave: DailyWave): boolean => relative(wave) * DAMPNESS.measurable <= 1;

/** Undefined where the reference swings too little to tell. */
export function wayBetween(reference: DailyWave, probe: DailyWave, beside: Beside): Way | undefined {
  const outer_C = amplitude_C(reference);
  if (!isClear(reference)) return undefined;
  const share = amplitude_C(probe) / outer_C;
  const { deviation: model } = beside;
  if (!isClear(probe)) {
    const bound = share + (2 * probe.deviation_C) / outer_C;
    return { share: bound, way: -Math.log(bound) - beside.attenuation, fit: 0, model, atMost: true };
  }
  const fit = Math.hypot(relative(probe), relative(reference));
  const byShare = -Math.log(share) - beside.attenuation;
  const byLag = lagNear(lagBetween(reference, probe), -Math.log(share)) - beside.lag;
  return { share, way: (byShare + byLag) / 2, fit: fit / Math.SQRT2, model, atMost: false };
}

/** By how much the probe's wave is later, radians in (-pi, pi]. */
function lagBetween(reference: DailyWave, probe: DailyWave): number {
  const along = reference.inPhase_C * probe.inPhase_C + reference.quadrature_C * probe.quadrature_C;
  const across = reference.inPhase_C * probe.quadrature_C - reference.quadrature_C * probe.inPhase_C;
  return Math.atan2(across, along);
}

/** Of the lags that differ by whole days, the one that fits the amplitude best. */
function lagNear(lag: number, expected: number): number {
  return lag + 2 * Math.PI * Math.round((expected - lag) / (2 * Math.PI));
}
