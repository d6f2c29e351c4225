/** A thread that answers one question about what a bed's probes would find. */
import { parentPort, workerData } from 'node:worker_threads';
import { SandlarderError } from '../core/errors.js';
import { answerOf, type CoverageTask } from '../core/watch/coverage/index.js';
import type { Answered } from './coverage-desk.js';

function answered(task: CoverageTask): Answered {
  try {
    return { answer: answerOf(task) };
  } catch (error) {
    if (!(error instanceof SandlarderError)) throw error;
    return { refused: { code: error.code, message: error.message } };
  }
}

parentPort?.postMessage(answered(workerData as CoverageTask));
