/**
 * Humidity of the air between grains that hold water by a potential: the Kelvin relation, exp(psi M / (rho R T)).
 *
 * Any sand wetter than at the wilting point (-1.5 MPa) has 98.9 %RH or more, which is within a probe's own
 * tolerance of 100: humidity says air-dry or not, and cannot rank damp from wet.
 * Source: Campbell, soil physics teaching note (derivation), numbers computed.
 */
import { requireInDomain } from '../errors.js';
import { GAS_CONSTANT_J_molK, WATER_MOLAR_MASS_kg_mol, ZERO_CELSIUS_K } from './constants.js';
import { waterDensity_kg_m3 } from './water.js';

/** -1000 MPa is 0.06 %RH: drier than any sand in air. Pa. */
const DRIEST_Pa = -1e9;
const LEAST_HUMIDITY = 0.001;

/** Water potential of the wilting point, Pa. Convention of soil science. */
export const WILTING_POINT_Pa = -1.5e6;

/** Potential that brings the humidity down to 1/e, Pa. */
const scale_Pa = (temperature_C: number): number =>
  (waterDensity_kg_m3(temperature_C) * GAS_CONSTANT_J_molK * (temperature_C + ZERO_CELSIUS_K)) /
  WATER_MOLAR_MASS_kg_mol;

/**
 * Relative humidity of the air beside water of a potential.
 *
 * @param potential_Pa -1e9 to 0; 0 is free water
 * @param temperature_C 0 to 60 °C
 * @returns fraction, above 0 to 1
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function poreAirHumidity(potential_Pa: number, temperature_C: number): number {
  requireInDomain('water potential, Pa,', potential_Pa, DRIEST_Pa, 0);
  return Math.exp(potential_Pa / scale_Pa(temperature_C));
}

/**
 * Potential of the water that air of a humidity is in balance with.
 *
 * @param relativeHumidity fraction 0.001..1
 * @param temperature_C 0 to 60 °C
 * @returns Pa, 0 or below. Close to 1 a probe's error is larger than all that this tells: 1 %RH is 1.4 MPa.
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function waterPotential_Pa(relativeHumidity: number, temperature_C: number): number {
  requireInDomain('relative humidity, a fraction,', relativeHumidity, LEAST_HUMIDITY, 1);
  const potential_Pa = scale_Pa(temperature_C) * Math.log(relativeHumidity);
  return potential_Pa === 0 ? 0 : potential_Pa;
}
