/** Beds with temperature only: the daily swing that arrives tells damp sand from dry. */
import { describe, expect, test } from 'vitest';
import { type Course, constant, type MadeBed, PIT, run, wobble } from './a-bed.js';

const DAY_h = 24;
const PERIOD_s = 86_400;
const damping_cm = (diffusivity_m2_s: number): number =>
  100 * Math.sqrt((diffusivity_m2_s * PERIOD_s) / Math.PI);

/** Weather that wanders, and a day that is larger on some days than on others. */
const weather: Course = (hours) =>
  20 + 2 * Math.sin(hours / 90) + (6 + Math.sin(hours / 60)) * Math.cos((2 * Math.PI * (hours - 14)) / DAY_h);

/** Below a roof that takes off a third and comes an hour late: weaker and later alike, in a deep solid. */
const sandAt =
  (depth_cm: number, seed: number, diffusivity_m2_s: (day: number) => number, top_cm = 0): Course =>
  (hours) => {
    const way = (depth_cm - top_cm) / damping_cm(diffusivity_m2_s(hours / DAY_h));
    const swing_C = 4 * Math.exp(-way) * Math.cos((2 * Math.PI * (hours - 15)) / DAY_h - way);
    return 21 + 1.2 * Math.sin(hours / 95 - 1) + swing_C + wobble(seed, hours, 0.03);
  };

const DRY = 0.19e-6;
const always = (value: number) => () => value;
/** Loose sand with 2.5 to 5 % of water: table after de Vries 1963 and Smits et al. 2010 has 0.99e-6 at 0.20. */
const dampFrom = (day: number) => (now: number) =>
  now < day ? DRY : Math.min(0.7e-6, DRY + (now - day) * 0.1e-6);

const bedOf = (
  diffusivity: (day: number) => number,
  more: Partial<MadeBed> = {},
  depths = [15, 25, 35],
): MadeBed => ({
  days: 50,
  withSamples: false,
  everyMinutes: 30,
  shade: { temperature: weather },
  probes: depths.map((depth, at) => ({
    id: `p${at + 1}`,
    depth,
    temperature: sandAt(depth, at, diffusivity),
  })),
  ...more,
});

describe('dry sand', () => {
  test('raises nothing, is called dry, and its diffusivity is right within the uncertainty told', () => {
    const { names, last } = run(bedOf(always(DRY)));
    expect(names).toEqual([]);
    for (const id of ['p1', 'p2']) {
      const swing = last.probes.get(id)?.swing;
      expect(swing?.class).toBe('dry');
      expect(Math.abs(Math.log((swing?.diffusivity_m2_s ?? Number.NaN) / DRY))).toBeLessThan(
        2 * Math.log(swing?.uncertaintyFactor ?? Number.NaN),
      );
    }
  });

  test('sand that conducts by a quarter better than usual is not damp either', () => {
    expect(run(bedOf(always(0.24e-6))).names).toEqual([]);
  });

  test('cloudy weeks in which the day hardly swings are not judged', () => {
    const { last } = run(bedOf(always(DRY), { shade: { temperature: constant(20) }, days: 20 }));
    expect(last.probes.get('p1')?.swing).toBeUndefined();
  });
});

describe('sand that becomes damp', () => {
  test('asks for a look within days, with the numbers that it rests on', () => {
    const { told } = run(bedOf(dampFrom(30)));
    const [first] = told;
    expect(first?.finding).toMatchObject({ kind: 'damp', action: 'check', sign: 'swing' });
    expect(first?.day).toBeGreaterThan(31);
    expect(first?.day).toBeLessThan(37);
    const evidence = (first?.finding.evidence ?? {}) as Record<string, number | string>;
    expect(['damp', 'wet']).toContain(evidence['class']);
    expect(evidence['diffusivity_m2_s']).toBeGreaterThan(0.25e-6);
    expect(evidence['uncertaintyFactor']).toBeGreaterThan(1);
    expect(told.every(({ finding }) => finding.action === 'check')).toBe(true);
  });

  test('also without a shade probe, by the shallowest', () => {
    const { shade: _, ...without } = bedOf(dampFrom(30));
    const { told } = run(without);
    expect(told[0]?.finding.sign).toBe('swing');
    expect(told[0]?.finding.evidence['against']).toBe('p1');
    expect(told[0]?.day).toBeLessThan(40);
  });

  test('a bed that was wet from the filling on shows it by the share alone', () => {
    const { told } = run(bedOf(always(0.9e-6), { days: 14 }, [10, 20, 35]));
    expect(told.map(({ finding }) => finding.probe)).toContain('p2');
  });

  test('a sand as wet as that, and then dry, clears', () => {
    const { told } = run(bedOf((now) => (now < 25 || now > 38 ? DRY : 0.8e-6)));
    expect(told.length).toBeGreaterThan(0);
    for (const { clearedDay } of told) {
      expect(clearedDay).toBeGreaterThan(38);
      expect(clearedDay).toBeLessThan(46);
    }
  });

  test('cloudy weeks in between do not end it and raise it again', () => {
    // The shade hardly swings for a week; the sand's own wave stays, so that the shallow probe goes on as a reference.
    const cloudy: Course = (hours) => (hours > 40 * DAY_h && hours < 47 * DAY_h ? 20 : weather(hours));
    const { told } = run(bedOf(dampFrom(30), { shade: { temperature: cloudy }, days: 60 }));
    const byProbe = told.map(({ finding }) => finding.probe);
    expect(new Set(byProbe).size).toBe(byProbe.length);
    expect(told.length).toBeGreaterThan(0);
  });

  test('a site may ask for more', () => {
    const made = bedOf(always(0.9e-6), { days: 14, thresholds: { damp_swing_share: 0.9 } }, [10, 20, 35]);
    expect(run(made).names).toEqual([]);
  });
});

describe('what is not damp', () => {
  test('a larger swing where the pore air is known to be dry', () => {
    const made = bedOf(dampFrom(30));
    const probes = made.probes.map((probe) => ({ ...probe, humidity: constant(75) }));
    expect(run({ ...made, probes }).names).toEqual([]);
  });

  test('a bed in which the walls always let the day in', () => {
    const box = {
      ...bedOf(always(0.5e-6)),
      bed: { ...PIT, kind: 'box' as const, steps: [{ length: 100, width: 90, height: 75 }] },
    };
    expect(run(box).names).toEqual([]);
  });

  test('a told opening after which the probes lie otherwise: the bed is learned anew', () => {
    const moved: Course[] = [15, 25, 35].map((depth, at) => {
      const [before, after] = [sandAt(depth, at, always(DRY)), sandAt(depth, at, always(DRY), 5)];
      return (hours) =>
        ((hours < 25 * DAY_h ? before : after)(hours) ?? 0) +
        (hours < 25 * DAY_h ? 0 : 4 * Math.exp(-(hours / DAY_h - 25) / 3));
    });
    const made = bedOf(always(DRY));
    const probes = made.probes.map((probe, at) => ({ ...probe, temperature: moved[at] ?? constant(21) }));
    const disturbed = (hour: number) => (hour === 25 * DAY_h ? ('opened' as const) : undefined);
    expect(run({ ...made, probes, disturbed }).names).toEqual([]);
  });

  test('a probe that lies bare', () => {
    const made = bedOf(always(DRY));
    const [first, second, third] = made.probes;
    const bare: Course = (hours) => (hours < 30 * DAY_h ? sandAt(25, 1, always(DRY))(hours) : weather(hours));
    const probes = [first, second && { ...second, temperature: bare }, third].filter(
      (probe) => probe !== undefined,
    );
    expect(run({ ...made, probes }).names.filter((name) => name.startsWith('damp'))).toEqual([]);
  });
});
