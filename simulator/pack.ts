/** Readings as a SenML pack in JSON (RFC 8428), as a probe would write it. */
import type { Reading } from './delivery.js';

/** Whole seconds, as a probe's clock has them. */
const seconds = (from: number, time_s: number): number => Math.round(from / 1000) + time_s;

/**
 * One pack with the readings of one probe; of several, the first gives the base time.
 *
 * @param from when the season began, ms
 */
export function packOf(probe: string, readings: readonly Reading[], from: number): string {
  const base = seconds(from, readings[0]?.time_s ?? 0);
  const records = readings.flatMap(({ time_s, temperature_C, humidity_RH, battery_V }) => {
    const time = seconds(from, time_s) - base;
    const at = time === 0 ? {} : { t: time };
    return [
      { n: 'temperature', u: 'Cel', ...at, v: temperature_C },
      { n: 'humidity', u: '%RH', ...at, v: humidity_RH },
      { n: 'battery', u: 'V', ...at, v: battery_V },
    ];
  });
  const [first, ...others] = records;
  return JSON.stringify([{ bn: `urn:dev:ops:${probe}/`, bt: base, ...first }, ...others]);
}

export const readingsTopic = (site: string, probe: string): string =>
  `sandlarder/v1/${site}/probes/${probe}/readings`;
export const statusTopic = (site: string, probe: string): string =>
  `sandlarder/v1/${site}/probes/${probe}/status`;
