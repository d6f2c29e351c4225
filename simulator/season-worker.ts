/** A thread that simulates some beds, a day for each day asked for. */
import { parentPort, workerData } from 'node:worker_threads';
import { simulateDays } from './days.js';
import type { WorkerTask } from './season.js';

const { scenario, parts, seed } = workerData as WorkerTask;
const days = parts.map((part) => simulateDays(scenario, part, seed));

parentPort?.on('message', () => {
  parentPort?.postMessage(days.flatMap((part) => part.next().value ?? []));
});
