/** What the notes for probes have a probe send for a sensor that gives nothing, before the watch's reading quality. */
import { describe, expect, test } from 'vitest';
import { HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { newQuality, stepQuality } from '../../services/core/watch/quality/index.js';

const START = Date.UTC(2026, 5, 1);
const SOUND_h = 72;
const BROKEN_h = 48;
/** What the notes promise, h. */
const TOLD_WITHIN_h = 6;

interface Sent {
  readonly temperature?: number;
  readonly humidity?: number;
}

/** Sound sand with what the tenths of a real sensor do. */
const sound = (n: number): Sent => ({
  temperature: 21 + 0.01 * ((n * 7) % 5),
  humidity: 88 + 0.1 * ((n * 5) % 4),
});

/** Kinds of fault that are told, with the hours after which each is. */
function told(broken: (n: number) => Sent): Map<string, number> {
  const state = newQuality('bed', START);
  const faults = new Map<string, number>();
  for (let hour = 0; hour < SOUND_h + BROKEN_h; hour += 1) {
    const samples = [0, 10, 20, 30, 40, 50].map((minute, n) => ({
      at: START + hour * HOUR_ms + minute * MINUTE_ms,
      ...(hour < SOUND_h ? sound : broken)(hour * 6 + n),
    }));
    for (const { kind, quantity } of stepQuality(state, START + hour * HOUR_ms, samples, true).faults) {
      const fault = `${kind} ${quantity}`;
      if (!faults.has(fault)) faults.set(fault, hour - SOUND_h);
    }
  }
  return faults;
}

describe('a sensor that gives nothing is told of', () => {
  test.each([
    ['-127 degrees', { temperature: -127 }, 'sensor-code temperature'],
    ['85 degrees', { temperature: 85 }, 'sensor-code temperature'],
    ['0 %RH', { humidity: 0 }, 'dead-humidity humidity'],
  ])('%s', (_what, code, fault) => {
    const faults = told((n) => ({ ...sound(n), ...code }));
    expect([...faults.keys()]).toEqual([fault]);
    expect(faults.get(fault)).toBeLessThanOrEqual(TOLD_WITHIN_h);
  });
});

test('a value that is merely left out is not', () => {
  expect(told((n) => ({ temperature: sound(n).temperature ?? 0 })).size).toBe(0);
});
