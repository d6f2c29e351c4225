/** A thread that answers one question about what a bed's probes would find. */
import { parentPort, workerData } from 'node:worker_threads';
import { answerOf, type CoverageTask } from '../core/watch/coverage/index.js';
import { answered } from './thread-desk.js';

parentPort?.postMessage(answered(answerOf, workerData as CoverageTask));
