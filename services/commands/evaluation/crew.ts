/** Evaluates in as many threads as the machine has cores, and gives the results in the order of the tasks. */
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { type EvaluatedBed, evaluateTask, type Task } from './tasks.js';

/** Where the compiled worker stands; the sources have none. */
const WORKER_FILE = new URL('./evaluation-worker.js', import.meta.url);

/** Threads at the most: each holds a season of some tens of megabytes. */
const MOST_THREADS = 16;

/** For each task what its beds came to; without compiled sources, and for a single task, in this thread. */
export async function* evaluateAll(tasks: readonly Task[]): AsyncGenerator<readonly EvaluatedBed[]> {
  const count = Math.min(tasks.length, availableParallelism(), MOST_THREADS);
  if (count > 1 && existsSync(WORKER_FILE)) yield* inThreads(tasks, count);
  else for (const task of tasks) yield evaluateTask(task);
}

interface Awaited {
  readonly promise: Promise<readonly EvaluatedBed[]>;
  readonly resolve: (beds: readonly EvaluatedBed[]) => void;
  readonly reject: (error: unknown) => void;
}

function awaited(): Awaited {
  let resolve: Awaited['resolve'] = () => undefined;
  let reject: Awaited['reject'] = () => undefined;
  const promise = new Promise<readonly EvaluatedBed[]>((take, fail) => {
    resolve = take;
    reject = fail;
  });
  // Whoever takes the results stops at the first that fails; those behind it are nobody's concern.
  promise.catch(() => undefined);
  return { promise, resolve, reject };
}

async function* inThreads(tasks: readonly Task[], count: number): AsyncGenerator<readonly EvaluatedBed[]> {
  const results = tasks.map(awaited);
  const queue = tasks.entries();
  const work = async (thread: Worker): Promise<void> => {
    for (const [at, task] of queue) {
      thread.postMessage(task);
      const [beds] = (await once(thread, 'message')) as [EvaluatedBed[]];
      results[at]?.resolve(beds);
    }
  };
  const threads = Array.from({ length: count }, () => new Worker(WORKER_FILE));
  for (const thread of threads)
    work(thread).catch((error: unknown) => {
      for (const { reject } of results) reject(error);
    });
  try {
    for (const { promise } of results) yield await promise;
  } finally {
    await Promise.all(threads.map((thread) => thread.terminate()));
  }
}
