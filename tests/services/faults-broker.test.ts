/** A broker held up, a network cut without a word, and garbage at the broker's port; signs of life every second. */
import { setTimeout as wait } from 'node:timers/promises';
import mqtt from 'mqtt';
import { expect, test } from 'vitest';
import { Collector, connectExternalBroker } from '../../services/intake/index.js';
import { cleaningUp, type Undo } from '../bench/processes.js';
import { garbageAt, passageTo } from '../faults/garbage.js';
import { type Mosquitto, startMosquitto } from './mosquitto.js';

const TOPIC = 'sandlarder/v1/ridge-station/probes/p01/readings';
const LIMITS = {
  ...{ keepAlive_s: 1, connect_ms: 1000, close_ms: 200, reconnectFirst_ms: 20, reconnectLongest_ms: 100 },
};

async function broker(undo: Undo): Promise<Mosquitto> {
  const mosquitto = await startMosquitto();
  undo(() => mosquitto.dispose());
  return mosquitto;
}

async function until(what: string, isSo: () => boolean): Promise<void> {
  const latest = Date.now() + 60_000;
  while (!isSo()) {
    if (Date.now() > latest) throw new Error(`expected ${what}, got none`);
    await wait(20);
  }
}

/** The service's intake, and what it kept. */
function intake(undo: Undo, url: string) {
  const kept = new Set<string>();
  const warnings: string[] = [];
  const collector = new Collector({
    commit: (group) => {
      for (const { payload } of group) kept.add(Buffer.from(payload).toString());
    },
  });
  const connection = connectExternalBroker({
    ...{ url, clientId: 'sandlarder-faults', sink: collector, limits: LIMITS },
    onWarning: (warning) => warnings.push(warning),
  });
  undo(async () => {
    collector.close();
    await connection.close();
  });
  return {
    ...{ kept, warnings, connection },
    isThere: () => until('a connection', () => connection.connected()),
    isGone: () => until('the end of a connection', () => !connection.connected()),
    has: (count: number) => until(`${count} messages kept`, () => kept.size === count),
  };
}

const isOfGarbage = (warning: string): boolean => warning.endsWith('does not answer as an MQTT broker does');

/** Each a message of its own; settles when the broker has them. */
async function publisher(undo: Undo, url: string) {
  const client = await mqtt.connectAsync(url, { reconnectPeriod: 20 });
  undo(() => client.endAsync(true));
  return (from: number, to: number): Promise<unknown> =>
    Promise.all(
      Array.from({ length: to - from }, (_, at) => client.publishAsync(TOPIC, `${from + at}`, { qos: 1 })),
    );
}

test('a broker that is held up is noticed, and gives everything once it goes on', () =>
  cleaningUp(async (undo) => {
    const mosquitto = await broker(undo);
    const { isThere, isGone, has } = intake(undo, mosquitto.url);
    await isThere();
    const publish = await publisher(undo, mosquitto.url);
    await publish(0, 100);
    await has(100);
    mosquitto.hold();
    const publishing = publish(100, 300);
    await isGone();
    mosquitto.release();
    await publishing;
    await has(300);
    await isThere();
  }));

test('a broker that is held up does not keep the service from leaving', () =>
  cleaningUp(async (undo) => {
    const mosquitto = await broker(undo);
    const { isThere, connection } = intake(undo, mosquitto.url);
    await isThere();
    mosquitto.hold();
    const lost = connection.publish({ topic: TOPIC, payload: 'lamp', qos: 1, retain: true });
    await Promise.all([expect(lost).rejects.toThrow('expected a connection'), connection.close()]);
  }));

test('a network that is cut without a word is noticed, and nothing is lost when it is healed', () =>
  cleaningUp(async (undo) => {
    const mosquitto = await broker(undo);
    const passage = await passageTo(undo, mosquitto.port);
    const { isThere, isGone, has, kept } = intake(undo, `mqtt://127.0.0.1:${passage.port}`);
    await isThere();
    const publish = await publisher(undo, mosquitto.url);
    await publish(0, 100);
    await has(100);
    passage.cut();
    await publish(100, 300);
    await isGone();
    expect(kept.size).toBeLessThan(300);
    passage.heal();
    await has(300);
  }));

test('something else at the port is told of, and the broker is found once it is there', () =>
  cleaningUp(async (undo) => {
    const mosquitto = await broker(undo);
    await mosquitto.stop();
    const garbage = await garbageAt(undo, mosquitto.port);
    const { isThere, has, warnings } = intake(undo, mosquitto.url);
    await until('garbage to be told of', () => garbage.answered() >= 4 && warnings.some(isOfGarbage));
    await garbage.end();
    await mosquitto.restart();
    await isThere();
    const publish = await publisher(undo, mosquitto.url);
    await publish(0, 10);
    await has(10);
  }));
