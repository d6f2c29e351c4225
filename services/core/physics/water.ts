/** Liquid water. */
import { requireInDomain } from '../errors.js';

/**
 * Density of water without air at sea-level pressure.
 *
 * @param temperature_C 0 to 60 °C
 * @returns kg/m3
 * @throws SandlarderError OUT_OF_DOMAIN
 * @remarks Source: Tanaka et al. 2001, Metrologia 38, 301-309 (from memory), for 0 to 40 °C to 1e-6; up to 60 °C
 *   within 0.01 %, which the Kelvin relation does not see.
 */
export function waterDensity_kg_m3(temperature_C: number): number {
  requireInDomain('temperature of water, °C,', temperature_C, 0, 60);
  const fromDensest_C = temperature_C - 3.983035;
  const share = (fromDensest_C ** 2 * (temperature_C + 301.797)) / (522528.9 * (temperature_C + 69.34881));
  return 999.97495 * (1 - share);
}
