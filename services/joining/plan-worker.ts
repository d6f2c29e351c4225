/** A thread that plans one bed. */
import { parentPort, workerData } from 'node:worker_threads';
import { type PlanQuestion, planBed } from '../core/keeping/index.js';
import { answered } from './thread-desk.js';

parentPort?.postMessage(answered((question: PlanQuestion) => planBed(question), workerData as PlanQuestion));
