/** From the publish of the reading that raises an alarm to its bed's lamp, beside a bare publish that a subscriber sees. */
import mqtt, { type MqttClient } from 'mqtt';
import { inWords, spreadOf } from './figured.js';
import { bedId, type Load, packOf, probeId, SITE, START_ms } from './load.js';
import type { Measured } from './measured.js';
import { cleaningUp, expectFrom, freePort, startOwn, type Undo } from './processes.js';
import type { BothSides } from './seasons.js';
import { startService, untilJudged } from './service.js';

/** One alarm of each bed, and as many beds as have their watch in memory. */
const BEDS = 60;
export const ALARMS_A_SERVICE = BEDS;
const PROBES_A_BED = 2;
/** Of the hours before: dry sand at rest, for two days. */
const BEFORE = { hours: 48, humidity_RH: 85 } as const;
/** Of the hour in which water comes to a probe, every ten minutes, %RH. */
const WETTING_RH = [86, 88.5, 91, 93, 95, 96] as const;
const A_ROUND_s = 600;
const ROUNDS_AN_HOUR = 6;

const LOAD: Load = { beds: BEDS, probesPerBed: PROBES_A_BED, warmUp: 0, timed: 0, connections: 1, window: 1 };

const FIRST_WET_round = BEFORE.hours * ROUNDS_AN_HOUR;
const timeOf = (round: number): number => START_ms / 1000 + round * A_ROUND_s;

const dry = (probe: number, rounds: number): string =>
  packOf(
    Array.from({ length: rounds }, (_, round) => ({
      time_s: timeOf(round),
      temperature_C: 20 + 0.05 * Math.sin(probe + round / 3),
      humidity_RH: BEFORE.humidity_RH + 0.1 * Math.sin(probe * 7 + round),
    })),
  );

const wet = (): string =>
  packOf(
    WETTING_RH.map((humidity_RH, at) => ({
      ...{ time_s: timeOf(FIRST_WET_round + at), temperature_C: 20, humidity_RH },
    })),
  );

/** It closes the hour in which water came. */
const closing = (): string =>
  packOf([{ time_s: timeOf(FIRST_WET_round + ROUNDS_AN_HOUR + 1), temperature_C: 20, humidity_RH: 96.5 }]);

const topicOf = (probe: number): string => `sandlarder/v1/${SITE}/probes/${probeId(probe)}/readings`;
const wetProbe = (bed: number): number => bed * PROBES_A_BED + 1;

async function clientTo(undo: Undo, url: string): Promise<MqttClient> {
  const client = await mqtt.connectAsync(url, { reconnectPeriod: 0 });
  undo(() => client.endAsync(true));
  return client;
}

/** Resolves with the time of the next message that is not empty on a topic. */
const seen = (client: MqttClient, topic: string): Promise<number> =>
  new Promise((resolve) => {
    const listen = (on: string, payload: Buffer): void => {
      if (on !== topic || payload.length === 0) return;
      client.off('message', listen);
      resolve(performance.now());
    };
    client.on('message', listen);
  });

async function bareTimes(undo: Undo): Promise<() => Promise<number>> {
  const broker = await startOwn<number>(undo, './bare-broker.js');
  const url = `mqtt://127.0.0.1:${broker.first}`;
  const [publisher, subscriber] = [await clientTo(undo, url), await clientTo(undo, url)];
  await subscriber.subscribeAsync('bench/echo', { qos: 1 });
  return async () => {
    const heard = seen(subscriber, 'bench/echo');
    const began = performance.now();
    publisher.publish('bench/echo', closing(), { qos: 1 });
    return (await expectFrom(broker.child, 'an echo', heard)) - began;
  };
}

/** @param alarms in whole services of `ALARMS_A_SERVICE` */
export async function latencyMeasured(alarms: number): Promise<BothSides> {
  const [ours, bare]: [number[], number[]] = [[], []];
  while (ours.length < alarms) await oneService(ours, bare);
  return { bare: measuredOf(bare), ours: measuredOf(ours) };
}

function measuredOf(times_ms: readonly number[]): Measured {
  const spread = spreadOf(times_ms);
  return { value: spread.median_ms, note: `${inWords(spread)}, of ${times_ms.length}` };
}

const oneService = (ours: number[], bare: number[]): Promise<void> =>
  cleaningUp(async (undo) => {
    const echo = await bareTimes(undo);
    const service = await startService(undo, LOAD, '--mqtt-listen', `127.0.0.1:${await freePort()}`);
    const [publisher, lamp] = [await clientTo(undo, service.url), await clientTo(undo, service.url)];
    await lamp.subscribeAsync(`sandlarder/v1/${SITE}/beds/+/alarm`, { qos: 1 });
    for (let probe = BEDS * PROBES_A_BED; probe >= 0; probe -= 1)
      await publisher.publishAsync(topicOf(probe), dry(probe, FIRST_WET_round), { qos: 1 });
    for (let bed = 0; bed < BEDS; bed += 1)
      await publisher.publishAsync(topicOf(wetProbe(bed)), wet(), { qos: 1 });
    await untilJudged(service.health);
    for (let bed = 0; bed < BEDS; bed += 1) {
      bare.push(await echo());
      const lit = seen(lamp, `sandlarder/v1/${SITE}/beds/${bedId(bed)}/alarm`);
      const began = performance.now();
      publisher.publish(topicOf(wetProbe(bed)), closing(), { qos: 1 });
      ours.push((await expectFrom(service.child, `the lamp of ${bedId(bed)}`, lit)) - began);
    }
  });
