/** Condensation: a dew point above the sand's temperature. */
import { describe, expect, test } from 'vitest';
import { dewPointOfHour } from '../../../../services/core/watch/dampness/dew-point.js';
import { type Course, constant, type MadeBed, run } from './a-bed.js';

const hourOf = (temperature: number, humidity: number) => ({
  temperature: { count: 6, mean: temperature, min: temperature, max: temperature },
  humidity: { count: 6, mean: humidity, min: humidity, max: humidity },
});

describe('the dew point of an hour', () => {
  // checks.md section 5, WMO-Magnus inverse [C].
  test.each([
    [25, 90, 23.24],
    [20, 50, 9.26],
    [30, 95, 29.11],
    [10, 30, -6.81],
  ])('%d °C at %d %%RH', (temperature, humidity, expected) => {
    expect(dewPointOfHour(hourOf(temperature, humidity), 0)).toBeCloseTo(expected, 2);
  });

  test('an error of the humidity is taken off; above 100 %RH is saturation', () => {
    expect(dewPointOfHour(hourOf(25, 93), 3)).toBeCloseTo(23.24, 2);
    expect(dewPointOfHour(hourOf(25, 103), 0)).toBeCloseTo(25, 6);
  });

  test.each([
    ['no humidity', { temperature: hourOf(20, 50).temperature }],
    ['no temperature', { humidity: hourOf(20, 50).humidity }],
    ['a humidity of a code', hourOf(20, -20)],
    ['a humidity that is none', hourOf(20, 131)],
    ['a temperature of a code', hourOf(-127, 50)],
    ['NaN', hourOf(Number.NaN, 50)],
    ['NaN as humidity', hourOf(20, Number.NaN)],
    ['infinity', hourOf(20, Number.POSITIVE_INFINITY)],
  ])('there is none of %s', (_, hour) => {
    expect(dewPointOfHour(hour, 0)).toBeUndefined();
  });
});

/** A warm deep middle and a cold place near the floor; dry air outside unless said otherwise. */
const bedOf = (more: Partial<MadeBed>, warm_RH?: Course, cold_RH?: Course): MadeBed => ({
  days: 12,
  withSamples: false,
  shade: { temperature: constant(22), humidity: constant(40) },
  probes: [
    { id: 'p1', depth: 25, temperature: constant(25), ...(warm_RH && { humidity: warm_RH }) },
    { id: 'p2', depth: 45, temperature: constant(21), ...(cold_RH && { humidity: cold_RH }) },
  ],
  ...more,
});

const condensationOf = (made: MadeBed) =>
  run(made).told.filter(({ finding }) => finding.kind === 'condensation');

describe('air from outside', () => {
  const moistFor =
    (hours: number, from = 100): Course =>
    (now) =>
      now >= from && now < from + hours ? 98 : 40;

  test('with a dew point above the coldest sand for three hours asks for a look there', () => {
    const [first, ...others] = condensationOf(
      bedOf({ shade: { temperature: constant(22), humidity: moistFor(5) } }),
    );
    expect(others).toEqual([]);
    expect(first?.day).toBeCloseTo(103 / 24, 6);
    expect(first?.finding).toMatchObject({
      action: 'check',
      sign: 'dew-point',
      probe: 'p2',
      evidence: { probe: 'p2', dewPoint_C: 21.7, sand_C: 21, air: 'outside air' },
      place: { x: 50, y: 45, depth: 45, radius: 25 },
    });
    expect(first?.clearedDay).toBeCloseTo((105 + 24) / 24, 6);
  });

  test.each([
    ['two hours', { shade: { temperature: constant(22), humidity: moistFor(2) } }],
    ['a dew point within the margin', { shade: { temperature: constant(21.6), humidity: moistFor(5) } }],
    [
      'a wider margin of the site',
      {
        shade: { temperature: constant(22), humidity: moistFor(5) },
        thresholds: { condensation_margin_C: 2 },
      },
    ],
    ['no shade probe with humidity', { shade: { temperature: constant(22) } }],
    ['a dry day', {}],
  ])('%s: nothing', (_, more) => {
    expect(condensationOf(bedOf(more))).toEqual([]);
  });

  test('hours apart do not add up', () => {
    const everyThird: Course = (now) => (Math.floor(now) % 3 === 0 ? 40 : 98);
    expect(condensationOf(bedOf({ shade: { temperature: constant(22), humidity: everyThird } }))).toEqual([]);
  });
});

describe('air inside the bed', () => {
  test('25 °C at 93 %RH, less its error, has a dew point of 23.2 °C: a place of 21 °C gets wet within a day', () => {
    const [first, ...others] = condensationOf(bedOf({}, constant(93)));
    expect(others).toEqual([]);
    expect(first?.day).toBeCloseTo(1, 6);
    expect(first?.finding.evidence).toMatchObject({ probe: 'p2', air: 'p1', dewPoint_C: 23.2, sand_C: 21 });
    const { vapourDensity_g_m3, saturation_g_m3 } = first?.finding.evidence ?? {};
    expect(Number(vapourDensity_g_m3)).toBeGreaterThan(Number(saturation_g_m3));
  });

  test('not where a probe there says that it is far from wet', () => {
    expect(condensationOf(bedOf({}, constant(93), constant(80)))).toEqual([]);
    expect(condensationOf(bedOf({}, constant(93), constant(94)))).toHaveLength(1);
  });

  test('not where quality leaves room for the humidity to be lower', () => {
    const made = bedOf({}, constant(88));
    const unsure = made.probes.map((probe) => ({ ...probe, humidityUncertainty_RH: 12 }));
    expect(condensationOf({ ...made, probes: unsure })).toEqual([]);
    expect(condensationOf(made)).toHaveLength(1);
  });

  test('not by a probe of which nobody knows whether it is wet or broken', () => {
    const made = bedOf({}, constant(100));
    const doubted = made.probes.map((probe) => ({ ...probe, wetOrBroken: () => true }));
    expect(condensationOf({ ...made, probes: doubted })).toEqual([]);
  });
});
