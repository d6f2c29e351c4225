/** What a test has opened, closed after it in the opposite order. */
import type { MqttClient } from 'mqtt';
import { afterEach } from 'vitest';
import {
  type BuiltInBroker,
  type BuiltInBrokerOptions,
  startBuiltInBroker,
} from '../../services/intake/built-in-broker.js';
import { connectForAnswer, type HandSink } from './clients.js';

const opened: (() => Promise<unknown>)[] = [];

afterEach(async () => {
  for (const close of opened.splice(0).reverse()) await close();
});

export function closeAfterwards(close: () => Promise<unknown>): void {
  opened.push(close);
}

/** A built-in broker on a free port. */
export async function startBroker(
  sink: HandSink,
  options: Partial<BuiltInBrokerOptions> = {},
): Promise<BuiltInBroker> {
  const broker = await startBuiltInBroker({ host: '127.0.0.1', port: 0, sink, ...options });
  closeAfterwards(() => broker.close());
  return broker;
}

/** A connected client and the broker's answer to it. */
export async function openForAnswer(
  ...args: Parameters<typeof connectForAnswer>
): ReturnType<typeof connectForAnswer> {
  const connected = await connectForAnswer(...args);
  closeAfterwards(() => connected.client.endAsync(true));
  return connected;
}

export async function openClient(...args: Parameters<typeof connectForAnswer>): Promise<MqttClient> {
  return (await openForAnswer(...args)).client;
}
