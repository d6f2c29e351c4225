/** Damp by humidity: what asks for a look or for unpacking, and what must not (judgement: no published limit). */
import { describe, expect, test } from 'vitest';
import { type Course, type MadeBed, run, wobble } from './a-bed.js';

const DAY_h = 24;
const approach = (from: number, to: number, hours: number, memory_h: number): number =>
  to + (from - to) * Math.exp(-Math.max(0, hours) / memory_h);

/** Filled air-dry, wetted by roots within days, then steady with a slow waver. */
const sound =
  (seed: number, level_RH = 86): Course =>
  (hours) =>
    approach(65, level_RH, hours, 60) + wobble(seed, hours, 0.3) + 0.6 * Math.sin(hours / 70 + seed);

/** Sound until a day, then going on by a course of its own. */
const from =
  (day: number, before: Course, rise_RH: (days: number) => number): Course =>
  (hours) =>
    (before(hours) ?? 0) + (hours < day * DAY_h ? 0 : rise_RH(hours / DAY_h - day));

const ramp =
  (days: number, size_RH: number) =>
  (now: number): number =>
    size_RH * Math.min(1, now / days);

const bedOf = (humidities: readonly Course[], days = 60): MadeBed => ({
  days,
  withSamples: false,
  everyMinutes: 30,
  probes: humidities.map((humidity, at) => ({
    id: `p${at + 1}`,
    depth: 20 + 10 * at,
    temperature: () => 22,
    humidity,
  })),
});

const dampOf = (made: MadeBed) => {
  const { told } = run(made);
  return told
    .filter(({ finding }) => finding.kind === 'damp')
    .map(({ day, clearedDay, finding }) => ({
      day,
      clearedDay,
      name: `${finding.action} ${finding.probe}`,
      finding,
    }));
};
const names = (made: MadeBed): string[] => dampOf(made).map(({ name }) => name);

describe('sound sand', () => {
  test('roots that wet it from 40 to 92 %RH within two weeks are normal', () => {
    const wetted =
      (seed: number): Course =>
      (hours) =>
        approach(40, 92, hours, 70) + wobble(seed, hours, 0.3);
    expect(names(bedOf([wetted(1), wetted(2), wetted(3)]))).toEqual([]);
  });

  test('a season of slow wavering raises nothing', () => {
    expect(names(bedOf([sound(1), sound(2, 90), sound(3, 92)], 150))).toEqual([]);
  });

  test('a moist day comes and goes', () => {
    const moist = (seed: number) => from(30, sound(seed, 90), (days) => (days < 1 ? 6 : 0));
    expect(names(bedOf([moist(1), moist(2)]))).toEqual([]);
  });

  test('one sensor that creeps by 3 %RH within 60 h and stays is no damp', () => {
    // SHT1x and SHT2x data sheets: about +3 %RH after 60 h above 80 %RH, reversible.
    const creeping = from(30, sound(1, 92.5), ramp(2.5, 3));
    expect(names(bedOf([creeping, sound(2), sound(3)]))).toEqual([]);
  });

  test('a hot spell leaves the humidity, and so nothing is raised though the vapour is denser', () => {
    const made = bedOf([sound(1, 90), sound(2, 90)]);
    const warm = {
      ...made,
      probes: made.probes.map((probe) => ({
        ...probe,
        temperature: (hours: number) => (hours > 700 ? 27 : 22),
      })),
    };
    expect(names(warm)).toEqual([]);
  });

  test('what a sensor may have crept, as quality states it, is taken off its rise', () => {
    const rising = (seed: number) => from(30, sound(seed, 88.5), ramp(4, 4.5));
    const made = bedOf([rising(1), rising(2)]);
    const stated = (later: number): MadeBed => ({
      ...made,
      probes: made.probes.map((probe) => ({ ...probe, humidityUncertainty_RH: later })),
    });
    expect(names(stated(3))).not.toEqual([]);
    const { told } = run(stated(3), (state) => {
      // From day 30 on quality is less sure by as much as the sand has risen.
      for (const { humidity } of Object.values(state.probes))
        if (humidity.reference) humidity.reference.uncertainty_RH = -1.5;
      return state;
    });
    expect(told).toEqual([]);
  });

  test('a handled bed is wetted anew: opened or packed anew, it is let settle', () => {
    const again: Course = (hours) =>
      hours < 40 * DAY_h ? (sound(1, 90)(hours) ?? 0) : approach(60, 93, hours - 40 * DAY_h, 50);
    const handled = (how: 'opened' | 'repacked'): MadeBed => ({
      ...bedOf([again, again]),
      disturbed: (hour) => (hour === 40 * DAY_h ? how : undefined),
    });
    expect(names(handled('opened'))).toEqual([]);
    expect(names(handled('repacked'))).toEqual([]);
  });
});

describe('near saturation for long', () => {
  test('97 %RH for 48 h at one probe asks for unpacking, before it has lasted three days', () => {
    const [first, ...others] = dampOf(bedOf([from(30, sound(1), ramp(1, 13)), sound(2)])).filter(({ name }) =>
      name.startsWith('unpack'),
    );
    expect(others).toEqual([]);
    expect(first?.name).toBe('unpack p1');
    expect(first?.day).toBeGreaterThan(32);
    expect(first?.day).toBeLessThan(33.5);
    expect(first?.finding.evidence).toMatchObject({ probe: 'p1', threshold_RH: 97 });
    expect(first?.finding.place).toEqual({ x: 30, y: 45, depth: 20, radius: 25 });
  });

  test('also in the first weeks, in which a rise says nothing', () => {
    const wet: Course = (hours) => approach(65, 99, hours, 10);
    expect(names(bedOf([wet, sound(2)], 10))).toContain('unpack p1');
  });

  test('a probe that has always shown 96 to 97 %RH is no news', () => {
    const high: Course = (hours) => approach(65, 96, hours, 60) + (hours > 900 ? 1.3 : 0);
    expect(names(bedOf([high, sound(2)])).filter((name) => name.startsWith('unpack'))).toEqual([]);
  });

  test('95 %RH for 48 h at two probes asks for a look', () => {
    const wetted =
      (seed: number): Course =>
      (hours) =>
        approach(65, 95.8, hours, 40) + wobble(seed, hours, 0.2);
    const told = dampOf(bedOf([wetted(1), wetted(2), sound(3)], 25));
    expect(told.map(({ name }) => name).sort()).toEqual(['check p1', 'check p2']);
  });

  test('a site may set the levels otherwise', () => {
    const made = bedOf([sound(1, 90), sound(2, 90)]);
    const thresholds = { damp_check_RH: 88, damp_unpack_RH: 94, damp_check_h: 5 };
    expect(names({ ...made, thresholds }).length).toBeGreaterThan(0);
  });
});

describe('a rise towards it', () => {
  test('one probe that rises by more than 6 %RH, on its way past 95, asks for a look before it is there', () => {
    const [first] = dampOf(bedOf([from(30, sound(1), ramp(8, 13)), sound(2), sound(3)]));
    expect(first?.name).toBe('check p1');
    expect(first?.day).toBeLessThan(36.5);
    const evidence = (first?.finding.evidence ?? {}) as Record<string, number>;
    const { humidity_RH, rise_RH, forecast_RH, vapourDensity_g_m3, vapourDensityExpected_g_m3 } = evidence;
    expect(humidity_RH).toBeLessThan(95);
    expect(rise_RH).toBeGreaterThan(6);
    expect(forecast_RH).toBeGreaterThan(95);
    expect(vapourDensity_g_m3).toBeGreaterThan(vapourDensityExpected_g_m3 ?? Number.NaN);
  });

  test('two that rise together need half as much each', () => {
    const rising = (seed: number) => from(30, sound(seed, 90), ramp(5, 5));
    expect(names(bedOf([rising(1), sound(2), sound(3)]))).toEqual([]);
    expect(names(bedOf([rising(1), rising(2), sound(3)])).sort()).toContain('check p1');
  });

  test('two probes over 95 and rising mean unpacking, though neither reaches 97', () => {
    const rising = (seed: number) => from(30, sound(seed, 90), ramp(6, 6.2));
    const found = names(bedOf([rising(1), rising(2), sound(3)]));
    expect(found).toContain('unpack p1');
    expect(found).toContain('unpack p2');
  });

  test('a look gives way to unpacking of the same probe', () => {
    const told = dampOf(bedOf([from(30, sound(1), ramp(8, 13)), sound(2)]));
    const [check, unpack] = told;
    expect([check?.name, unpack?.name]).toEqual(['check p1', 'unpack p1']);
    expect(check?.clearedDay).toBe(unpack?.day);
    expect(told).toHaveLength(2);
  });

  test('slow damping over weeks is not learned away', () => {
    expect(names(bedOf([from(30, sound(1), ramp(20, 12)), sound(2)], 80))).toContain('check p1');
  });

  test('it clears a day after the sand has dried, and is raised once', () => {
    const wetThenDry = from(30, sound(1), (days) => (days < 10 ? Math.min(13, 5 * days) : 0));
    const told = dampOf(bedOf([wetThenDry, sound(2)]));
    expect(told.map(({ name }) => name)).toEqual(['check p1', 'unpack p1']);
    expect(told[1]?.clearedDay).toBeGreaterThan(40.9);
    expect(told[1]?.clearedDay).toBeLessThan(41.5);
  });
});
