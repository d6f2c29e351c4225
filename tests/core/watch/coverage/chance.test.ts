import { describe, expect, test } from 'vitest';
import { type Asked, chanceOf } from '../../../../services/core/watch/coverage/chance.js';
import type { Tried } from '../../../../services/core/watch/coverage/trial.js';
import { Onset } from '../../../../services/core/watch/warmth/bank.js';

const LIMIT = 14;
const STEP = 100;

/** A source that is beyond doubt in every way but those that are changed. */
function chance(change: Partial<Tried> = {}, asked: Partial<Asked> = {}, power = 2, age = 20) {
  const onset = new Onset(STEP - age, 6, 0);
  const tried = {
    ...{ source: 200, middle: 198, others: 100 },
    best: { ratio: 200, power, variance: 0.1, onset, reading: { nearest: 0 } },
    fault: { fault: 'drift', probe: 0, ratio: 20, size: 0.1 },
    information: Float64Array.of(390, 10),
    ...change,
  } as Tried;
  const usual = {
    mirror: () => Number.NEGATIVE_INFINITY,
    uncertain: new Float64Array(2),
    unlike: 0,
    limit: LIMIT,
    step: STEP,
  };
  return chanceOf({ tried, ...usual, ...asked });
}

const fault = (ratio: number) => ({ fault: 'drift' as const, probe: 0, ratio, size: 0.1 });

describe('the chance that a source is told', () => {
  test('is sure where everything speaks for it', () => {
    expect(chance().told).toBeGreaterThan(0.999);
  });

  test('is even where the statistic is at its limit on the average, and one deviation more is by hand', () => {
    expect(chance({ source: LIMIT }).told).toBeCloseTo(0.5, 9);
    // sqrt(2 * 19.79) - sqrt(2 * 14) = 1.0; normal distribution at 1: 0.8413 [C]
    expect(chance({ source: (Math.sqrt(2 * LIMIT) + 1) ** 2 / 2 }).told).toBeCloseTo(0.8413, 4);
    expect(chance({ source: Number.NEGATIVE_INFINITY }).told).toBeLessThan(1e-6);
  });

  test('is even where it outweighs a fault of a probe by just as much as is asked, if no other probe bears it out', () => {
    expect(chance({ fault: fault(197), others: 0 }).told).toBeCloseTo(0.5, 9);
    expect(chance({ fault: fault(199), others: 0 }).told).toBeLessThan(0.5);
    expect(chance({ fault: fault(199), others: 100 }).told).toBeGreaterThan(0.9);
    expect(chance({ fault: fault(230), others: 100 }).told).toBeLessThanOrEqual(0.5);
  });

  test('is even where it outweighs its mirror image by four, less where by less, and plain all the same', () => {
    expect(chance({}, { mirror: () => 194 }).told).toBeCloseTo(0.5, 9);
    expect(chance({}, { mirror: () => 225 }).told).toBeLessThan(0.2);
    expect(chance({}, { mirror: () => 225 }).plain).toBeGreaterThan(0.999);
    expect(chance({}, { mirror: () => 100 }).told).toBeGreaterThan(0.99);
    expect(chance({ source: 16, middle: 14 }, { mirror: () => 3 }).told).toBeGreaterThan(0.5);
  });

  test('is spread where it is like its mirror image, by half a root of the source beside the noise', () => {
    // (10 - 4) / hypot((sqrt(20) + sqrt(8)) / 2, 0.5 sqrt(200)) = 0.7528: 0.7742 [C]
    expect(chance({}, { mirror: () => 188 }).told).toBeCloseTo(0.7742, 3);
    // (-7 - 4) / hypot(sqrt(8) / 2, 0.5 sqrt(200)) = -1.5256: 0.0636 [C]
    expect(chance({}, { mirror: () => 205 }).told).toBeCloseTo(0.0636, 3);
    expect(chance({ source: -1, middle: -1, best: undefined }, { mirror: () => 30 }).told).toBe(0);
    expect(chance({ source: -1, middle: -1 }, { mirror: () => 30 }).told).toBeLessThan(1e-6);
  });

  test('is spread by what is not known of where probes are', () => {
    const unsure = { uncertain: Float64Array.of(0.6, 0) };
    expect(chance({ source: LIMIT }, unsure).told).toBeCloseTo(0.5, 1);
    expect(chance({ source: 40 }, unsure).told).toBeLessThan(chance({ source: 40 }).told - 0.1);
    expect(chance({ source: 8 }, unsure).told).toBeGreaterThan(chance({ source: 8 }).told + 0.05);
  });

  test('is spread by how unlike beds scatter, half as much as by what is added: evidence grows with its square', () => {
    const sameShare = { uncertain: Float64Array.of(0.3, 0.3 * 39) };
    // Both probes: hypot(390 * 0.3, 10 * 11.7) / 400 = 0.4137 [C]
    expect(chance({ source: 40 }, { unlike: 0.8274 }).told).toBeCloseTo(
      chance({ source: 40 }, sameShare).told,
      3,
    );
    expect(chance({ source: 40 }, { unlike: 0.6 }).told).toBeLessThan(chance({ source: 40 }).told - 0.02);
    expect(chance({ source: 8 }, { unlike: 0.6 }).told).toBeGreaterThan(chance({ source: 8 }).told + 0.02);
  });

  test('is none for a weak source that is old, or one too strong to be one, and none without a source', () => {
    expect(chance({}, {}, 1, 80)).toMatchObject({ told: 0 });
    expect(chance({}, {}, 1, 80).plain).toBeGreaterThan(0.999);
    expect(chance({}, {}, 10).told).toBe(0);
    expect(chance({ best: undefined })).toEqual({ told: 0, plain: 0 });
  });
});
