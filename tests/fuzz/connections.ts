/** Bytes by chance at the built-in broker: each ends its own connection at most, and readings are taken in beside it. */
import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import mqtt from 'mqtt';
import { startBuiltInBroker } from '../../services/intake/built-in-broker.js';
import { Chance, mutated } from './chance.js';
import { type Asked, Outcomes, type Tried, Unsound } from './part.js';

const TOPIC = 'sandlarder/v1/ridge-station/probes/p01/readings';
/** Connections at the same time. */
const TOGETHER = 32;
/** After so many connections a well-behaved probe publishes and waits for its acknowledgement. */
const PROBED_every = 512;
/** How long an answer is waited for, ms: none may be due. How long after it, for the end of the connection; and for the probe, ms. */
const SILENT_ms = 60;
const LINGER_ms = 3;
const ANSWER_ms = 20_000;

const packet = (type: number, ...body: number[]): Buffer => Buffer.from([type, body.length, ...body]);
const text = (of: string): number[] => [of.length >> 8, of.length & 255, ...Buffer.from(of)];
const CONNECTS = [3, 4, 5].map((version) =>
  version === 3
    ? packet(0x10, ...text('MQIsdp'), 3, 2, 0, 60, ...text('raw'))
    : packet(0x10, ...text('MQTT'), version, 2, 0, 60, ...(version === 5 ? [0] : []), ...text('raw')),
);
const AFTER = [
  packet(0x30, ...text(TOPIC), ...Buffer.from('[{"n":"x"}]')),
  packet(0x32, ...text(TOPIC), 0, 1, ...Buffer.from('[]')),
  packet(0x34, ...text(TOPIC), 0, 2, 1),
  packet(0x62, 0, 2),
  packet(0x82, 0, 3, ...text('sandlarder/#'), 1),
  packet(0xa2, 0, 4, ...text('sandlarder/#')),
  packet(0xc0),
  packet(0xe0),
  packet(0xf0),
];

function bytesOf(chance: Chance): Buffer {
  if (chance.below(10) === 0) return chance.bytes(1 + chance.below(60));
  const packets = [chance.of(CONNECTS), ...Array.from({ length: chance.below(4) }, () => chance.of(AFTER))];
  const whole = Buffer.concat(packets);
  return chance.below(4) === 0 ? whole : mutated(chance, whole, AFTER);
}

/** @throws Unsound where the broker falls silent or fails */
export async function tryConnections({ cases, seed }: Asked): Promise<Tried> {
  const chance = new Chance(seed);
  const outcomes = new Outcomes();
  const sink = {
    accept: (_message: unknown, done: () => void): boolean => {
      setImmediate(done);
      return true;
    },
  };
  const broker = await startBuiltInBroker({ host: '127.0.0.1', port: 0, sink });
  const probe = await mqtt.connectAsync(`mqtt://127.0.0.1:${broker.port}`, {
    clientId: 'probe',
    reconnectPeriod: 0,
  });
  try {
    for (let number = 0; number < cases; number += TOGETHER) {
      const now = Array.from({ length: Math.min(TOGETHER, cases - number) }, () => bytesOf(chance));
      for (const outcome of await Promise.all(now.map((bytes) => sendTo(broker.port, bytes))))
        outcomes.add(outcome);
      if (number % PROBED_every === 0)
        await publishes(probe, `connections: seed ${seed}, before case ${number + TOGETHER}`);
    }
    return { cases, outcomes: outcomes.counts };
  } finally {
    await probe.endAsync(true);
    await broker.close();
  }
}

async function sendTo(port: number, bytes: Buffer): Promise<string> {
  const socket: Socket = connect({ host: '127.0.0.1', port });
  let answered = 0;
  socket.on('error', () => undefined);
  socket.on('data', (chunk) => {
    answered += chunk.length;
  });
  const closed = once(socket, 'close').then(() => 'ended by the broker');
  socket.write(bytes);
  const after = (time_ms: number) =>
    new Promise<string>((resolve) => setTimeout(resolve, time_ms, 'left open'));
  const lingered = Promise.race([once(socket, 'data').then(() => after(LINGER_ms)), after(SILENT_ms)]);
  const outcome = await Promise.race([closed, lingered.catch(() => 'broken')]);
  socket.destroy();
  return answered > 0 ? `answered, ${outcome}` : outcome;
}

async function publishes(probe: mqtt.MqttClient, name: string): Promise<void> {
  const late = new Promise<string>((resolve) => setTimeout(resolve, ANSWER_ms, 'late').unref());
  const done = probe.publishAsync(TOPIC, '[]', { qos: 1 }).then(
    () => 'kept',
    (error: Error) => error.message,
  );
  const outcome = await Promise.race([done, late]);
  if (outcome !== 'kept')
    throw new Unsound(`${name}: expected a probe's reading acknowledged, got ${outcome}`);
}
