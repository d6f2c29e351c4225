/** From a publisher through the built-in broker, acknowledged at QoS 1; and through a bare aedes that only counts. */
import type { Load } from './load.js';
import type { Measured } from './measured.js';
import { cleaningUp, freePort, type Own, startOwn, type Undo } from './processes.js';
import { expectAllDone, messagesACommit, startService } from './service.js';

/** What a publisher answers: seconds from its first message to the last acknowledgement. */
export interface Published {
  readonly seconds: number;
}

export function startPublisher(undo: Undo, url: string, load: Load): Promise<Own> {
  return startOwn(undo, './publisher.js', url, JSON.stringify(load));
}

/** Publishes all of a load; messages a second of the timed part, until the last acknowledgement. */
async function publishAll(undo: Undo, url: string, load: Load): Promise<number> {
  const publisher = await startPublisher(undo, url, load);
  await publisher.ask<Published>('warm-up');
  const { seconds } = await publisher.ask<Published>('timed');
  return load.timed / seconds;
}

export const bareBroker = (load: Load): Promise<Measured> =>
  cleaningUp(async (undo) => {
    const broker = await startOwn<number>(undo, './bare-broker.js');
    const value = await publishAll(undo, `mqtt://127.0.0.1:${broker.first}`, load);
    const count = await broker.ask<number>('count');
    if (count !== load.warmUp + load.timed)
      throw new Error(`bare broker: expected ${load.warmUp + load.timed} messages, got ${count}`);
    return { value };
  });

export const serveBuiltIn = (load: Load): Promise<Measured> =>
  cleaningUp(async (undo) => {
    const service = await startService(undo, load, '--mqtt-listen', `127.0.0.1:${await freePort()}`);
    const value = await publishAll(undo, service.url, load);
    await expectAllDone(service, load);
    return { value, note: await messagesACommit(service) };
  });
