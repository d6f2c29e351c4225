/**
 * From Mosquitto to durable; and from Mosquitto to a bare mqtt.js subscriber that only counts.
 *
 * In two ways. From a full queue: the consumer is halted while the queue is filled, so that nothing but the consumer
 * can be what takes the time. And while the publisher publishes, where publisher and Mosquitto share the machine with
 * the consumer, and set the pace of both sides as far as they are slower.
 */
import { setTimeout as pause } from 'node:timers/promises';
import { type Published, startPublisher } from './built-in.js';
import { type Load, rowAt } from './load.js';
import type { Measured } from './measured.js';
import { startMosquitto } from './mosquitto.js';
import { cleaningUp, expectFrom, startOwn, type Undo } from './processes.js';
import { expectAllDone, messagesACommit, startService } from './service.js';

/** Between looks whether the last row is there, ms. */
const LOOK_ms = 5;

interface Consumer {
  readonly child: { kill(signal: NodeJS.Signals): unknown };
  /** Resolves when it has taken in as many messages of the load. */
  until(messages: number): Promise<void>;
}

/** Takes the timed part in; messages a second until the consumer has all of it. */
type Way = (publish: () => Promise<Published>, load: Load, consumer: Consumer) => Promise<Measured>;

/** From the moment that the consumer goes on. Mosquitto sends it a window of messages, and more as it acknowledges. */
const fromQueue: Way = async (publish, load, { child, until }) => {
  child.kill('SIGSTOP');
  await publish();
  const began = performance.now();
  child.kill('SIGCONT');
  await until(load.warmUp + load.timed);
  return { value: load.timed / ((performance.now() - began) / 1000) };
};

/** From the publisher's first message. */
const whilePublished: Way = async (publish, load, { until }) => {
  const began = performance.now();
  await Promise.all([publish(), until(load.warmUp + load.timed)]);
  return { value: load.timed / ((performance.now() - began) / 1000) };
};

async function takeIn(undo: Undo, url: string, load: Load, consumer: Consumer, way: Way): Promise<Measured> {
  const publisher = await startPublisher(undo, url, load);
  await publisher.ask<Published>('warm-up');
  await consumer.until(load.warmUp);
  return way(() => publisher.ask<Published>('timed'), load, consumer);
}

const bareSubscriber = (load: Load, way: Way): Promise<Measured> =>
  cleaningUp(async (undo) => {
    const url = await startMosquitto(undo);
    const subscriber = await startOwn(undo, './bare-subscriber.js', url);
    const until = async (messages: number): Promise<void> => {
      const count = await subscriber.ask<number>(messages);
      if (count !== messages) throw new Error(`bare subscriber: expected ${messages} messages, got ${count}`);
    };
    return takeIn(undo, url, load, { child: subscriber.child, until }, way);
  });

const serveExternal = (load: Load, way: Way): Promise<Measured> =>
  cleaningUp(async (undo) => {
    const url = await startMosquitto(undo);
    const service = await startService(undo, load, '--broker', url);
    const untilStored = async (messages: number): Promise<void> => {
      const last = rowAt(load, messages - 1);
      while (!service.stored.has(last)) await pause(LOOK_ms);
    };
    const until = (messages: number): Promise<void> =>
      expectFrom(service.child, `${messages} rows`, untilStored(messages));
    const measured = await takeIn(undo, url, load, { child: service.child, until }, way);
    await expectAllDone(service, load);
    return { ...measured, note: await messagesACommit(service) };
  });

type Side = (load: Load) => Promise<Measured>;

export const subscriberFromQueue: Side = (load) => bareSubscriber(load, fromQueue);
export const serveFromQueue: Side = (load) => serveExternal(load, fromQueue);
export const subscriberLive: Side = (load) => bareSubscriber(load, whilePublished);
export const serveLive: Side = (load) => serveExternal(load, whilePublished);
