/** What a probe's own times tell of its clock. */
import { describe, expect, test } from 'vitest';
import { MINUTE_ms } from '../../../../services/core/model/time.js';
import type { Sample } from '../../../../services/core/watch/watch.js';
import { countFlags, dayOf, faultsIn, flagsIn, randomFrom, runQuality, soundProbe } from './a-probe.js';

/** A clock that is set by some minutes from a day on; what is sent comes in order of its times. */
const set = (samples: readonly Sample[], day: number, minutes: number): Sample[] =>
  samples
    .map((sample) => (dayOf(sample.at) >= day ? { ...sample, at: sample.at + minutes * MINUTE_ms } : sample))
    .sort((one, other) => one.at - other.at);

describe('a clock that is set back', () => {
  test.each([10, 30])(
    'is told, and its times between the old ones flagged, every %d minutes',
    (every_min) => {
      const { results } = runQuality(set(soundProbe({ days: 8, every_min }), 5, -243));
      const [fault, ...others] = faultsIn(results);
      expect(others).toEqual([]);
      expect(fault?.fault).toBe('clock');
      expect(fault?.since).toBeGreaterThan(5 - 243 / 1440);
      expect(fault?.toldOn).toBeLessThan(5.1);
      expect(fault?.overOn).toBeLessThan(6.2);
      const flagged = Math.floor(243 / every_min);
      const counts = countFlags(results);
      expect(Object.keys(counts).sort()).toEqual(['humidity clock', 'temperature clock']);
      expect(counts['temperature clock']).toBeGreaterThanOrEqual(flagged - 1);
      expect(counts['temperature clock']).toBeLessThanOrEqual(flagged);
    },
  );

  test('by nearly half a cadence more is told from measuring twice as often', () => {
    const { results } = runQuality(set(soundProbe({ days: 8, every_min: 20 }), 5, -249.7));
    expect(faultsIn(results)).toMatchObject([{ fault: 'clock' }]);
  });

  test('by whole cadences onto old times: the second of each is flagged', () => {
    const { results } = runQuality(set(soundProbe({ days: 8 }), 5, -120));
    expect(countFlags(results)).toEqual({ 'humidity clock': 12, 'temperature clock': 12 });
    expect(faultsIn(results)).toMatchObject([{ fault: 'clock' }]);
  });
});

describe('what is no sign', () => {
  const sound = soundProbe({ days: 12 });
  const random = randomFrom(7);
  const cases: Record<string, Sample[]> = {
    'a restart at another minute': set(sound, 5, 4),
    'a clock set ahead: it looks like a gap': set(sound, 5, 100),
    'four of ten readings lost': sound.filter(() => random() > 0.4),
    'times that stray by a third of the cadence': sound.map((sample) => ({
      ...sample,
      at: sample.at + Math.floor(random() * 200_000),
    })),
    'measuring half as often': sound.filter(({ at }, index) => dayOf(at) < 5 || index % 2 === 0),
    'measuring twice as often': [
      ...soundProbe({ days: 12, every_min: 20 }).filter(({ at }) => dayOf(at) < 5),
      ...sound.filter(({ at }) => dayOf(at) >= 5),
    ],
    'measuring three times as often': [
      ...soundProbe({ days: 12, every_min: 30 }).filter(({ at }) => dayOf(at) < 5),
      ...sound.filter(({ at }) => dayOf(at) >= 5),
    ],
    'one more reading, asked for by hand': [
      ...sound,
      { at: (sound[900]?.at ?? 0) + 200_000, temperature: 20.3, humidity: 86 },
    ].sort((one, other) => one.at - other.at),
  };
  test.each(Object.keys(cases))('%s', (name) => {
    const { results } = runQuality(cases[name] ?? []);
    expect(flagsIn(results)).toEqual([]);
    expect(faultsIn(results)).toEqual([]);
  });
});

test('a row that moves three times in a day is a clock to look at', () => {
  const restless = set(set(set(soundProbe({ days: 8 }), 5, 4), 5.2, 3), 5.5, 4);
  expect(faultsIn(runQuality(restless).results)).toMatchObject([{ fault: 'clock' }]);
});
