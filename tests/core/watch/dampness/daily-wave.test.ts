/** The 24-hour wave in hourly temperatures against waves that were put in. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { HOUR_ms } from '../../../../services/core/model/time.js';
import { amplitude_C, waveFit } from '../../../../services/core/watch/dampness/daily-wave.js';
import { START } from './a-bed.js';

const LENGTH = 120;
const OMEGA = (2 * Math.PI) / 24;
const END = START + 500 * HOUR_ms;
const FIRST_h = END / HOUR_ms - LENGTH;

const series = (value: (hour: number, at: number) => number | null): (number | null)[] =>
  Array.from({ length: LENGTH }, (_, at) => value(FIRST_h + at, at));

const wave = (inPhase: number, quadrature: number) => (hour: number) =>
  inPhase * Math.cos(OMEGA * hour) + quadrature * Math.sin(OMEGA * hour);

/** Nearly normal noise of deviation 0.2 from a fixed linear congruential generator, each value keeping a share of the last. */
function noiseThatRemembers(memory: number): () => number {
  let seed = 12345;
  let value = 0;
  const uniform = (): number => {
    seed = (seed * 1103515245 + 12345) % 2147483648;
    return seed / 2147483648;
  };
  return () => {
    const fresh = Array.from({ length: 12 }, uniform).reduce((sum, one) => sum + one, 0) - 6;
    value = memory * value + Math.sqrt(1 - memory * memory) * 0.2 * fresh;
    return value;
  };
}

describe('the daily wave', () => {
  test('is found beside a drift, a bend and a half-day wave, wherever the window ends', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5, max: 5, noNaN: true }),
        fc.double({ min: -5, max: 5, noNaN: true }),
        fc.double({ min: -0.05, max: 0.05, noNaN: true }),
        fc.integer({ min: 0, max: 47 }),
        fc.integer({ min: 0, max: 30 }),
        (inPhase, quadrature, drift, shift, gap) => {
          const end = END + shift * HOUR_ms;
          const first = end / HOUR_ms - LENGTH;
          const hours = Array.from({ length: LENGTH }, (_, at) => {
            const hour = first + at;
            if (at >= 40 && at < 40 + gap) return null;
            const other = 20 + drift * at + 1e-4 * at * at + Math.cos(2 * OMEGA * hour + 1);
            return wave(inPhase, quadrature)(hour) + other;
          });
          const found = waveFit(end)(hours);
          expect(found?.inPhase_C).toBeCloseTo(inPhase, 8);
          expect(found?.quadrature_C).toBeCloseTo(quadrature, 8);
        },
      ),
      { seed: 20260504, numRuns: 100 },
    );
  });

  // Within a quarter: the drift, the bend and the half-day wave take up part of slow weather.
  test.each([
    ['white noise', 0],
    ['weather that remembers the last hour by 0.6', 0.6],
    ['weather that remembers the last hour by 0.9', 0.9],
  ])('its uncertainty is the spread of its errors: %s', (_, memory) => {
    const noise = noiseThatRemembers(memory);
    const found = Array.from({ length: 200 }, () =>
      waveFit(END)(series((hour) => wave(1, 0)(hour) + noise())),
    );
    const errors = found.map((one) => (one?.inPhase_C ?? Number.NaN) - 1);
    const spread = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
    const told = found.reduce((sum, one) => sum + (one?.deviation_C ?? Number.NaN), 0) / found.length;
    expect(Math.abs(told / spread - 1)).toBeLessThan(1 / 4);
  });

  test('nothing is said of too few hours', () => {
    expect(waveFit(END)(series((hour, at) => (at < 37 ? null : wave(1, 0)(hour))))).toBeUndefined();
    expect(waveFit(END)([])).toBeUndefined();
  });

  test('a jump says that the sand was handled, and no wave is read from it', () => {
    const jumped = series((hour, at) => wave(1, 0)(hour) + (at > 60 ? 3 : 0));
    expect(waveFit(END)(jumped)).toBeUndefined();
  });

  test('a still series has no wave, but the uncertainty of its steps', () => {
    const still = waveFit(END)(series(() => 21));
    expect(still && amplitude_C(still)).toBeCloseTo(0, 9);
    expect(still?.deviation_C).toBe(0.01);
  });

  test('series with other gaps are fitted with columns of their own', () => {
    const fitted = waveFit(END);
    const whole = fitted(series(wave(2, 1)));
    const holed = fitted(series((hour, at) => (at % 7 === 0 ? null : wave(2, 1)(hour))));
    expect(holed?.inPhase_C).toBeCloseTo(whole?.inPhase_C ?? Number.NaN, 8);
    const shifted = fitted(series((hour, at) => (at % 7 === 1 ? null : wave(2, 1)(hour))));
    expect(shifted?.quadrature_C).toBeCloseTo(1, 8);
  });
});
