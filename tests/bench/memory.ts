/** Resident memory of `serve` when it has taken a load in; and of a bare aedes process after the same load. */
import { startPublisher } from './built-in.js';
import type { Load } from './load.js';
import type { Measured } from './measured.js';
import { cleaningUp, freePort, startOwn } from './processes.js';
import { resident_MiB } from './resident.js';
import { expectAllDone, startService } from './service.js';

/** Between looks for the highest, ms. */
const LOOK_ms = 100;

/** What the process holds after the work, and before it and at the highest as a note. */
async function watched(pid: number | undefined, work: () => Promise<unknown>): Promise<Measured> {
  const before = resident_MiB(pid);
  let highest = before;
  const timer = setInterval(() => {
    highest = Math.max(highest, resident_MiB(pid));
  }, LOOK_ms);
  try {
    await work();
  } finally {
    clearInterval(timer);
  }
  const value = resident_MiB(pid);
  highest = Math.max(highest, value);
  return { value, note: `${before.toFixed(0)} MiB before, ${highest.toFixed(0)} MiB at the highest` };
}

export const bareMemory = (load: Load): Promise<Measured> =>
  cleaningUp(async (undo) => {
    const broker = await startOwn<number>(undo, './bare-broker.js');
    const publisher = await startPublisher(undo, `mqtt://127.0.0.1:${broker.first}`, load);
    const measured = await watched(broker.child.pid, () => publisher.ask('timed'));
    const count = await broker.ask<number>('count');
    if (count !== load.timed) throw new Error(`bare broker: expected ${load.timed} messages, got ${count}`);
    return measured;
  });

export const serveMemory = (load: Load): Promise<Measured> =>
  cleaningUp(async (undo) => {
    const service = await startService(undo, load, '--mqtt-listen', `127.0.0.1:${await freePort()}`);
    const publisher = await startPublisher(undo, service.url, load);
    const measured = await watched(service.child.pid, () => publisher.ask('timed'));
    await expectAllDone(service, load);
    return measured;
  });
