/**
 * A whole site through its season, in order of sending: beds are simulated in worker threads, a few days ahead of
 * whoever takes the readings.
 */
import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { SandlarderError } from '../services/core/errors.js';
import { simulateDays } from './days.js';
import type { Delivery } from './delivery.js';
import type { Scenario } from './scenario.js';
import { SHADE } from './scenario-numbers.js';

/** What a worker is started with. */
export interface WorkerTask {
  readonly scenario: Scenario;
  readonly parts: readonly string[];
  readonly seed: number;
}

/** Days that a worker may be ahead: bounds what waits in memory. */
const AHEAD_days = 3;

/** Where the compiled worker stands; the sources have none. */
const WORKER_FILE = new URL('./season-worker.js', import.meta.url);

/** What is sent on each day of the season, by the whole site, in order. */
export async function* simulateSeason(scenario: Scenario, seed: number): AsyncGenerator<readonly Delivery[]> {
  const parts = [...scenario.beds.map(({ id }) => id), SHADE];
  const sources = existsSync(WORKER_FILE)
    ? inWorkers({ scenario, parts, seed })
    : parts.map((part) => inProcess(simulateDays(scenario, part, seed)));
  try {
    for (let day = 0; day < scenario.days; day += 1) {
      const sent = (await Promise.all(sources.map((source) => source.next()))).flat();
      yield sent.sort((one, other) => one.at_s - other.at_s);
    }
  } finally {
    for (const source of sources) source.close();
  }
}

interface Source {
  /** What is sent on the next day. */
  next(): Promise<Delivery[]>;
  close(): void;
}

function inProcess(days: Generator<Delivery[]>): Source {
  return { next: async () => days.next().value ?? [], close: () => days.return([]) };
}

/** Leaves one core to whoever takes the readings. */
function inWorkers({ scenario, parts, seed }: WorkerTask): Source[] {
  const count = Math.min(parts.length, Math.max(1, availableParallelism() - 1));
  return Array.from({ length: count }, (_, index) =>
    fromWorker({ scenario, parts: parts.filter((_part, at) => at % count === index), seed }),
  );
}

function fromWorker(task: WorkerTask): Source {
  const worker = new Worker(WORKER_FILE, { workerData: task });
  const ready: Delivery[][] = [];
  const waiting: { take: (day: Delivery[]) => void; fail: (error: Error) => void }[] = [];
  let failure: Error | undefined;
  const fail = (error: Error): void => {
    failure ??= error;
    for (const { fail: reject } of waiting.splice(0)) reject(failure);
  };
  worker.on('message', (day: Delivery[]) => {
    const first = waiting.shift();
    if (first) first.take(day);
    else ready.push(day);
  });
  worker.on('error', fail);
  worker.on('exit', () =>
    fail(new SandlarderError('STORE_UNAVAILABLE', 'a simulating thread ended too early')),
  );
  for (let day = 0; day < AHEAD_days; day += 1) worker.postMessage('day');
  return {
    next: () => {
      worker.postMessage('day');
      const day = ready.shift();
      if (day) return Promise.resolve(day);
      if (failure) return Promise.reject(failure);
      return new Promise((take, reject) => waiting.push({ take, fail: reject }));
    },
    close: () => void worker.terminate(),
  };
}
