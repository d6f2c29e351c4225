/** The built-in broker with Mosquitto's command-line clients. */
import { afterEach, describe, expect, test } from 'vitest';
import {
  type BuiltInBroker,
  Collector,
  type Incoming,
  startBuiltInBroker,
} from '../../services/intake/index.js';
import { firstMessage, publishLines, publishOne } from './mosquitto-clients.js';

const READINGS = 'sandlarder/v1/ridge-station/probes/p01/readings';
const ALARM = 'sandlarder/v1/ridge-station/beds/pit-a/alarm';

const open: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const close of open.splice(0).reverse()) await close();
});

async function start(): Promise<{ broker: BuiltInBroker; kept: Incoming[] }> {
  const kept: Incoming[] = [];
  const sink = new Collector({ commit: (group) => kept.push(...group) });
  const broker = await startBuiltInBroker({ host: '127.0.0.1', port: 0, sink });
  open.push(() => broker.close());
  return { broker, kept };
}

const textsOf = (kept: readonly Incoming[]): string[] =>
  kept.map(({ payload }) => Buffer.from(payload).toString());

describe.each(['mqttv311', 'mqttv5', 'mqttv31'])('mosquitto_pub -V %s', (version) => {
  test.each(['0', '1', '2'])('QoS %s', async (qos) => {
    const { broker, kept } = await start();
    const lines = Array.from({ length: 500 }, (_, index) => `{"line":${index}}`);
    expect(await publishLines(broker.port, READINGS, lines, '-V', version, '-q', qos)).toBe(0);
    await expect.poll(() => kept.length, { timeout: 20_000 }).toBe(lines.length);
    expect(textsOf(kept)).toEqual(lines);
  });

  test('to a topic that is not ours, with a will, retained and empty', async () => {
    const { broker, kept } = await start();
    const will = ['--will-topic', 'a/b', '--will-payload', 'gone'];
    expect(await publishOne(broker.port, 'weather/today', 'x', '-V', version, '-q', '1', '-r', ...will)).toBe(
      0,
    );
    expect(await publishOne(broker.port, READINGS, '', '-V', version, '-q', '1', '-r')).toBe(0);
    expect(kept.map(({ topic }) => topic)).toEqual(['weather/today', READINGS]);
  });
});

test.each(['mqttv311', 'mqttv5'])('mosquitto_sub -V %s sees the lamp topic', async (version) => {
  const { broker } = await start();
  await broker.publish({ topic: ALARM, payload: '{"kind":"damp"}', qos: 1, retain: true });
  expect(await firstMessage(broker.port, 'sandlarder/v1/+/beds/+/alarm', '-V', version, '-q', '1')).toBe(
    `${ALARM} {"kind":"damp"}`,
  );
});
