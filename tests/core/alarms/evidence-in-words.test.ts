import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evidenceInWords } from '../../../services/core/alarms/evidence-in-words.js';
import { formatTime } from '../../../services/core/model/time.js';
import { at } from './an-alarm.js';

const TIME = '2026-05-24T15:00:00Z';

describe('what is known is put in words', () => {
  test.each([
    [{ probe: 'p01' }, 'probe p01'],
    [{ probes: 3 }, '3 probes show it'],
    [{ probes: 1 }, '1 probe shows it'],
    [{ excess_C: 1.834 }, '1.83 °C warmer than a sound bed'],
    [{ excess_C: -0.5 }, '0.5 °C colder than a sound bed'],
    [{ rate_C_per_day: 0.3 }, 'rising by 0.3 °C a day'],
    [{ rate_C_per_day: -0.123 }, 'falling by 0.12 °C a day'],
    [{ power_W: 1.5 }, 'a source of about 1.5 W'],
    [{ strength: 14.217 }, 'very sure (logarithm of the likelihood ratio 14.22)'],
    [{ strength: 13.9 }, 'fairly sure (logarithm of the likelihood ratio 13.9)'],
    [{ strength: 6.9 }, 'not very sure (logarithm of the likelihood ratio 6.9)'],
    [{ species: 'cylas-puncticollis' }, 'sweet potato weevil, Cylas puncticollis'],
    [{ species: 'cylas-' }, 'weevil cylas-'],
    [{ excessAt: TIME }, `that was so on ${TIME}`],
    [{ falseAlarms_per_bed_month: 0.0031 }, 'set for at most 0.0031 false alarms a month in a bed'],
    [{ humidity_RH: 97.456 }, 'humidity 97.46 %'],
    [{ diffusivity_m2_s: 5.23e-7 }, 'heat spreads at 0.52 mm² a second'],
    [{ swingShare: 0.183 }, '18.3 % of the daily swing outside reaches it'],
    [{ class: 'damp' }, 'the sand passes heat on like damp sand'],
    [{ dewPoint_C: 23.2, sand_C: 21 }, 'dew point of the air 23.2 °C; sand at 21 °C'],
    [{ degreeDays: 285 }, '285 degree-days so far'],
    [{ species: 'C. puncticollis' }, 'weevil C. puncticollis'],
    [{ drift_C: -0.8 }, 'reads 0.8 °C too low'],
    [{ drift_C: 1 }, 'reads 1 °C too high'],
    [{ held_h: 48 }, 'for 48 h'],
    [{ threshold_C: 1.5 }, 'limit 1.5 °C'],
    [{ threshold_C_per_day: 0.3 }, 'limit 0.3 °C a day'],
    [{ threshold_RH: 95 }, 'limit 95 %'],
    [{ basis: 'shade probe and neighbours' }, 'judged by shade probe and neighbours'],
    [{ onsetAt: TIME }, `it began about ${TIME}`],
    [{ onsetAt: at(TIME) }, `it began about ${TIME}`],
    [{ since: at(TIME) }, `since ${TIME}`],
    [{ dueAt: '2026-05-24T17:00:00+02:00' }, `the look is due by ${TIME}`],
    [{ fault: 'stuck' }, 'it gives the same value all the time'],
    [{ because: 'two-weeks' }, 'two weeks since the last look are over'],
    [{ because: 'asked' }, 'the readings look as if it was handled, and nothing is written down'],
    [{}, ''],
  ])('%o reads "%s"', (evidence, words) => {
    expect(evidenceInWords(evidence, formatTime)).toBe(words);
  });
});

describe('what is not known is shown as it is', () => {
  test.each([
    [{ moonPhase_deg: 12.345 }, 'moonPhase_deg: 12.345'],
    [{ basisOf: 'a b' }, 'basisOf: a b'],
    [{ toString: 'x', constructor: 2 }, 'toString: x; constructor: 2'],
    [{ lastHeardAt: at(TIME) }, `lastHeardAt: ${TIME}`],
    [{ lastHeardAt: 5 }, 'lastHeardAt: 5'],
    [{ fault: 'rusty' }, 'fault: rusty'],
    [{ class: 'unknown' }, 'class: unknown'],
    [{ because: 'toString' }, 'because: toString'],
    [{ excess_C: '1.8' }, 'excess_C: 1.8'],
    [{ probe: 7 }, 'probe: 7'],
    [{ since: 'lately' }, 'since: lately'],
    [{ since: 12 }, 'since: 12'],
  ])('%o reads "%s"', (evidence, words) => {
    expect(evidenceInWords(evidence, formatTime)).toBe(words);
  });

  test('a value that is none is said to be unknown', () => {
    const evidence = {
      excess_C: Number.NaN,
      heardAt: Number.POSITIVE_INFINITY,
      since: Number.NaN,
      species: ' ',
    };
    expect(evidenceInWords(evidence, formatTime)).toBe(
      'excess_C: unknown; heardAt: unknown; since: unknown; species: unknown',
    );
  });

  test('under any name a value is never dropped', () => {
    const name = fc.stringMatching(/^[a-z][A-Za-z_]{0,20}$/);
    fc.assert(
      fc.property(fc.uniqueArray(name, { maxLength: 6 }), fc.double(), (names, value) => {
        const words = evidenceInWords(Object.fromEntries(names.map((each) => [each, value])), formatTime);
        expect(words.split('; ').filter(Boolean)).toHaveLength(names.length);
        expect(words).not.toMatch(/undefined|NaN|Infinity/);
      }),
      { seed: 9, numRuns: 500 },
    );
  });
});
