/** The subscription at a real Mosquitto. */
import { connect } from 'mqtt';
import { afterEach, describe, expect, test } from 'vitest';
import {
  Collector,
  connectExternalBroker,
  type ExternalBroker,
  type ExternalBrokerOptions,
  type Incoming,
} from '../../services/intake/index.js';
import { selfSigned } from './certificate.js';
import { type Mosquitto, startMosquitto } from './mosquitto.js';

const READINGS = 'sandlarder/v1/ridge-station/probes/p01/readings';
const ALARM = 'sandlarder/v1/ridge-station/beds/pit-a/alarm';

const open: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const close of open.splice(0).reverse()) await close();
});

async function mosquitto(overrides: Readonly<Record<string, string>> = {}): Promise<Mosquitto> {
  const started = await startMosquitto(overrides);
  open.push(() => started.dispose());
  return started;
}

/** A service whose store is a list that can be broken. */
class Service {
  readonly kept: string[] = [];
  readonly warnings: string[] = [];
  broken = false;
  readonly collector: Collector;
  readonly broker: ExternalBroker;

  constructor(url: string, options: Partial<ExternalBrokerOptions> = {}) {
    this.collector = new Collector({ commit: (group) => this.#commit(group), limits: { retryFirst_ms: 10 } });
    this.broker = connectExternalBroker({
      url,
      clientId: 'sandlarder-test',
      sink: this.collector,
      onWarning: (warning) => this.warnings.push(warning),
      limits: { reconnectFirst_ms: 20, reconnectLongest_ms: 100 },
      ...options,
    });
    open.push(() => this.leave());
  }

  #commit(group: readonly Incoming[]): void {
    if (this.broken) throw new Error('disk full');
    this.kept.push(...group.map(({ payload }) => Buffer.from(payload).toString()));
  }

  async connected(): Promise<this> {
    await expect.poll(() => this.broker.connected(), { timeout: 20_000 }).toBe(true);
    return this;
  }

  async leave(): Promise<void> {
    this.collector.close();
    await this.broker.close();
  }
}

/** Publishes so many numbered messages at QoS 1, and settles when the broker has them. */
async function publish(url: string, from: number, to: number): Promise<void> {
  const client = connect(url, { protocolVersion: 5 });
  const numbers = Array.from({ length: to - from }, (_, index) => `${from + index}`);
  await Promise.all(numbers.map((number) => client.publishAsync(READINGS, number, { qos: 1 })));
  await client.endAsync();
}

/** Asks until the subscription is there: what comes before it is not kept for the service. */
async function subscribed(url: string, service: Service): Promise<void> {
  await expect
    .poll(
      async () => {
        await publish(url, 0, 1);
        return service.kept.length;
      },
      { timeout: 20_000, interval: 50 },
    )
    .toBeGreaterThan(0);
}

const distinct = (texts: readonly string[]): number[] =>
  [...new Set(texts)].map(Number).sort((one, other) => one - other);

const upTo = (count: number): number[] => Array.from({ length: count }, (_, index) => index);

describe('with Mosquitto', () => {
  test('MQTT 5 is spoken, and a thousand messages arrive in order', async () => {
    const { url } = await mosquitto();
    const service = await new Service(url).connected();
    await subscribed(url, service);
    expect(service.broker.protocolVersion()).toBe(5);
    service.kept.length = 0;
    await publish(url, 0, 1000);
    await expect.poll(() => service.kept.length, { timeout: 20_000 }).toBe(1000);
    expect(service.kept.map(Number)).toEqual(upTo(1000));
    expect(service.warnings).toEqual([]);
  });

  test('what could not be committed is given again to the next connection', async () => {
    const { url } = await mosquitto();
    const first = await new Service(url).connected();
    await subscribed(url, first);
    first.broken = true;
    await publish(url, 1, 200);
    await expect.poll(() => first.collector.counts.waiting, { timeout: 20_000 }).toBeGreaterThan(0);
    await first.leave();
    const second = await new Service(url, { expectSession: true }).connected();
    await expect
      .poll(() => distinct([...first.kept, ...second.kept]), { timeout: 20_000 })
      .toEqual(upTo(200));
    expect(second.warnings).toEqual([]);
  });

  test('what comes while the service is away waits for it', async () => {
    const { url } = await mosquitto();
    const first = await new Service(url).connected();
    await subscribed(url, first);
    await first.leave();
    await publish(url, 1, 1500);
    const second = await new Service(url, { expectSession: true }).connected();
    await expect.poll(() => distinct([...first.kept, ...second.kept]).length, { timeout: 30_000 }).toBe(1500);
  });

  test('a broker that is killed and comes back is found again, with its session', async () => {
    const server = await mosquitto();
    const service = await new Service(server.url, {
      limits: { reconnectFirst_ms: 20, reconnectLongest_ms: 100 },
    }).connected();
    await subscribed(server.url, service);
    await server.kill();
    await expect.poll(() => service.broker.connected(), { timeout: 20_000 }).toBe(false);
    await server.restart();
    await service.connected();
    await publish(server.url, 1, 100);
    await expect.poll(() => distinct(service.kept), { timeout: 20_000 }).toEqual(upTo(100));
    expect(service.warnings.join()).not.toContain('lost the session');
  });

  test('a broker that forgets its sessions over a restart is told of', async () => {
    const server = await mosquitto({ persistence: 'false' });
    const service = await new Service(server.url).connected();
    await subscribed(server.url, service);
    await server.restart();
    await expect.poll(() => service.warnings.join(), { timeout: 20_000 }).toContain('lost the session');
    await service.connected();
  });

  test('a queue that overflowed is told of', async () => {
    const { url } = await mosquitto({ max_queued_messages: '10', sys_interval: '1' });
    const first = await new Service(url).connected();
    await subscribed(url, first);
    await first.leave();
    await publish(url, 1, 200);
    const second = await new Service(url, { expectSession: true }).connected();
    await expect.poll(() => second.warnings.join(), { timeout: 20_000 }).toMatch(/dropped \d+ messages/);
  });

  test('the lamp topic is published retained', async () => {
    const { url } = await mosquitto();
    const service = await new Service(url).connected();
    await service.broker.publish({ topic: ALARM, payload: '{"kind":"damp"}', qos: 1, retain: true });
    const lamp = connect(url);
    open.push(() => lamp.endAsync(true));
    const text = new Promise((resolve) =>
      lamp.once('message', (_topic, payload) => resolve(payload.toString())),
    );
    await lamp.subscribeAsync(ALARM, { qos: 1 });
    expect(await text).toBe('{"kind":"damp"}');
  });

  test('TLS: a certificate of a known authority is taken, another is not', async () => {
    const certificate = await selfSigned();
    open.push(() => certificate.dispose());
    const { port } = await mosquitto({ certfile: certificate.certificate, keyfile: certificate.key });
    const url = `mqtts://127.0.0.1:${port}`;
    const trusting = await new Service(url, { authority: certificate.pem }).connected();
    expect(trusting.warnings).toEqual([]);
    const wary = new Service(url, { clientId: 'sandlarder-wary' });
    await expect.poll(() => wary.warnings.join(), { timeout: 20_000 }).toContain('self-signed certificate');
    expect(wary.broker.connected()).toBe(false);
  });

  test('a user that the broker does not let in is told of', async () => {
    const { url } = await mosquitto({ allow_anonymous: 'false' });
    const service = new Service(url);
    await expect.poll(() => service.warnings.join(), { timeout: 20_000 }).toMatch(/Not authorized/);
  });
});
