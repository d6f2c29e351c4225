import { describe, expect, test } from 'vitest';
import { type ReadinessInputs, readinessOf } from '../../../services/core/keeping/readiness.js';
import { dailySwing_C, type ProbeHour, twoDaysOf } from '../../../services/core/keeping/readiness-days.js';
import type { ReadinessProbe } from '../../../services/core/keeping/readiness-worst.js';
import type { ItemId } from '../../../services/core/model/readiness.js';
import { DAY_ms, HOUR_ms } from '../../../services/core/model/time.js';
import { AT, hoursOf, inPit, inSand, LIMITS, PIT, SHADE } from './a-bed-to-fill.js';
import { codeOf } from './some-sand.js';

const itemOf = (id: ItemId, part: Partial<ReadinessInputs>) =>
  readinessOf({ ...PIT, ...part }, LIMITS).items.find((item) => item.id === id);
const stateOf = (id: ItemId, ...probes: readonly ReadinessProbe[]) => itemOf(id, { probes })?.state;

const steady = (temperature_C: number, humidity_RH = 70): readonly ProbeHour[] =>
  hoursOf(() => ({ temperature_C, humidity_RH }));
/** The day before the last, and the last. */
const stepping = (before: Omit<ProbeHour, 'hour'>, last: Omit<ProbeHour, 'hour'>): readonly ProbeHour[] =>
  hoursOf((left_h) => (left_h > 24 ? before : last));
/** Only so many hours of the last day. */
const withHours = (hours: readonly ProbeHour[], count: number): readonly ProbeHour[] => [
  ...hours.slice(0, 24),
  ...hours.slice(48 - count),
];

describe('the two days', () => {
  test('end with the last whole hour', () => {
    const hours = stepping({ temperature_C: 20 }, { temperature_C: 21 });
    expect(twoDaysOf(hours, 'temperature_C', AT)).toEqual({ before: 20, last: 21 });
  });

  test('leave out what is older, and the hour that is not over', () => {
    const hours = [
      { hour: AT - 3 * DAY_ms, temperature_C: 90 },
      ...steady(20),
      { hour: Math.floor(AT / HOUR_ms) * HOUR_ms, temperature_C: 90 },
    ];
    expect(twoDaysOf(hours, 'temperature_C', AT)).toEqual({ before: 20, last: 20 });
  });

  test('need 18 hours each', () => {
    expect(twoDaysOf(withHours(steady(20), 18), 'temperature_C', AT)).toBeDefined();
    expect(twoDaysOf(withHours(steady(20), 17), 'temperature_C', AT)).toBeUndefined();
    expect(twoDaysOf(steady(20).slice(7), 'temperature_C', AT)).toBeUndefined();
  });

  test('do not count an hour twice', () => {
    const few = withHours(steady(20), 17);
    expect(twoDaysOf([...few, ...few], 'temperature_C', AT)).toBeUndefined();
  });

  test('lack what was not measured', () => {
    expect(
      twoDaysOf(
        hoursOf(() => ({ temperature_C: 20 })),
        'humidity_RH',
        AT,
      ),
    ).toBeUndefined();
  });

  test.each([Number.NaN, -127, Number.POSITIVE_INFINITY])('refuse %d °C', (temperature_C) => {
    expect(codeOf(() => twoDaysOf(steady(temperature_C), 'temperature_C', AT))).toBe('OUT_OF_DOMAIN');
  });

  test('swing without the drift', () => {
    const wave = (left_h: number): number => 3 * Math.cos((2 * Math.PI * left_h) / 24);
    const plain = hoursOf((left_h) => ({ temperature_C: 20 + wave(left_h) }));
    const cooling = hoursOf((left_h) => ({ temperature_C: 20 + wave(left_h) + left_h / 8 }));
    expect(dailySwing_C(plain, AT)).toBeCloseTo(6, 9);
    expect(dailySwing_C(cooling, AT)).toBeCloseTo(6, 9);
    expect(dailySwing_C(withHours(plain, 17), AT)).toBeUndefined();
  });
});

describe('sand', () => {
  test.each([
    [11.9, 'not met'],
    [12, 'met'],
    [30, 'met'],
    [30.1, 'not met'],
  ])('of %d °C: temperature %s', (temperature_C, state) => {
    expect(stateOf('sand-temperature', inSand({ hours: steady(temperature_C) }))).toBe(state);
  });

  test('is as cold and as warm as its coldest and warmest probe', () => {
    const [cold, warm] = [
      inSand({ id: 'cold', hours: steady(11) }),
      inSand({ id: 'warm', hours: steady(24) }),
    ];
    const item = itemOf('sand-temperature', { probes: [warm, cold] });
    expect(item).toMatchObject({ state: 'not met', measure: '11.0 °C (cold) to 24.0 °C (warm)' });
  });

  test.each([
    [24, 'met'],
    [24.1, 'not met'],
    [15, 'met'],
  ])('of %d °C beside a shade of 22 °C: cooled %s', (temperature_C, state) => {
    expect(stateOf('sand-cooled', inSand({ hours: steady(temperature_C) }))).toBe(state);
  });

  test('is not known to have cooled without the shade', () => {
    expect(itemOf('sand-cooled', { shade: undefined })).toMatchObject({
      state: 'unknown',
      measure: 'no probe lies in the shade',
    });
    expect(itemOf('sand-cooled', { shade: SHADE.slice(10) })?.state).toBe('unknown');
  });

  test.each([
    [23, 22, 'met'],
    [23, 24, 'met'],
    [23, 21.9, 'not met'],
    [22, 23.1, 'not met'],
  ])('from %d to %d °C: steady %s', (before, last, state) => {
    const hours = stepping({ temperature_C: before }, { temperature_C: last });
    expect(stateOf('sand-steady', inSand({ hours }))).toBe(state);
  });

  test.each([
    [89, 90, 'met'],
    [70, 90.1, 'not met'],
    [90.1, 70, 'not met'],
  ])('at %d and %d %%RH: humidity %s', (before, last, state) => {
    const hours = stepping(
      { temperature_C: 23, humidity_RH: before },
      { temperature_C: 23, humidity_RH: last },
    );
    expect(stateOf('sand-humidity', inSand({ hours }))).toBe(state);
  });

  test('is not asked for humidity by probes that do not measure it', () => {
    const thermometer = inSand({
      hours: hoursOf(() => ({ temperature_C: 23 })),
      calibratedAt: { temperature: AT },
    });
    expect(itemOf('sand-humidity', { probes: [thermometer] })).toBeUndefined();
    expect(itemOf('sand-temperature', { probes: [thermometer] })?.state).toBe('met');
  });

  const all = ['sand-temperature', 'sand-cooled', 'sand-steady', 'sand-humidity', 'sand-swing'] as const;
  const gap = inSand({ id: 'gap', hours: withHours(steady(23), 10) });

  test('of which one probe did not measure is not known to be right: that may be the worst', () => {
    for (const id of all) expect(stateOf(id, gap, inSand())).toBe('unknown');
    for (const id of all) expect(stateOf(id, gap)).toBe('unknown');
  });

  test('that one probe shows to be wrong is wrong, whatever the other would show', () => {
    const wrong = inSand({
      hours: hoursOf((left_h) => ({
        temperature_C: 30.5 + (left_h > 24 ? 0 : 2) + 3 * Math.cos((2 * Math.PI * left_h) / 24),
        humidity_RH: 98,
      })),
    });
    for (const id of all) expect(stateOf(id, gap, wrong)).toBe('not met');
  });
});

describe('the swing', () => {
  const swinging = (amplitude: number, part: Partial<ReadinessProbe> = {}): ReadinessProbe =>
    inSand({
      hours: hoursOf((left_h) => ({ temperature_C: 23 + amplitude * Math.cos((2 * Math.PI * left_h) / 24) })),
      ...part,
    });

  test.each([
    [0.89, 'met'],
    [0.91, 'not met'],
  ])('of %d °C beside 6 °C in the shade: %s', (amplitude, state) => {
    expect(stateOf('sand-swing', swinging(amplitude))).toBe(state);
  });

  test('is told by its share and its probe', () => {
    expect(itemOf('sand-swing', { probes: [swinging(3)] })?.measure).toBe('0.50 of it (s01)');
  });

  test('of a shallow probe says nothing', () => {
    expect(stateOf('sand-swing', swinging(3, { depth_cm: 19 }))).toBe('unknown');
    expect(stateOf('sand-swing', swinging(3, { depth_cm: 19 }), inSand())).toBe('met');
  });

  test('is not known on days that hardly swing', () => {
    expect(itemOf('sand-swing', { shade: steady(22) })?.measure).toBe('the shade swung by 0.0 °C only');
  });
});

describe('the open pit', () => {
  const air = (before: number, last: number): ReadinessProbe =>
    inPit({
      hours: stepping({ temperature_C: 20, humidity_RH: before }, { temperature_C: 20, humidity_RH: last }),
    });

  test.each([
    [90, 90, 'met', 'met'],
    [90.1, 80, 'not met', 'met'],
    [80, 83, 'met', 'met'],
    [80, 83.1, 'met', 'not met'],
    [88, 95, 'not met', 'not met'],
  ])('at %d and %d %%RH: dry %s, steady %s', (before, last, dry, still) => {
    expect([stateOf('pit-dry', air(before, last)), stateOf('pit-steady', air(before, last))]).toEqual([
      dry,
      still,
    ]);
  });

  test('without a probe in it is not known to be dry', () => {
    expect(itemOf('pit-dry', { probes: [] })).toMatchObject({
      state: 'unknown',
      measure: 'no probe lies in the open pit',
    });
  });
});

describe('probes', () => {
  test.each([
    ['now', AT, 'met'],
    ['two hours ago', AT - 2 * HOUR_ms, 'met'],
    ['longer ago', AT - 2 * HOUR_ms - 1, 'not met'],
    ['never', null, 'not met'],
  ])('heard %s', (_, lastHeardAt, state) => {
    expect(stateOf('probes-speaking', inSand({ lastHeardAt }), inPit())).toBe(state);
  });

  test.each<[string, ReadinessProbe['calibratedAt'], string]>([
    ['a year and half a year ago', { temperature: AT - 365 * DAY_ms, humidity: AT - 180 * DAY_ms }, 'met'],
    ['a temperature too long ago', { temperature: AT - 365 * DAY_ms - 1, humidity: AT }, 'not met'],
    ['a humidity too long ago', { temperature: AT, humidity: AT - 180 * DAY_ms - 1 }, 'not met'],
    ['a humidity never', { temperature: AT, humidity: null }, 'not met'],
    ['later than now', { temperature: AT + 1 }, 'not met'],
    ['a thermometer alone', { temperature: AT }, 'met'],
    ['nothing that it measures', {}, 'not met'],
  ])('calibrated %s', (_, calibratedAt, state) => {
    expect(stateOf('probes-calibrated', inSand({ calibratedAt }))).toBe(state);
  });

  test('that fail are named', () => {
    const item = itemOf('probes-speaking', { probes: [inSand({ id: 's07', lastHeardAt: null }), inSand()] });
    expect(item?.measure).toBe('silent: s07');
  });
});
