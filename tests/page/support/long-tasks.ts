/**
 * Counts long tasks: stretches over 50 ms in which the page can do nothing else (W3C Long Tasks). A busy machine makes
 * any task long; so tasks of known work are run between, and counted apart: they tell what the machine alone does.
 */
import type { Page } from 'playwright-core';

/** Work of one such task, ms on this machine when it is free: half of what makes a task long. */
const KNOWN_WORK_ms = 25;

interface Counting {
  readonly long: number[];
  readonly known: [from: number, to: number][];
  rounds: number;
}

/** Begins to count in a page that is open. */
export async function countLongTasks(page: Page): Promise<void> {
  await page.evaluate((work_ms) => {
    const counting: Counting = { long: [], known: [], rounds: 0 };
    (globalThis as unknown as { counting: Counting }).counting = counting;
    const timed = (rounds: number): number => {
      const begun = performance.now();
      for (let sum = 0, round = 0; round < rounds; round += 1) sum += Math.sqrt(round + sum);
      return performance.now() - begun;
    };
    // The fastest of many short runs is what the machine does undisturbed.
    const fastest_ms = Math.min(...Array.from({ length: 60 }, () => timed(100_000)));
    counting.rounds = Math.round((100_000 * work_ms) / fastest_ms);
    new PerformanceObserver((list) => {
      counting.long.push(...list.getEntries().map(({ startTime }) => startTime));
    }).observe({ entryTypes: ['longtask'] });
  }, KNOWN_WORK_ms);
}

/** Runs tasks of known work. */
export const runKnownTasks = (page: Page, count: number): Promise<void> =>
  page.evaluate(async (tasks) => {
    const { counting } = globalThis as unknown as { counting: Counting };
    const from = performance.now();
    for (let task = 0; task < tasks; task += 1)
      await new Promise<void>((done) => {
        setTimeout(() => {
          for (let sum = 0, round = 0; round < counting.rounds; round += 1) sum += Math.sqrt(round + sum);
          done();
        });
      });
    counting.known.push([from, performance.now()]);
    // What was long is told after the task.
    await new Promise((done) => setTimeout(done));
  }, count);

/** Long tasks among those of known work, and all others. */
export const longTasks = (page: Page): Promise<{ readonly known: number; readonly others: number }> =>
  page.evaluate(() => {
    const { long, known } = (globalThis as unknown as { counting: Counting }).counting;
    const ofKnown = long.filter((at) => known.some(([from, to]) => at >= from && at < to)).length;
    return { known: ofKnown, others: long.length - ofKnown };
  });
