/** Starts the built program as its users do; it ends with the test. */
import { onTestFinished } from 'vitest';
import { type Running, startKept } from './kept-processes.js';

export { type Running, run, startKept } from './kept-processes.js';

export function start(args: readonly string[], environment: NodeJS.ProcessEnv = {}): Running {
  const running = startKept(args, environment);
  onTestFinished(() => running.kill());
  return running;
}
