/** Shares for a plot are those that the watch goes by, and closed solutions say what sand lets through. */
import { describe, expect, test } from 'vitest';
import { HOUR_ms } from '../../../../services/core/model/time.js';
import { SHARE_HOURS, sharesOfDay, sharesThrough } from '../../../../services/core/watch/dampness/index.js';
import { hourOf, type MadeBed, run, START, wobble } from './a-bed.js';

const DAYS = 8;
const END = START + DAYS * 24 * HOUR_ms;

const wave = (mean: number, amplitude: number, later_h: number, seed: number) => (hours: number) =>
  mean + amplitude * Math.cos((2 * Math.PI * (hours - later_h)) / 24) + wobble(seed, hours, 0.05);

const BED: MadeBed = {
  days: DAYS,
  withSamples: false,
  shade: { temperature: wave(21, 6, 15, 1) },
  probes: [
    { id: 'p1', depth: 12, temperature: wave(20, 0.9, 20, 2) },
    { id: 'p2', depth: 25, temperature: wave(20, 0.3, 26, 3) },
  ],
};

const hoursOf = (mean: (hour: ReturnType<typeof hourOf>) => number | undefined) =>
  Array.from({ length: SHARE_HOURS }, (_, at) => mean(hourOf(BED, DAYS * 24 - SHARE_HOURS + at)) ?? null);
const shade = hoursOf((hour) => hour.shade?.temperature?.mean);
const probeHours = (at: number) => hoursOf(({ probes }) => probes[at]?.hour.temperature?.mean);

describe('the share of a day', () => {
  test('is the share that the watch has', () => {
    const { last } = run(BED);
    const shares = sharesOfDay(END, shade, [probeHours(0), probeHours(1)], 'stepped-pit');
    const [p1, p2] = ['p1', 'p2'].map((id) => last.probes.get(id)?.swing);
    expect(p1?.via).toBe('shade');
    expect(shares[0]?.share).toBeCloseTo(p1?.swingShare ?? Number.NaN, 3);
    expect(shares[0]?.share).toBeCloseTo(0.15, 2);
    expect(shares[0]?.uncertainty).toBeGreaterThan(0);
    if (p2?.via === 'shade') expect(shares[1]?.share).toBeCloseTo(p2.swingShare, 3);
    expect(shares[1]?.share).toBeCloseTo(0.05, 2);
  });

  const few = (hours: readonly (number | null)[]) => hours.map((value, at) => (at < 40 ? null : value));

  test.each<[string, (number | null)[], (number | null)[], string]>([
    ['too few hours of the shade', few(shade), probeHours(0), 'no-shade'],
    ['no shade at all', shade.map(() => null), probeHours(0), 'no-shade'],
    ['a still shade', shade.map((_, at) => 20 + (at % 2) / 10), probeHours(0), 'little-swing'],
    ['too few hours of the probe', shade, few(probeHours(0)), 'too-few-hours'],
    [
      'sand that was handled',
      shade,
      probeHours(0).map((value, at) => (value ?? 0) + (at > 60 ? 4 : 0)),
      'handled',
    ],
  ])('is not known with %s', (_what, outside, probe, because) => {
    expect(sharesOfDay(END, outside, [probe], 'stepped-pit')).toEqual([
      { share: null, uncertainty: null, atMost: false, because },
    ]);
  });

  test('is a bound where the wave is lost in what is left over', () => {
    const lost = shade.map((_, at) => 20 + wobble(7, at, 0.2));
    const [share] = sharesOfDay(END, shade, [lost], 'stepped-pit');
    expect(share).toMatchObject({ atMost: true, uncertainty: null, because: null });
    expect(share?.share).toBeGreaterThan(0);
  });
});

describe('what sand lets through', () => {
  test('is less the deeper, and more the wetter', () => {
    const [shallow, deep] = [sharesThrough(10, 'stepped-pit'), sharesThrough(40, 'stepped-pit')];
    expect(deep.dry).toBeLessThan(shallow.dry);
    for (const { dry, dampFrom, wetFrom } of [shallow, deep]) {
      expect(dampFrom).toBeGreaterThan(dry);
      expect(wetFrom).toBeGreaterThan(dampFrom);
    }
  });

  test('falls with the depth as an exponential', () => {
    const shares = [10, 20, 30].map((depth) => sharesThrough(depth, 'box').wetFrom);
    const [first = 0, second = 0, third = 0] = shares;
    expect(second / first).toBeCloseTo(third / second, 2);
  });

  test.each([Number.NaN, -1, Number.POSITIVE_INFINITY])('is refused of %d cm', (cover) => {
    expect(() => sharesThrough(cover, 'box')).toThrow(/depth/);
  });
});
