/**
 * Water vapour in air.
 *
 * Units: temperature °C, pressure Pa, relative humidity as a fraction 0..1 (a probe's %RH divided by 100).
 * Source: Magnus form over water of the WMO Guide to Instruments and Methods of Observation, WMO-No. 8, annex on
 * formulas of moist air, for -45 to 60 °C, without the enhancement factor of real air (0.4 % at sea level, alike for
 * saturated and unsaturated air, so that it drops out of humidity and dew point). From 0 to 60 °C it lies
 * between 0.31 % under the steam tables (at 25 to 30 °C) and 0.25 % over them (at 60 °C): 0.04 °C of dew point up to
 * 50 °C, 0.1 °C beyond. Below 0 °C this is supercooled water, not ice.
 */
import { requireInDomain } from '../errors.js';
import { ZERO_CELSIUS_K } from './constants.js';

/** WMO-No. 8: Pa, none, °C. */
const AT_ZERO_Pa = 611.2;
const SLOPE = 17.62;
const OFFSET_C = 243.12;

/** WMO-No. 8: where the form holds, °C. */
const LEAST_C = -45;
const GREATEST_C = 60;

/** Molar mass of water over the gas constant, g K/J. */
const GRAMS_K_J = 2.16679;

/** Dry to the last digit has no dew point; below this no probe measures. Fraction. */
const LEAST_HUMIDITY = 0.001;

/**
 * Saturation vapour pressure over liquid water.
 *
 * @param temperature_C -45 to 60 °C
 * @returns Pa
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function saturationVapourPressure_Pa(temperature_C: number): number {
  requireInDomain('temperature, °C,', temperature_C, LEAST_C, GREATEST_C);
  return AT_ZERO_Pa * Math.exp((SLOPE * temperature_C) / (OFFSET_C + temperature_C));
}

/**
 * Partial pressure of the vapour in air.
 *
 * @param temperature_C -45 to 60 °C
 * @param relativeHumidity fraction 0..1 over water
 * @returns Pa
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function vapourPressure_Pa(temperature_C: number, relativeHumidity: number): number {
  requireInDomain('relative humidity, a fraction,', relativeHumidity, 0, 1);
  return relativeHumidity * saturationVapourPressure_Pa(temperature_C);
}

/**
 * Temperature at which air that is cooled without losing vapour begins to leave water: the exact inverse of the
 * Magnus form.
 *
 * @param temperature_C -45 to 60 °C
 * @param relativeHumidity fraction 0.001..1 over water
 * @returns °C, -45 or above
 * @throws SandlarderError OUT_OF_DOMAIN also where the dew point would lie below -45 °C
 */
export function dewPoint_C(temperature_C: number, relativeHumidity: number): number {
  requireInDomain('relative humidity, a fraction,', relativeHumidity, LEAST_HUMIDITY, 1);
  requireInDomain('temperature, °C,', temperature_C, LEAST_C, GREATEST_C);
  const exponent = Math.log(relativeHumidity) + (SLOPE * temperature_C) / (OFFSET_C + temperature_C);
  const dewPoint = (OFFSET_C * exponent) / (SLOPE - exponent);
  // Saturated air may come back a last binary digit above the limit that it went in with.
  requireInDomain('dew point, °C,', dewPoint, LEAST_C - 1e-9, GREATEST_C + 1e-9);
  return dewPoint;
}

/**
 * Relative humidity that air of a dew point takes on where it is brought to another temperature: what outside air
 * becomes as it comes into cool sand. Above 1 it condenses there, and that is said, not cut off.
 *
 * @param temperature_C -45 to 60 °C
 * @param airDewPoint_C -45 to 60 °C
 * @returns fraction, above 1 where the dew point lies above the temperature
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function relativeHumidityAt(temperature_C: number, airDewPoint_C: number): number {
  return saturationVapourPressure_Pa(airDewPoint_C) / saturationVapourPressure_Pa(temperature_C);
}

/**
 * Mass of vapour in a volume of air, the ideal gas law (within 0.6 % of the steam tables up to 30 °C).
 *
 * @param temperature_C -45 to 60 °C
 * @param relativeHumidity fraction 0..1 over water
 * @returns g/m3
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function vapourDensity_g_m3(temperature_C: number, relativeHumidity: number): number {
  const pressure_Pa = vapourPressure_Pa(temperature_C, relativeHumidity);
  return (GRAMS_K_J * pressure_Pa) / (temperature_C + ZERO_CELSIUS_K);
}

/**
 * What is missing to saturation: the pull on the water of a root that is as warm as the air.
 *
 * @param temperature_C -45 to 60 °C
 * @param relativeHumidity fraction 0..1 over water
 * @returns Pa, 0 or above
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function vapourPressureDeficit_Pa(temperature_C: number, relativeHumidity: number): number {
  requireInDomain('relative humidity, a fraction,', relativeHumidity, 0, 1);
  return (1 - relativeHumidity) * saturationVapourPressure_Pa(temperature_C);
}
