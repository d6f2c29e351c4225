/** Scenarios of openings, faults, outages and shade whose parts do not agree are refused by key. */
import { describe, expect, test } from 'vitest';
import { describeIssue } from '../../services/core/model/problem.js';
import { loadScenario } from '../../simulator/index.js';
import { type ScenarioInput, scenarioSchema } from '../../simulator/scenario.js';

type Bed = ScenarioInput['beds'][number];

/** The first refusal; 'taken' where there is none. */
function refusalOf(change: Partial<ScenarioInput>, inBed: Partial<Bed> = {}): string {
  const { beds, ...rest } = structuredClone(loadScenario('rot-pit')) as ScenarioInput;
  const scenario = { ...rest, beds: beds.map((bed) => ({ ...bed, ...inBed })), ...change };
  const parsed = scenarioSchema.safeParse(scenario, { reportInput: true });
  const [issue] = parsed.error?.issues ?? [];
  return issue ? describeIssue(issue) : 'taken';
}

const opening = { day: 20, hours: 2, told: true, sunWarmed_C: 5, depth: 25 };
const drift = { kind: 'drift', probe: 'p11', startDay: 10, days: 20, C_per_day: 0.1 } as const;
const ofProbes = (...probes: unknown[]): Partial<ScenarioInput> =>
  ({ faults: { probes } }) as Partial<ScenarioInput>;

test('what agrees is taken, and what has a usual value may be left out', () => {
  const change = {
    variation: 1,
    shadeSunlit_C: 5,
    faults: {
      probes: [drift, { ...drift, startDay: 30 }, { kind: 'silent', probe: 'p91', startDay: 1 } as const],
      outages: [{ part: 'shade', fromDay: 1, days: 10 }],
    },
  };
  const inBed = {
    damping: { startDay: 5, litres_per_day: 1 },
    openings: [opening, { ...opening, day: 21 }],
    sandTaken: { day: 40, depth: 8 },
  };
  expect(refusalOf(change, inBed)).toBe('taken');
});

describe('a bed', () => {
  test.each<[string, Partial<Bed>, RegExp]>([
    [
      'with the former key for one rot',
      { rot: { startDay: 1 } } as Partial<Bed>,
      /beds\[0\]: expected no key "rot"/,
    ],
    [
      'opened before it is closed',
      { openings: [opening, { ...opening, day: 20.05 }] },
      /openings\[1\]\.day: expected a day after 20\.083.*: openings run in order, got 20\.05/,
    ],
    [
      'opened in another order',
      { openings: [opening, { ...opening, day: 3 }] },
      /openings\[1\]\.day: expected a day after/,
    ],
    [
      'opened deeper than it is',
      { openings: [{ ...opening, depth: 51 }] },
      /openings\[0\]\.depth: expected at most the depth of the bed, 50 cm, got 51/,
    ],
    [
      'from which all sand is taken',
      { sandTaken: { day: 3, depth: 50 } },
      /sandTaken\.depth: expected less than the depth of the bed, 50 cm, got 50/,
    ],
    [
      'open for no time',
      { openings: [{ ...opening, hours: 0 }] },
      /openings\[0\]\.hours: expected at least 0\.2/,
    ],
    [
      'of which nobody knows whether it was told',
      { openings: [{ ...opening, told: undefined }] } as unknown as Partial<Bed>,
      /openings\[0\]\.told: expected boolean/,
    ],
  ])('%s', (_, inBed, sentence) => {
    expect(refusalOf({}, inBed)).toMatch(sentence);
  });
});

describe('a fault', () => {
  test.each<[string, Partial<ScenarioInput>, RegExp]>([
    [
      'of a probe that is none',
      ofProbes({ ...drift, probe: 'p99' }),
      /faults\.probes\[0\]\.probe: expected a probe of the site, got "p99"/,
    ],
    ['of no kind', ofProbes({ ...drift, kind: 'tired' }), /faults\.probes\[0\]\.kind: /],
    [
      'with the numbers of another',
      ofProbes({ ...drift, kind: 'stuck' }),
      /faults\.probes\[0\]: expected no key "C_per_day"/,
    ],
    [
      'with a code that no sensor gives',
      ofProbes({ kind: 'sensor-code', probe: 'p11', startDay: 1, code: 84 }),
      /faults\.probes\[0\]\.code: /,
    ],
    [
      'twice at a time',
      ofProbes(drift, { ...drift, startDay: 29 }),
      /faults\.probes\[1\]: expected "drift" of probe "p11" once at a time, got it from day 10 and from day 29/,
    ],
    [
      'twice, the first to the end of the season',
      ofProbes({ ...drift, days: undefined }, { ...drift, startDay: 140 }),
      /faults\.probes\[1\]: expected "drift"/,
    ],
    [
      'of a probe pulled out of the shade',
      ofProbes({ kind: 'pulled', probe: 'p91', startDay: 3 }),
      /faults\.probes\[0\]\.probe: expected a probe in a bed.*, got "p91"/,
    ],
  ])('%s', (_, change, sentence) => {
    expect(refusalOf(change)).toMatch(sentence);
  });
});

describe('a season', () => {
  test.each<[string, Partial<ScenarioInput>, RegExp]>([
    [
      'with an outage of no part of it',
      { faults: { outages: [{ part: 'pit-z', fromDay: 1, days: 1 }] } },
      /faults\.outages\[0\]\.part: expected the id of a bed, or "shade", got "pit-z"/,
    ],
    [
      'with an outage longer than a message can carry',
      { faults: { outages: [{ part: 'pit-b', fromDay: 1, days: 11 }] } },
      /faults\.outages\[0\]\.days: expected at most 10, got 11/,
    ],
    [
      'with sun on a probe that is not there',
      { shade: [], shadeSunlit_C: 4 },
      /shadeSunlit_C: expected 0 where there is no probe in the shade, got 4/,
    ],
    ['that varies more than all', { variation: 1.1 }, /variation: expected at most 1, got 1\.1/],
    ['that varies by no number', { variation: Number.NaN }, /variation: expected number/],
  ])('%s', (_, change, sentence) => {
    expect(refusalOf(change)).toMatch(sentence);
  });
});
