import { expect, test } from 'vitest';
import { effective, Scatter } from '../../../../services/core/watch/warmth/scatter.js';

/** After some steps in which two probes scattered by so much. */
function after(steps: number, sizes: readonly [number, number]): Scatter {
  const scatter = new Scatter(2);
  for (let step = 0; step < steps; step += 1) {
    const sign = step % 2 === 0 ? 1 : -1;
    scatter.take([0, 1], [sign * sizes[0], sign * sizes[1]]);
  }
  return scatter;
}

test('a probe that scatters more than the others counts for less, by its own mean square', () => {
  const [quiet, restless] = after(400, [0.5, 1.5]).weights([0, 1], 1) as [number, number];
  expect(quiet ** -2).toBeCloseTo(effective(0.25), 2);
  expect(restless ** -2).toBeCloseTo(effective(2.25), 2);
});

test('nothing counts more than the floor lets it, however still a probe is', () => {
  const [weight] = after(1000, [0, 0]).weights([0], 1) as [number];
  expect(weight ** -2).toBeCloseTo(effective(0), 12);
  expect(effective(0)).toBeGreaterThan(0);
});

test('unrest of the whole bed makes all count for less', () => {
  const scatter = after(50, [1, 1]);
  const [usual] = scatter.weights([0], 1) as [number];
  const [restless] = scatter.weights([0], 4) as [number];
  expect(usual / restless).toBeCloseTo(2, 12);
});

test('one wild step moves it by no more than a few others', () => {
  const scatter = after(400, [0.5, 0.5]);
  scatter.take([0], [1000]);
  const [wild, other] = scatter.weights([0, 1], 1) as [number, number];
  expect((other / wild) ** 2).toBeLessThan(1.1);
});

test('a probe that does not measure keeps what it was', () => {
  const scatter = after(400, [0.5, 1.5]);
  const before = scatter.weights([1], 1);
  scatter.take([0], [0.1]);
  expect(scatter.weights([1], 1)).toEqual(before);
});

test('goes on from what was kept', () => {
  const kept = after(30, [0.4, 1.2]);
  const again = new Scatter(2);
  again.restore(kept.save());
  for (const scatter of [kept, again]) scatter.take([0, 1], [0.3, -2]);
  expect(again.save()).toEqual(kept.save());
});
