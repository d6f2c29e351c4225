/** The watch for damp as a whole: state, order of hours, and a season of the simulator. */
import { describe, expect, test } from 'vitest';
import { HOUR_ms } from '../../../../services/core/model/time.js';
import {
  dampnessStateSchema,
  newDampness,
  stepDampness,
} from '../../../../services/core/watch/dampness/index.js';
import { type Course, hourOf, type MadeBed, run, START, wobble } from './a-bed.js';

const DAY_h = 24;

/** All of it in one season: damp at one probe, a front at another, swings, an opening, and hours without data. */
const humidity =
  (seed: number, wetDay: number): Course =>
  (hours) => {
    if (hours > 400 && hours < 420) return undefined;
    const sound = 86 - 20 * Math.exp(-hours / 60) + wobble(seed, hours, 0.3);
    const wet =
      hours < wetDay * DAY_h ? 0 : 1 - Math.exp(-(hours - wetDay * DAY_h) / (seed === 1 ? 1.5 : 40));
    return sound + (99.5 - sound) * wet;
  };
const SEASON: MadeBed = {
  days: 40,
  shade: { temperature: (hours) => 20 + 6 * Math.cos((2 * Math.PI * hours) / DAY_h), humidity: () => 55 },
  probes: [1, 2, 3].map((seed) => ({
    id: `p${seed}`,
    depth: 10 + 10 * seed,
    temperature: (hours) =>
      21 + 3 * Math.exp(-seed) * Math.cos((2 * Math.PI * hours) / DAY_h - seed) + wobble(seed, hours, 0.03),
    humidity: humidity(seed, 26 + 2 * seed),
    humidityUncertainty_RH: 3,
  })),
  disturbed: (hour) => (hour === 15 * DAY_h ? 'opened' : undefined),
};

describe('state', () => {
  test('put down as text after every hour and taken up again, it gives the same findings', () => {
    const straight = run(SEASON);
    const restarted = run(SEASON, (state) => dampnessStateSchema.parse(JSON.parse(JSON.stringify(state))));
    expect(straight.told.length).toBeGreaterThan(3);
    expect(restarted.told).toEqual(straight.told);
    expect(restarted.state).toEqual(straight.state);
  });

  test('is under 4 KiB a probe, however long the season and however often it is measured', () => {
    const { state } = run({ ...SEASON, everyMinutes: 1 });
    for (const probe of Object.values(state.probes)) expect(JSON.stringify(probe).length).toBeLessThan(4096);
    const { probes: _, ...bed } = state;
    expect(JSON.stringify(bed).length).toBeLessThan(4096);
  });

  test('a probe that was put elsewhere begins without a past, one that is gone is forgotten', () => {
    const { state } = run({ ...SEASON, days: 20 });
    const next = hourOf(SEASON, 20 * DAY_h);
    const [first, second] = next.probes;
    if (!first || !second) throw new Error('expected two probes');
    stepDampness(state, { ...next, probes: [{ ...first, depth: 28 }, second] });
    expect(Object.keys(state.probes)).toEqual(['p1', 'p2']);
    expect(state.probes['p1']?.humidity.hours).toHaveLength(1);
    expect(state.probes['p2']?.humidity.hours.length).toBeGreaterThan(90);
  });

  test('findings do not depend on the order in which the probes are given', () => {
    const [first, second] = [newDampness(START), newDampness(START)];
    for (let hour = 0; hour < 40 * DAY_h; hour += 1) {
      const given = hourOf(SEASON, hour);
      const one = stepDampness(first, given);
      expect(stepDampness(second, { ...given, probes: [...given.probes].reverse() }).findings).toEqual(
        one.findings,
      );
    }
  });
});

describe('hours', () => {
  const given = (hour: number) => hourOf({ ...SEASON, days: 1 }, hour);
  const refused = expect.objectContaining({ code: 'OUT_OF_DOMAIN' });

  test.each([
    ['the same again', 5],
    ['one left out', 7],
    ['one of the past', 2],
    ['no whole one', 6.5],
    ['NaN', Number.NaN],
  ])('%s is refused', (_, hour) => {
    const state = newDampness(START);
    for (let at = 0; at <= 5; at += 1) stepDampness(state, given(at));
    expect(() => stepDampness(state, { ...given(6), hour: START + hour * HOUR_ms })).toThrow(refused);
    expect(() => stepDampness(state, given(6))).not.toThrow();
  });

  test('empty ones are taken, also for a bed without probes', () => {
    const state = newDampness(START);
    const empty = { ...given(0), probes: [] };
    expect(stepDampness(state, empty).findings).toEqual([]);
    const { shade: _, ...silent } = {
      ...given(1),
      probes: given(1).probes.map((probe) => ({ ...probe, hour: {}, samples: [] })),
    };
    expect(stepDampness(state, silent).findings).toEqual([]);
  });

  test('values that are no numbers raise nothing and are not kept', () => {
    const broken = run({
      ...SEASON,
      days: 5,
      probes: SEASON.probes.map((probe) => ({
        ...probe,
        temperature: () => Number.NaN,
        humidity: () => Number.NaN,
      })),
    });
    expect(broken.names).toEqual([]);
    expect(JSON.stringify(broken.state)).not.toContain('NaN');
    expect(() => dampnessStateSchema.parse(JSON.parse(JSON.stringify(broken.state)))).not.toThrow();
  });
});
