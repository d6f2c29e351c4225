/** An hour as a whole: what is used, what is refused, what is remembered. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SandlarderError } from '../../../../services/core/errors.js';
import { HOUR_ms } from '../../../../services/core/model/time.js';
import {
  newQuality,
  placeAnew,
  qualityStateSchema,
  stepQuality,
} from '../../../../services/core/watch/quality/index.js';
import type { Sample } from '../../../../services/core/watch/watch.js';
import { changed, dayOf, flagsIn, randomFrom, runQuality, START, soundProbe } from './a-probe.js';

const FIRST = { at: START + 60_000, temperature: 20, humidity: 80 };

describe('an hour', () => {
  test('is summed up over what is used', () => {
    const state = newQuality('bed', START);
    stepQuality(state, START, [FIRST], true);
    const temperatures = [20.1, 20.2, 85, 20.3];
    const samples = temperatures.map((temperature, index) => ({
      at: START + HOUR_ms + 600_000 * (index + 1),
      temperature,
    }));
    const { hour, flags } = stepQuality(state, START + HOUR_ms, samples, true);
    expect(hour).toEqual({ temperature: { count: 3, mean: 20.2, min: 20.1, max: 20.3 }, wetOrBroken: false });
    expect(flags).toEqual([{ at: samples[2]?.at, quantity: 'temperature', reason: 'sensor-code' }]);
  });

  test('without samples has nothing', () => {
    const { hour, flags, steps, faults } = stepQuality(newQuality('bed', START), START, [], false);
    expect({ hour, flags, steps, faults }).toEqual({
      hour: { wetOrBroken: false },
      flags: [],
      steps: [],
      faults: [],
    });
  });

  test('flags each quantity for itself, in order of time', () => {
    const state = newQuality('bed', START);
    const { flags } = stepQuality(
      state,
      START,
      [
        { at: START, temperature: -127, humidity: 200 },
        { at: START + 1000, humidity: 0 },
      ],
      true,
    );
    expect(flags.map(({ at, quantity, reason }) => [at - START, quantity, reason])).toEqual([
      [0, 'temperature', 'sensor-code'],
      [0, 'humidity', 'out-of-range'],
      [1000, 'humidity', 'sensor-code'],
    ]);
  });
});

describe('the first hour is unsettled', () => {
  const unsettled = (samples: readonly Sample[]): number[] =>
    runQuality(samples).results.flatMap(({ flags }) =>
      flags
        .filter(({ reason, quantity }) => reason === 'unsettled' && quantity === 'temperature')
        .map(({ at }) => at),
    );
  const sound = soundProbe({ days: 8 });

  test('of a probe that comes alive', () => {
    expect(unsettled(sound).map((at) => (at - START) / 60_000)).toEqual([0, 10, 20, 30, 40, 50]);
  });
  test('after a day without a sample, not after less', () => {
    const gap = (days: number) => sound.filter(({ at }) => dayOf(at) < 4 || dayOf(at) >= 4 + days);
    expect(unsettled(gap(1)).length).toBe(12);
    expect(unsettled(gap(0.9)).length).toBe(6);
  });
  test('after it was put elsewhere, where a jump is no spike and its faults stand', () => {
    const before = runQuality(
      changed(sound, 3, 99, (sample) => ({ ...sample, humidity: 0 })).filter(({ at }) => dayOf(at) < 4),
    ).state;
    const moved = placeAnew(before, 'bed', START + 4 * 24 * HOUR_ms);
    const later = sound
      .filter(({ at }) => dayOf(at) >= 4)
      .map((sample) => ({ ...sample, temperature: (sample.temperature ?? 0) + 8 }));
    const { results } = runQuality(later, { state: moved });
    expect(flagsIn(results)).toEqual([]);
    expect(results[0]?.flags.length).toBe(12);
    expect(results[0]?.faults.map(({ kind }) => kind)).toContain('dead-humidity');
    expect(moved.temperature.scatter).toEqual(before.temperature.scatter);
  });
});

describe('refused, with nothing changed:', () => {
  const second = { at: START + HOUR_ms, temperature: 20 };
  test.each<[string, number, readonly Sample[]]>([
    ['the same hour again', START, []],
    ['an hour before', START - HOUR_ms, []],
    ['no whole hour', START + HOUR_ms + 1, []],
    ['no number', Number.NaN, []],
    ['no end', Number.POSITIVE_INFINITY, []],
    ['a sample before the hour', START + HOUR_ms, [{ at: START + HOUR_ms - 1, temperature: 20 }]],
    ['a sample after the hour', START + HOUR_ms, [{ at: START + 2 * HOUR_ms, temperature: 20 }]],
    ['a sample without time', START + HOUR_ms, [{ at: Number.NaN, temperature: 20 }]],
    ['samples backwards', START + HOUR_ms, [{ at: START + HOUR_ms + 1, temperature: 20 }, second]],
  ])('%s', (_, hour, samples) => {
    const state = newQuality('bed', START);
    stepQuality(state, START, [FIRST], true);
    const before = structuredClone(state);
    const step = () => stepQuality(state, hour, samples, true);
    expect(step).toThrow(SandlarderError);
    expect(step).toThrow(expect.objectContaining({ code: 'OUT_OF_DOMAIN' }));
    expect(state).toEqual(before);
  });
});

/** What a probe out of its mind may send. */
const wild = fc.oneof(
  fc.constantFrom(85, 0, -127, 100, 99.9, Number.NaN),
  fc.double({ min: -60, max: 140, noNaN: true }),
  fc.double({ min: 19, max: 21, noNaN: true }),
);
const wildHour = fc.array(fc.tuple(fc.nat(HOUR_ms - 1), wild, wild), { maxLength: 12 });

describe('what is remembered', () => {
  const samples = soundProbe({ days: 6 }).map((sample, index) =>
    index % 97 === 0 ? { ...sample, temperature: 85, humidity: 30 } : sample,
  );

  test('is plain, and of the stated shape', () => {
    const { state } = runQuality(samples);
    expect(JSON.parse(JSON.stringify(state))).toEqual(state);
    expect(qualityStateSchema.parse(state)).toEqual(state);
  });

  test('carries on wherever it is kept and read back', () => {
    const whole = runQuality(samples).results;
    for (const hour of [1, 17, 50, 99]) {
      const cut = START + hour * HOUR_ms;
      const first = runQuality(samples.filter(({ at }) => at < cut));
      const state = qualityStateSchema.parse(JSON.parse(JSON.stringify(first.state)));
      const second = runQuality(
        samples.filter(({ at }) => at >= cut),
        { state },
      );
      expect([...first.results, ...second.results]).toEqual(whole);
    }
  });

  test('stays below 2 KiB and in shape whatever is sent, and every value is used or flagged once', () => {
    fc.assert(
      fc.property(fc.array(wildHour, { minLength: 20, maxLength: 60 }), fc.nat(), (hours, seed) => {
        const state = runQuality(soundProbe({ days: 2, seed })).state;
        hours.forEach((raw, index) => {
          const hour = START + (48 + index) * HOUR_ms;
          const sent = raw
            .map(([offset, temperature, humidity]) => ({ at: hour + offset, temperature, humidity }))
            .sort((one, other) => one.at - other.at);
          const { hour: usable, flags } = stepQuality(state, hour, sent, true);
          const used = (usable.temperature?.count ?? 0) + (usable.humidity?.count ?? 0);
          expect(used + flags.length).toBe(2 * sent.length);
        });
        expect(JSON.stringify(state).length).toBeLessThan(2048);
        expect(qualityStateSchema.safeParse(state).success).toBe(true);
      }),
      { numRuns: 60, seed: 20_260_504 },
    );
  });

  test('does not touch what it was given', () => {
    const random = randomFrom(5);
    const frozen = Object.freeze(
      Array.from({ length: 6 }, (_, index) =>
        Object.freeze({ at: START + index * 600_000, temperature: 20 + random(), humidity: 85 }),
      ),
    );
    expect(() => stepQuality(newQuality('shade', START), START, frozen, true)).not.toThrow();
  });
});
