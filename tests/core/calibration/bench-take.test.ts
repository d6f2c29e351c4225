/** Captures of all probes on a bench that have settled. */
import { describe, expect, test } from 'vitest';
import {
  capture,
  captureSettled,
  finished,
  probesWaiting,
  settlingOf,
} from '../../../services/core/calibration/index.js';
import { codeOf } from '../physics/refused.js';
import { approach, readings, START } from './bench-readings.js';
import { captured, inIce, MINUTE_ms, restingAt, saying } from './some-bench.js';

const AT = START + 6 * MINUTE_ms;
describe('a capture of those that have settled', () => {
  const found = (bench = inIce()) =>
    new Map([
      ['p01', restingAt(bench, 0.1)],
      ['p02', settlingOf(bench, 'p02', readings(10, 6, approach(0, -20, 120)), 0.01)],
      ['p03', settlingOf(bench, 'p03', [])],
    ]);

  test('takes them and names the others with what keeps them', () => {
    const { bench, waiting } = captureSettled(inIce(), found(), AT);
    expect(bench.points[0]?.captured.map(({ probe }) => probe)).toEqual(['p01']);
    expect(waiting).toEqual([
      {
        probe: 'p02',
        reason: expect.stringMatching(/^still drifting by 2 °C a minute, about \d+ min more$/),
      },
      { probe: 'p03', reason: expect.stringContaining('too few readings yet') },
    ]);
  });

  test('is refused where there is none, with the reason of each', () => {
    const none = new Map([...found()].filter(([probe]) => probe !== 'p01'));
    expect(saying(() => captureSettled(inIce(), none, AT))).toMatch(
      /^point 1: nothing captured; p01: not judged yet; p02: still drifting .*; p03: too few/,
    );
  });

  test('is refused where nobody waits', () => {
    const all = captured(inIce(), { p01: 0, p02: 0, p03: 0 });
    expect(codeOf(() => captureSettled(all, found(), AT))).toBe('CONFLICT');
    expect(saying(() => captureSettled(all, found(), AT))).toContain('begin the next point');
  });

  test('leaves finished probes alone, which cannot be captured by name either', () => {
    const bench = finished(inIce(), [{ probe: 'p01', calibration: 'c1' }], START);
    expect(probesWaiting(bench)).toEqual(['p02', 'p03']);
    expect(codeOf(() => captureSettled(bench, found(), AT))).toBe('CONFLICT');
    expect(saying(() => capture(bench, ['p01'], found(), AT))).toContain('p01 is finished already');
  });
});
