/**
 * Fixed points of temperature that a farm can make: melting ice and boiling water.
 *
 * Units: temperature °C (ITS-90), pressure as the name says. Air pressure is the pressure at the place, not the one
 * that weather reports reduce to sea level: 100 m of height that is forgotten is 12 hPa or 0.33 °C.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import { ZERO_CELSIUS_K } from '../physics/index.js';

export interface TemperaturePoint {
  readonly temperature_C: number;
  /** °C, k = 1. */
  readonly standardUncertainty_C: number;
  readonly source: string;
}

export interface BoilingPoint extends TemperaturePoint {
  /** °C, k = 1. */
  readonly contributions: { readonly pressure_C: number; readonly boiling_C: number };
}

export interface AirPressure {
  readonly pressure_hPa: number;
  /** hPa, k = 1. */
  readonly standardUncertainty_hPa: number;
  readonly source: string;
}

/**
 * Crushed ice of clean tap water with water between, stirred, in an insulated flask. Melting ice in water that is
 * saturated with air at sea-level pressure is 0.000 °C within some millikelvins (from memory); the uncertainty is for
 * dissolved salts, warm pockets and the heat that the probe's own stem brings: common practice, no source.
 */
export const ICE_POINT: TemperaturePoint = {
  temperature_C: 0,
  standardUncertainty_C: 0.05,
  source: 'melting ice of clean water, stirred: 0 °C; 0.05 °C by common practice',
};

/** W. Wagner & A. Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783; IAPWS SR1-86(1992): power and factor. */
const TERMS = [
  [1, -7.85951783],
  [1.5, 1.84408259],
  [3, -11.7866497],
  [3.5, 22.6807411],
  [4, -15.9618719],
  [7.5, 1.80122502],
] as const;
const CRITICAL_K = 647.096;
const CRITICAL_Pa = 22.064e6;

/** The formula holds from the triple to the critical point; here it is for boiling in open air. */
const LEAST_C = 60;
const GREATEST_C = 105;

/** hPa: 5,500 m of height to more than the highest pressure of any weather; a value in kPa falls outside. */
const PRESSURE_LEAST_hPa = 500;
const PRESSURE_GREATEST_hPa = 1100;

/**
 * °C, k = 1: superheating, the weight of the water above the probe (1 cm is 1 hPa or 0.03 °C), dissolved salts.
 * Judgement, for soft boiling with the probe just under the surface or in the steam close above it.
 */
const BOILING_C = 0.15;

/**
 * Saturation pressure of pure water.
 *
 * @param temperature_C 60 to 105 °C
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function saturationPressure_Pa(temperature_C: number): number {
  requireInDomain('temperature of water, °C,', temperature_C, LEAST_C, GREATEST_C);
  return CRITICAL_Pa * Math.exp(logarithm(temperature_C + ZERO_CELSIUS_K).value);
}

/**
 * Its derivative.
 *
 * @param temperature_C 60 to 105 °C
 * @returns Pa for each °C
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function saturationPressureSlope_Pa_C(temperature_C: number): number {
  return saturationPressure_Pa(temperature_C) * logarithm(temperature_C + ZERO_CELSIUS_K).slope;
}

/** Logarithm of the pressure over the critical one: (Tc / T) sum of a v^n with v = 1 - T / Tc; and its derivative. */
function logarithm(temperature_K: number): { value: number; slope: number } {
  const distance = 1 - temperature_K / CRITICAL_K;
  let sum = 0;
  let sumSlope = 0;
  for (const [power, factor] of TERMS) {
    sum += factor * distance ** power;
    sumSlope += factor * power * distance ** (power - 1);
  }
  const value = (CRITICAL_K / temperature_K) * sum;
  return { value, slope: -(value + sumSlope) / temperature_K };
}

/** Newton on the logarithm gains more than a digit a step from anywhere in the range; 4 to 5 steps are usual. */
const STEPS_MOST = 20;
const SETTLED_C = 1e-10;

/**
 * Temperature at which water boils: the inverse of `saturationPressure_Pa`.
 *
 * @param pressure_hPa 500 to 1100 hPa
 * @throws SandlarderError OUT_OF_DOMAIN; LIMIT_EXCEEDED where 20 steps do not settle it
 */
export function boilingTemperature_C(pressure_hPa: number): number {
  requireInDomain('air pressure at the place, hPa,', pressure_hPa, PRESSURE_LEAST_hPa, PRESSURE_GREATEST_hPa);
  const wanted = Math.log((pressure_hPa * 100) / CRITICAL_Pa);
  let temperature_C = 100;
  for (let step = 0; step < STEPS_MOST; step += 1) {
    const { value, slope } = logarithm(temperature_C + ZERO_CELSIUS_K);
    const move_C = (wanted - value) / slope;
    temperature_C += move_C;
    if (Math.abs(move_C) < SETTLED_C) return temperature_C;
  }
  throw new SandlarderError(
    'LIMIT_EXCEEDED',
    `boiling point: not settled in ${STEPS_MOST} steps at ${pressure_hPa} hPa`,
  );
}

/**
 * The reference value of clean boiling water in open air.
 *
 * @param pressure_hPa at the place, 500 to 1100 hPa
 * @param pressureUncertainty_hPa standard uncertainty, 0 to 50 hPa
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function boilingPoint(pressure_hPa: number, pressureUncertainty_hPa: number): BoilingPoint {
  requireInDomain('standard uncertainty of the air pressure, hPa,', pressureUncertainty_hPa, 0, 50);
  const temperature_C = boilingTemperature_C(pressure_hPa);
  const pressure_C = (pressureUncertainty_hPa * 100) / saturationPressureSlope_Pa_C(temperature_C);
  return {
    temperature_C,
    standardUncertainty_C: Math.hypot(pressure_C, BOILING_C),
    contributions: { pressure_C, boiling_C: BOILING_C },
    source: `IAPWS saturation pressure (Wagner & Pruss 1993) at ${pressure_hPa} hPa`,
  };
}

/** ISO 2533: Pa; share for each metre; gravity over gas constant and lapse rate. */
const SEA_LEVEL_Pa = 101_325;
const LAPSE_1_m = 0.0065 / 288.15;
const EXPONENT = 5.25588;

/** hPa, k = 1: weather, at sea level; and for each km, since air is not as warm as the standard has it. Judgement. */
const WEATHER_hPa = 10;
const WARMTH_hPa_km = 2;

/**
 * Air pressure where nobody has a barometer: the standard atmosphere of ISO 2533 (from memory), with the weather as
 * its uncertainty, which is 0.3 °C of a boiling point.
 *
 * @param altitude_m above the sea, -430 to 5000 m: the Dead Sea's shore to where people live
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function pressureFromAltitude(altitude_m: number): AirPressure {
  requireInDomain('height above the sea, m,', altitude_m, -430, 5000);
  return {
    pressure_hPa: (SEA_LEVEL_Pa * (1 - LAPSE_1_m * altitude_m) ** EXPONENT) / 100,
    standardUncertainty_hPa: Math.hypot(WEATHER_hPa, (WARMTH_hPa_km * altitude_m) / 1000),
    source: `standard atmosphere, ISO 2533, at ${altitude_m} m; weather ${WEATHER_hPa} hPa by judgement`,
  };
}
