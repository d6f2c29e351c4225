import type { Timer } from './ports.js';

/**
 * Waits for a promise, but not longer than a time.
 *
 * @param late called when the time is up first: what it returns or throws is the outcome
 */
export async function inTime<T>(
  promise: Promise<T>,
  timer: Timer,
  limit_ms: number,
  late: () => T,
): Promise<T> {
  let cancel = (): void => undefined;
  const timeIsUp = new Promise<void>((resolve) => {
    cancel = timer.after(limit_ms, resolve);
  });
  try {
    return await Promise.race([promise, timeIsUp.then(late)]);
  } finally {
    cancel();
  }
}
