/** What the probes of the keeping site measured, in packs of whole days. */
import { HOUR_ms } from '../../services/core/model/time.js';
import { BENCH_AT } from './bench-work.js';
import type { Message } from './season.js';

type Record = readonly [name: string, unit: string, value: number];

export interface Told {
  readonly temperature?: (at: number) => number;
  readonly humidity?: (at: number) => number;
  /** Hours before `BENCH_AT`. */
  readonly from_h?: number;
  readonly to_h?: number;
}

/** A pack with a reading every half hour. */
export function toldBy(probe: string, { temperature, humidity, from_h = 72, to_h = 0 }: Told): Message {
  const records: object[] = [];
  for (let at = BENCH_AT - from_h * HOUR_ms; at < BENCH_AT - to_h * HOUR_ms; at += HOUR_ms / 2) {
    const values: Record[] = [
      ...(temperature ? [['temperature', 'Cel', temperature(at)] as const] : []),
      ...(humidity ? [['humidity', '%RH', humidity(at)] as const] : []),
    ];
    for (const [n, u, v] of values) records.push({ n, u, v, t: at / 1000 });
  }
  return { topic: `sandlarder/v1/keeping-ridge/probes/${probe}/readings`, payload: JSON.stringify(records) };
}

/** A sine of a day. */
export const daily =
  (mean: number, amplitude: number) =>
  (at: number): number =>
    mean + amplitude * Math.sin((2 * Math.PI * at) / (24 * HOUR_ms));

/** A dry open pit, a dry box, and the shade. */
export const SOUND: readonly Message[] = [
  toldBy('k01', { temperature: daily(21, 2), humidity: daily(75, 1) }),
  toldBy('k02', { temperature: daily(22, 0.2), humidity: daily(70, 0.5) }),
  toldBy('k09', { temperature: daily(22, 6), humidity: daily(55, 15) }),
];
