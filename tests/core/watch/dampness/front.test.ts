/** A wet front that reaches a probe, and what looks like one. */
import { describe, expect, test } from 'vitest';
import { type Course, constant, type MadeBed, type MadeProbe, run, wobble } from './a-bed.js';

const DAY_h = 24;
const AT_h = 20 * DAY_h + 5.4;

const sound =
  (seed: number, level_RH = 87): Course =>
  (hours) =>
    level_RH + wobble(seed, hours, 0.25);

/** Water: humidity follows within an hour and a half. */
const wetFrom =
  (at: number, before: Course, to_RH = 99.6, memory_h = 1.5): Course =>
  (hours) => {
    const start = before(hours) ?? 0;
    return hours < at ? start : to_RH + (start - to_RH) * Math.exp(-(hours - at) / memory_h);
  };

const stuckFrom =
  (at: number, before: Course): Course =>
  (hours) =>
    hours < at ? before(hours) : 100;

const still =
  (seed: number): Course =>
  (hours) =>
    21 + wobble(seed, hours, 0.02) + 0.3 * Math.sin(hours / 24);

const bedOf = (
  first: Partial<MadeProbe>,
  more: Partial<MadeBed> = {},
  second: Partial<MadeProbe> = {},
): MadeBed => ({
  days: 26,
  probes: [
    { id: 'p1', depth: 30, temperature: still(1), humidity: sound(1), ...first },
    { id: 'p2', depth: 35, temperature: still(2), humidity: sound(2), ...second },
  ],
  ...more,
});

const wettingOf = (made: MadeBed) => run(made).told.filter(({ finding }) => finding.kind === 'wetting');
const brief = (made: MadeBed): string[] =>
  wettingOf(made).map(({ finding: { action, sign, probe } }) => `${action} ${sign} ${probe}`);

describe('a wet front', () => {
  test.each([0, 0.3, 0.7, 0.95])('is told within two hours, wherever in the hour it comes (%d)', (part) => {
    const at = 20 * DAY_h + part;
    const [first] = wettingOf(bedOf({ humidity: wetFrom(at, sound(1)) }));
    expect(first?.finding).toMatchObject({ kind: 'wetting', action: 'unpack', sign: 'front', probe: 'p1' });
    expect((first?.day ?? Number.NaN) * DAY_h - at).toBeLessThanOrEqual(2);
  });

  test('also after vapour has come before it, and where the sensor shows 2 %RH too little', () => {
    const vapour: Course = (hours) =>
      84 + 8 * (1 - Math.exp(-Math.max(0, hours - 18 * DAY_h) / 24)) + wobble(1, hours, 0.25);
    const [first] = wettingOf(bedOf({ humidity: wetFrom(AT_h, vapour, 97.6) }));
    expect((first?.day ?? Number.NaN) * DAY_h - AT_h).toBeLessThanOrEqual(2);
  });

  test('at once and still at 100 %, it is water where the temperature moves with it', () => {
    const temperature: Course = (hours) => (still(1)(hours) ?? 0) + (hours < AT_h ? 0 : 0.8);
    expect(brief(bedOf({ humidity: stuckFrom(AT_h, sound(1)), temperature }))).toEqual(['unpack front p1']);
  });

  test('the numbers that it rests on', () => {
    const [first] = wettingOf(bedOf({ humidity: wetFrom(AT_h, sound(1)) }));
    const evidence = (first?.finding.evidence ?? {}) as Record<string, number>;
    const { before_RH, humidity_RH, change_C } = evidence;
    expect(before_RH).toBeCloseTo(87, 0);
    expect(humidity_RH).toBeGreaterThan(90);
    expect(Math.abs(change_C ?? Number.NaN)).toBeLessThan(0.2);
    expect(first?.finding.place).toEqual({ x: 30, y: 45, depth: 30, radius: 25 });
  });

  test('it stands while the sand is wet and clears two days after it has dried', () => {
    const dries: Course = (hours) => (hours < 22 * DAY_h ? wetFrom(AT_h, sound(1))(hours) : sound(1)(hours));
    const [first, ...others] = wettingOf(bedOf({ humidity: dries }));
    expect(others).toEqual([]);
    expect(first?.clearedDay).toBeCloseTo(24, 1);
  });

  test('hourly values without samples are enough for one that takes two hours', () => {
    expect(brief(bedOf({ humidity: wetFrom(AT_h, sound(1)) }, { withSamples: false }))).toEqual([
      'unpack front p1',
    ]);
  });
});

describe('a sensor that fails at 100 %', () => {
  test('in one sample, without temperature or scatter, is something to see to', () => {
    const made = bedOf({ humidity: stuckFrom(AT_h, sound(1)) });
    expect(brief(made)).toEqual(['service front-or-broken p1']);
    expect(run(made).names.filter((name) => name.startsWith('damp'))).toEqual([]);
  });

  test.each([10, 20, 30, 60])('samples every %d minutes: it is told within two hours', (everyMinutes) => {
    const [first] = wettingOf(bedOf({ humidity: stuckFrom(AT_h, sound(1)) }, { everyMinutes }));
    expect(first?.finding.action).toBe('service');
    expect((first?.day ?? Number.NaN) * DAY_h - AT_h).toBeLessThanOrEqual(2);
  });

  test('another probe that gets wet settles the doubt', () => {
    const made = bedOf(
      { humidity: stuckFrom(AT_h, sound(1)) },
      {},
      { humidity: wetFrom(AT_h + 30, sound(2)) },
    );
    expect(brief(made)).toEqual(['service front-or-broken p1', 'unpack front p1', 'unpack front p2']);
  });

  test('so does scatter at saturation: the sensor lives', () => {
    const alive: Course = (hours) =>
      hours < AT_h + 4 ? stuckFrom(AT_h, sound(1))(hours) : 99.5 + wobble(1, hours, 0.4);
    expect(brief(bedOf({ humidity: alive }))).toEqual(['service front-or-broken p1', 'unpack front p1']);
  });

  test('the doubt ends when ordinary values come back, or when the humidity is left out for good', () => {
    const back: Course = (hours) => (hours < AT_h + 10 ? stuckFrom(AT_h, sound(1))(hours) : sound(1)(hours));
    expect(wettingOf(bedOf({ humidity: back }))[0]?.clearedDay).toBeCloseTo((AT_h + 10 + 24) / DAY_h, 1);
    const gone: Course = (hours) => (hours < AT_h + 10 ? stuckFrom(AT_h, sound(1))(hours) : undefined);
    expect(wettingOf(bedOf({ humidity: gone }))[0]?.clearedDay).toBeCloseTo((AT_h + 10 + 48) / DAY_h, 1);
  });

  test('where quality says that it cannot tell, a front is only a doubt', () => {
    const made = bedOf({ humidity: wetFrom(AT_h, sound(1)), wetOrBroken: (hour) => hour >= AT_h - 1 });
    expect(brief(made)[0]).toBe('service front-or-broken p1');
  });
});

describe('what is no front', () => {
  test('roots that wet their sand, filled air-dry', () => {
    const filled: Course = (hours) => 96 - 56 * Math.exp(-hours / 60);
    expect(brief(bedOf({ humidity: filled }, {}, { humidity: filled }))).toEqual([]);
  });

  test('vapour that rises over a day', () => {
    const vapour: Course = (hours) =>
      87 + 11 * (1 - Math.exp(-Math.max(0, hours - AT_h) / 24)) + wobble(1, hours, 0.25);
    expect(brief(bedOf({ humidity: vapour }))).toEqual([]);
  });

  test('a bed that is opened, or packed anew, on a moist morning', () => {
    const disturbed = (hour: number) => (hour === 20 * DAY_h + 5 ? ('opened' as const) : undefined);
    const opened: Course = (hours) => (hours >= AT_h && hours < AT_h + 5 ? 97 : sound(1)(hours));
    expect(brief(bedOf({ humidity: opened }, { disturbed }))).toEqual([]);
  });

  test('a probe that was pulled out shows the air outside', () => {
    const shade = { temperature: constant(14), humidity: constant(96) };
    const temperature: Course = (hours) => (hours < AT_h ? still(1)(hours) : 14 + wobble(1, hours, 0.1));
    const humidity: Course = (hours) => (hours < AT_h ? sound(1)(hours) : 96 + wobble(1, hours, 0.4));
    expect(brief(bedOf({ temperature, humidity }, { shade }))).toEqual([]);
  });

  test('a noisy humidity', () => {
    expect(brief(bedOf({ humidity: (hours) => 90 + wobble(1, hours, 6) }))).toEqual([]);
  });

  test('a higher threshold of the site', () => {
    const made = bedOf({ humidity: wetFrom(AT_h, sound(1)) }, { thresholds: { wetting_rise_RH: 20 } });
    expect(brief(made)).toEqual([]);
  });
});

describe('a step of temperature at a probe without humidity', () => {
  const dry = { humidity: constant(Number.NaN) };
  const drip =
    (size_C: number, takes_h: number, start: Course): Course =>
    (hours) =>
      (start(hours) ?? 0) + size_C * Math.min(1, Math.max(0, hours - AT_h) / takes_h);
  const bed = (temperature: Course, other: Course = still(2)): MadeBed => {
    const { probes, ...rest } = bedOf({}, { days: 26 });
    return {
      ...rest,
      probes: probes.map(({ humidity: _, ...probe }, at) => ({
        ...probe,
        temperature: at === 0 ? temperature : other,
      })),
    };
  };

  test('over some samples and flat after it asks for a look, within three hours', () => {
    const [first, ...others] = wettingOf(bed(drip(-1.6, 0.8, still(1))));
    expect(others).toEqual([]);
    expect(first?.finding).toMatchObject({ action: 'check', sign: 'temperature-step', probe: 'p1' });
    expect((first?.day ?? Number.NaN) * DAY_h - AT_h).toBeLessThanOrEqual(3);
    expect(first?.clearedDay).toBeCloseTo((first?.day ?? Number.NaN) + 3, 1);
  });

  test.each([
    ['a sensor that steps in one sample', bed(drip(-1.6, 0.01, still(1)))],
    ['slow warming by rot', bed(drip(4, 60, still(1)))],
    ['a step that no drip makes', bed(drip(9, 0.8, still(1)))],
    ['two probes at once: the bed was opened', bed(drip(-1.6, 0.8, still(1)), drip(-1.2, 0.8, still(2)))],
  ])('not %s', (_, made) => {
    expect(brief(made)).toEqual([]);
  });

  test('values that are no numbers are no values', () => {
    expect(brief(bedOf(dry))).toEqual([]);
  });
});
