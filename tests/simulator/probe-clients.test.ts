import { MqttClient } from 'mqtt';
import { afterEach, expect, test, vi } from 'vitest';
import { ProbeClients } from '../../simulator/probe-clients.js';
import { openBroker } from './a-broker.js';

const TOPIC = 'sandlarder/v1/ridge/probes/p01/readings';

afterEach(() => {
  vi.restoreAllMocks();
});

async function connected() {
  const broker = await openBroker();
  const clients = new ProbeClients({ brokerUrl: broker.url, site: 'ridge' });
  await clients.connect(['p01']);
  return { broker, clients };
}

test("a publish that fails with 'Connection closed' is tried again", async () => {
  const { broker, clients } = await connected();
  vi.spyOn(MqttClient.prototype, 'publishAsync').mockRejectedValueOnce(new Error('Connection closed'));
  expect(await clients.publish('p01', TOPIC, 'value')).toBe(true);
  expect(clients.retried).toBe(1);
  expect(broker.arrived.filter(({ topic }) => topic === TOPIC)).toHaveLength(1);
  await clients.close();
});

test('after closing, nothing is tried any more', async () => {
  const { clients } = await connected();
  await clients.close();
  expect(await clients.publish('p01', TOPIC, 'value')).toBe(false);
});

test('a connection with a message that is never acknowledged is cut, not waited for', async () => {
  const { clients } = await connected();
  const end = vi.spyOn(MqttClient.prototype, 'endAsync');
  vi.spyOn(MqttClient.prototype, 'publishAsync').mockImplementationOnce(() => new Promise(() => undefined));
  void clients.publish('p01', TOPIC, 'value');
  await clients.close();
  expect(end).toHaveBeenCalledWith(true);
});

test('a connection with nothing under way ends in order', async () => {
  const { clients } = await connected();
  const end = vi.spyOn(MqttClient.prototype, 'endAsync');
  await clients.close();
  expect(end).toHaveBeenCalledWith(false);
});
