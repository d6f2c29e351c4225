/** What the built-in broker does for clients of MQTT 5 beyond what 3.1.1 knows. */
import { expect, test } from 'vitest';
import { OpenSink, READINGS, STATUS } from './clients.js';
import { openClient, openForAnswer, startBroker } from './opened.js';

test('the broker says what it does not offer', async () => {
  const { port } = await startBroker(new OpenSink(), {
    limits: { packet_bytes: 4321, inflight_messages: 77 },
  });
  const { answer } = await openForAnswer(port, {
    protocolVersion: 5,
    clean: false,
    clientId: 'p01',
    properties: { sessionExpiryInterval: 3600 },
  });
  expect(answer.sessionPresent).toBe(false);
  expect(answer.properties).toMatchObject({
    sessionExpiryInterval: 0,
    receiveMaximum: 77,
    maximumPacketSize: 4321,
    subscriptionIdentifiersAvailable: false,
    sharedSubscriptionAvailable: false,
  });
  expect(answer.properties?.topicAliasMaximum).toBeUndefined();
});

test('a client without an id gets one', async () => {
  const { port } = await startBroker(new OpenSink());
  const { answer } = await openForAnswer(port, { protocolVersion: 5, clientId: '' });
  expect(answer.properties?.assignedClientIdentifier).toMatch(/^assigned-[0-9a-f-]{36}$/);
});

test('properties of a message are dropped, and its payload is not touched', async () => {
  const sink = new OpenSink();
  const { port } = await startBroker(sink);
  const probe = await openClient(port, { protocolVersion: 5 });
  await probe.publishAsync(READINGS, 'pack', {
    qos: 1,
    properties: {
      messageExpiryInterval: 60,
      contentType: 'application/senml+json',
      userProperties: { a: ['b', 'c'] },
    },
  });
  expect(sink.payloads).toEqual(['pack']);
});

test('leaving with the wish that the will be sent', async () => {
  const sink = new OpenSink();
  const { port } = await startBroker(sink);
  const will = {
    topic: STATUS,
    payload: Buffer.from('offline'),
    qos: 1,
    retain: true,
    properties: { willDelayInterval: 0, contentType: 'text/plain' },
  } as const;
  const probe = await openClient(port, { protocolVersion: 5, will });
  await probe.endAsync(false, { reasonCode: 4 });
  await sink.has(1);
  expect(sink.payloads).toEqual(['offline']);
});
