import { expect, test, vi } from 'vitest';
import { InFlight } from '../../simulator/in-flight.js';

const LONG_ms = 1e6;

/** Whether a promise has settled once everything that was ready has run. */
async function settled(promise: Promise<void>): Promise<boolean> {
  let done = false;
  void promise.then(() => {
    done = true;
  });
  await new Promise((resolve) => setImmediate(resolve));
  return done;
}

test('there is room until as many are under way as may be, and again when one is acknowledged', async () => {
  const inFlight = new InFlight({ most: 2, patience_ms: LONG_ms });
  inFlight.add();
  expect(await settled(inFlight.room())).toBe(true);
  inFlight.add();
  const room = inFlight.room();
  expect(await settled(room)).toBe(false);
  inFlight.remove();
  expect(await settled(room)).toBe(true);
  inFlight.close();
});

test('it is drained when the last is acknowledged, not before', async () => {
  const inFlight = new InFlight({ most: 9, patience_ms: LONG_ms });
  inFlight.add();
  inFlight.add();
  const drained = inFlight.drained();
  inFlight.remove();
  expect(await settled(drained)).toBe(false);
  inFlight.remove();
  expect(await settled(drained)).toBe(true);
  inFlight.close();
});

test('a signal ends waiting', async () => {
  const stop = new AbortController();
  const inFlight = new InFlight({ most: 1, patience_ms: LONG_ms, signal: stop.signal });
  inFlight.add();
  const room = inFlight.room();
  expect(await settled(room)).toBe(false);
  stop.abort();
  expect(await settled(room)).toBe(true);
  expect([inFlight.ended, inFlight.silent]).toEqual([true, false]);
  inFlight.close();
});

test('silence ends waiting only while something is under way', () => {
  vi.useFakeTimers();
  try {
    const inFlight = new InFlight({ most: 1, patience_ms: 100 });
    vi.advanceTimersByTime(1000);
    expect(inFlight.ended).toBe(false);
    inFlight.add();
    vi.advanceTimersByTime(99);
    expect(inFlight.ended).toBe(false);
    vi.advanceTimersByTime(1);
    expect([inFlight.ended, inFlight.silent]).toEqual([true, true]);
    inFlight.close();
  } finally {
    vi.useRealTimers();
  }
});

test('an acknowledgement after the end wakes no timer', () => {
  vi.useFakeTimers();
  try {
    const inFlight = new InFlight({ most: 1, patience_ms: 100 });
    inFlight.add();
    inFlight.close();
    inFlight.remove();
    expect(vi.getTimerCount()).toBe(0);
  } finally {
    vi.useRealTimers();
  }
});
