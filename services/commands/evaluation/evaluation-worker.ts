/** A thread that evaluates: one task for each message. */
import { parentPort } from 'node:worker_threads';
import { evaluateTask, type Task } from './tasks.js';

parentPort?.on('message', (task: Task) => parentPort?.postMessage(evaluateTask(task)));
