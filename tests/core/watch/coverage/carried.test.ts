import { expect, test } from 'vitest';
import { beginningsAt, lastStep, ONSET_step } from '../../../../services/core/watch/coverage/ages.js';
import { carry, products } from '../../../../services/core/watch/coverage/carried.js';
import { learnedGains } from '../../../../services/core/watch/coverage/learned.js';
import { Bank, Onset } from '../../../../services/core/watch/warmth/bank.js';
import { modelOf } from '../../../../services/core/watch/warmth/model.js';
import { BOX, FOUR } from './a-bed.js';

const POINTS = FOUR.slice(0, 2);
const model = modelOf(BOX, POINTS);
const LAST = ONSET_step + 20;
const gains = learnedGains(BOX, POINTS, model.responses, true, LAST + 1);

/** Sums in single precision, states in parts of their largest number. */
const ROUNDED = 2e-3;

test('a bed that shows what is expected of it leaves nothing to wonder at', () => {
  for (const { whitened } of gains) for (const value of whitened) expect(Math.abs(value)).toBeLessThan(1e-9);
});

test('once it is learned the filter grows no surer for want of surprises', () => {
  const stated = (step: number): number => gains[step]?.factor[0] ?? Number.NaN;
  expect(stated(ONSET_step) / stated(ONSET_step - 20)).toBeGreaterThan(0.985);
  expect(stated(ONSET_step + 20) / stated(ONSET_step - 20)).toBeGreaterThan(0.985);
});

test('the evidence that a source leaves is what the bank of the watch gathers of it', () => {
  const source = 1;
  const bank = new Bank(model.sources.shapes, POINTS.length, model.stateSize);
  const [truth, later] = [ONSET_step, ONSET_step + 4].map((onset) =>
    carry(new Bank(model.sources.shapes, POINTS.length, 0), gains, onset, model.stateSize),
  );
  if (!truth || !later) throw new Error('expected both');
  bank.onsets = [new Onset(ONSET_step + 4, bank.signals, bank.size)];
  for (let step = ONSET_step + 4; step <= LAST; step += 1) {
    const gain = gains[step];
    if (!gain) throw new Error('expected a step');
    const at = (step - ONSET_step) * POINTS.length;
    const whitened = truth.left[source]?.slice(at, at + POINTS.length) ?? new Float64Array();
    bank.take(step, { ...gain, whitened }, [0, 1], [1, 1]);
  }
  const cross = products(later, truth, LAST, POINTS.length);
  const evidence = bank.onsets[0]?.evidence ?? new Float32Array();
  const largest = Math.max(...evidence.map(Math.abs));
  expect(largest).toBeGreaterThan(1);
  evidence.forEach((value, signal) => {
    const own = cross[signal * bank.signals + source] as number;
    expect(Math.abs(value - own) / largest).toBeLessThan(ROUNDED);
  });
});

test('steps that count end before the day does, and a verdict has held for one', () => {
  expect(lastStep(7)).toBe(ONSET_step + 26);
  expect(lastStep(21) - ONSET_step).toBeLessThanOrEqual(21.5 * 4);
});

test('beginnings are those that the watch has kept by then, the true one among them for three weeks', () => {
  for (const days of [1, 7, 21]) expect(beginningsAt(lastStep(days))).toContain(ONSET_step);
  expect(beginningsAt(ONSET_step + 100)).not.toContain(ONSET_step);
});
