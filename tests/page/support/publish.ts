/** Readings as a probe sends them, to a service that runs. */
import { connectAsync } from 'mqtt';
import type { Served } from './page.js';

export interface ProbeReading {
  /** ms since 1970. */
  readonly at: number;
  readonly temperature_C: number;
  readonly humidity_RH: number;
}

/** Sent and acknowledged: it is kept by then. */
export async function publish(
  { mqtt }: Pick<Served, 'mqtt'>,
  probe: string,
  readings: readonly ProbeReading[],
): Promise<void> {
  const client = await connectAsync(mqtt);
  const pack = readings.flatMap(({ at, temperature_C, humidity_RH }) => [
    { n: 'temperature', u: 'Cel', v: temperature_C, t: at / 1000 },
    { n: 'humidity', u: '%RH', v: humidity_RH, t: at / 1000 },
  ]);
  const topic = `sandlarder/v1/ridge-station/probes/${probe}/readings`;
  await client.publishAsync(topic, JSON.stringify(pack), { qos: 1 });
  await client.endAsync();
}

const MINUTE_ms = 60_000;

/** Water that reaches two probes of the box an hour ago, as they would tell it: an alarm follows. */
export async function wetTheBox(served: Pick<Served, 'mqtt'>): Promise<void> {
  const now = Date.now();
  const hour = Math.floor((now - 10 * MINUTE_ms) / (60 * MINUTE_ms)) * 60 * MINUTE_ms;
  // Between the readings of the season, which come every twenty minutes; the last ends the hour.
  const wet = [-19, -16, -13, -10, -7, -4, -1, 6].map((minutes) => ({
    ...{ at: hour + minutes * MINUTE_ms, temperature_C: 21.4 },
    humidity_RH: 97.1 + (minutes + 19) / 30,
  }));
  for (const probe of ['p11', 'p12']) await publish(served, probe, wet);
}
