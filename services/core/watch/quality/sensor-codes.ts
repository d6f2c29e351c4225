/**
 * Values by which common sensors and their drivers say that they did not measure.
 *
 * DS18B20: 85 °C after power-on, -127 °C from the driver when disconnected (data sheet, driver), 127.94 from raw 07FF;
 * from a shorted bus 0 °C, whose checksum passes, and -0.0625 from raw FFFF (computed). SHT3x: T = -45 + 175 S / 65535
 * and RH = 100 S / 65535 (data sheet) give -45 °C and 0 %RH for 0000, 130 °C and 100 %RH for FFFF. SHT2x and its kin:
 * -46.85 °C and -6 %RH, 128.87 °C and 119 %RH (from memory). DHT22: 0 and 0.
 */
import type { Sample } from '../watch.js';
import { QUALITY } from './limits.js';

/** °C. No sand and no shade is like that. */
const CODES_C = [85, -127, 127.9375, -45, 130, -46.85, 128.87] as const;
/** °C. Also temperatures: codes only where the value jumps there. */
const JUMPED_CODES_C = [0, -0.0625] as const;
/** %RH. */
const CODES_RH = [0, -6, 119] as const;
/** Codes of sensors that measure both, so that the humidity that came along is none: °C, %RH. */
const PAIRS: readonly (readonly [number, number])[] = [
  [130, 100],
  [128.87, 100],
];

/** Of values that were told with two decimals. */
const TOLERANCE = 0.006;

/** Between these there is no code: spares the search for nearly every value. °C, %RH. */
const NO_CODE_C = [1, 80] as const;
const NO_CODE_RH = [1, 99] as const;

const isOneOf = (value: number, codes: readonly number[]): boolean =>
  codes.some((code) => Math.abs(value - code) <= TOLERANCE);

/**
 * Whether the temperature is a code.
 *
 * @param before_C the last temperature that was believed; undefined where there is none
 */
export function isTemperatureCode({ temperature, humidity }: Sample, before_C: number | undefined): boolean {
  if (temperature === undefined || (temperature > NO_CODE_C[0] && temperature < NO_CODE_C[1])) return false;
  if (isOneOf(temperature, CODES_C)) return true;
  if (!isOneOf(temperature, JUMPED_CODES_C)) return false;
  if (temperature === 0 && humidity === 0) return true;
  return before_C !== undefined && Math.abs(temperature - before_C) > QUALITY.codeJump_C;
}

/** Whether the humidity is a code, by itself or by the temperature beside it. */
export function isHumidityCode({ temperature, humidity }: Sample): boolean {
  if (humidity === undefined || (humidity > NO_CODE_RH[0] && humidity < NO_CODE_RH[1])) return false;
  if (isOneOf(humidity, CODES_RH)) return true;
  return (
    temperature !== undefined &&
    PAIRS.some(([code_C, code_RH]) => isOneOf(temperature, [code_C]) && isOneOf(humidity, [code_RH]))
  );
}
