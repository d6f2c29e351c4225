/** The measurements, as data: each gives messages a second, bare and ours, or a figure of ours alone. */
import { setTimeout as wait } from 'node:timers/promises';
import type { Load } from './load.js';
import { startMosquitto } from './mosquitto.js';
import {
  ask,
  cleaningUp,
  counter,
  freePort,
  type Serving,
  startOwn,
  startService,
  temporaryDirectory,
  type Undo,
} from './processes.js';

export interface RatioCase {
  readonly name: string;
  readonly what: string;
  /** Ratio of ours to bare that is wanted at least. */
  readonly wanted: number;
  bare(load: Load): Promise<number>;
  ours(load: Load): Promise<number>;
}

/** Seconds that a publisher needed from its first message to the last acknowledgement. */
async function publishedIn(undo: Undo, url: string, load: Load): Promise<number> {
  const { child } = await startOwn(undo, './publisher.js', url, JSON.stringify(load));
  const { seconds } = await ask<{ seconds: number }>(child, 'go');
  return seconds;
}

/** Messages a second from the publisher's first message until the consumer has all of them. */
async function consumedPerSecond(
  undo: Undo,
  url: string,
  load: Load,
  consumed: () => Promise<unknown>,
): Promise<number> {
  const { child } = await startOwn(undo, './publisher.js', url, JSON.stringify(load));
  const began = performance.now();
  child.send('go');
  await consumed();
  return (load.messages * 1000) / (performance.now() - began);
}

function expectCount(what: string, found: number, load: Load): void {
  if (found !== load.messages) throw new Error(`${what}: expected ${load.messages} messages, got ${found}`);
}

/** Every reading is stored and every whole hour judged: else the figure means nothing. */
async function expectDone({ http }: Serving, load: Load): Promise<void> {
  expectCount('stored readings / 3', (await counter(http, 'readings_kept_total')) / 3, load);
  const health = (await (await fetch(`${http}/api/health`)).json()) as { watchLag: { hours: number } };
  if (health.watchLag.hours >= 1) throw new Error(`watch is ${health.watchLag.hours} h behind`);
}

const builtIn: RatioCase = {
  name: 'built-in',
  what: 'built-in broker to durable and watched, acknowledged at QoS 1; bare: aedes counting in authorizePublish',
  wanted: 0.5,
  bare: (load) =>
    cleaningUp(async (undo) => {
      const { child, word } = await startOwn(undo, './bare-broker.js');
      const seconds = await publishedIn(undo, `mqtt://127.0.0.1:${(word as { port: number }).port}`, load);
      expectCount('bare broker', (await ask<{ count: number }>(child, 'count')).count, load);
      return load.messages / seconds;
    }),
  ours: (load) =>
    cleaningUp(async (undo) => {
      const port = await freePort();
      const serving = await startService(
        undo,
        load,
        temporaryDirectory(undo),
        '--mqtt-listen',
        `127.0.0.1:${port}`,
      );
      const seconds = await publishedIn(undo, `mqtt://127.0.0.1:${port}`, load);
      await expectDone(serving, load);
      return load.messages / seconds;
    }),
};

const mosquitto: RatioCase = {
  name: 'mosquitto',
  what: 'Mosquitto to durable and watched, acknowledged at QoS 1; bare: mqtt.js that counts; both live behind the same publisher',
  wanted: 0.5,
  bare: (load) =>
    cleaningUp(async (undo) => {
      const url = await startMosquitto(undo);
      const { child } = await startOwn(undo, './bare-subscriber.js', url, String(load.messages));
      const done = new Promise((resolve) => child.once('message', resolve));
      return consumedPerSecond(undo, url, load, () => done);
    }),
  ours: (load) =>
    cleaningUp(async (undo) => {
      const url = await startMosquitto(undo);
      const serving = await startService(undo, load, temporaryDirectory(undo), '--broker', url);
      while (!(await connected(serving))) await wait(20);
      const rate = await consumedPerSecond(undo, url, load, async () => {
        while ((await counter(serving.http, 'readings_kept_total')) < load.messages * 3) await wait(LOOK_ms);
      });
      await expectDone(serving, load);
      return rate;
    }),
};

/** Between looks at the service's counter, ms: it counts against us. */
const LOOK_ms = 50;

async function connected({ http }: Serving): Promise<boolean> {
  const health = (await (await fetch(`${http}/api/health`)).json()) as { broker: { connected: boolean } };
  return health.broker.connected;
}

export const RATIO_CASES: readonly RatioCase[] = [builtIn, mosquitto];

/** Resident memory of `serve` with many probes, MiB. */
export function memoryAt(
  probes: number,
  readingsEach: number,
): Promise<{ idle_MiB: number; after_MiB: number }> {
  return cleaningUp(async (undo) => {
    const load: Load = { beds: probes / 5, probesPerBed: 5, messages: (probes + 1) * readingsEach };
    const port = await freePort();
    const serving = await startService(
      undo,
      load,
      temporaryDirectory(undo),
      '--mqtt-listen',
      `127.0.0.1:${port}`,
    );
    const idle_MiB = await resident_MiB(serving);
    await publishedIn(undo, `mqtt://127.0.0.1:${port}`, load);
    await expectDone(serving, load);
    return { idle_MiB, after_MiB: await resident_MiB(serving) };
  });
}

async function resident_MiB({ http }: Serving): Promise<number> {
  const text = await (await fetch(`${http}/metrics`)).text();
  return Number(/^process_resident_memory_bytes (\d+)/m.exec(text)?.[1] ?? Number.NaN) / 2 ** 20;
}
