/** Vapour in the pore air as it is, and as the sand's temperature explains it. */
import { vapourDensity_g_m3 } from '../../physics/index.js';
import type { ProbeHour } from '../watch.js';
import { meanOfHour } from './hours.js';

const to1 = (value: number): number => Number(value.toFixed(1));

export interface VapourDensities {
  readonly vapourDensity_g_m3?: number;
  /** At the humidity of the probe's own sound weeks. */
  readonly vapourDensityExpected_g_m3?: number;
}

/** Absent outside 0 to 60 °C, and for a humidity that is none. */
export function vapourDensities(
  { temperature }: ProbeHour,
  of: { readonly now_RH: number | undefined; readonly reference_RH: number | undefined },
): VapourDensities {
  const sand_C = meanOfHour(temperature);
  if (sand_C === undefined || !(sand_C >= 0 && sand_C <= 60)) return {};
  const density = (humidity_RH: number | undefined): number | undefined =>
    humidity_RH !== undefined && humidity_RH >= 0 && humidity_RH <= 100
      ? to1(vapourDensity_g_m3(sand_C, humidity_RH / 100))
      : undefined;
  const [now, expected] = [density(of.now_RH), density(of.reference_RH)];
  return {
    ...(now !== undefined && { vapourDensity_g_m3: now }),
    ...(expected !== undefined && { vapourDensityExpected_g_m3: expected }),
  };
}

/** g/m3 at saturation. @param temperature_C -45 to 60 °C */
export const saturatedDensity_g_m3 = (temperature_C: number): number => vapourDensity_g_m3(temperature_C, 1);
