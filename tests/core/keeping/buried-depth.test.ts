import { describe, expect, test } from 'vitest';
import { judgeDepth } from '../../../services/core/keeping/buried-depth.js';
import { expectedSwing } from '../../../services/core/keeping/filling.js';
import { type DaySwing, daySwing } from '../../../services/core/keeping/filling-swing.js';
import { judgedInWords } from '../../../services/core/keeping/filling-words.js';
import { loadScenario, simulateDaysWithTruth } from '../../../simulator/index.js';
import { scattered, wave } from './daily-waves.js';

const PIT = { kind: 'stepped-pit', steps: [{ length: 150, width: 60, height: 75 }] } as const;
const BOX = { kind: 'box', steps: [{ length: 100, width: 50, height: 75 }] } as const;
type Bed = typeof PIT | typeof BOX;

const at = (depth: number) => ({ x: 50, y: 25, depth });
const outside = daySwing(scattered(wave(8, 14), 0.3));

/** As a probe at a depth would see it, with some scatter. */
function seenAt(depth: number, bed: Bed = PIT, by_C = 0.02): DaySwing {
  const { share, lag_h } = expectedSwing(bed, at(depth));
  return daySwing(scattered(wave(8 * share.likely, 14 + lag_h.likely), by_C));
}
const judged = (said_cm: number, probe: DaySwing, air = outside, bed: Bed = PIT) =>
  judgeDepth(bed, at(said_cm), air, probe);

describe('the verdict', () => {
  test.each([2, 5, 10, 15, 20])('at %d cm as planned, and that deep', (depth) => {
    const { verdict, lies } = judged(depth, seenAt(depth));
    expect(verdict).toBe('as planned');
    expect(Math.abs((lies?.likely ?? 99) - depth)).toBeLessThan(1.5);
    expect(lies?.low).toBeLessThanOrEqual(depth);
    expect(lies?.high).toBeGreaterThanOrEqual(depth);
  });

  test('5 cm where 20 were planned is shallower, by how much is said; 20 where 5 were is deeper', () => {
    const shallower = judged(20, seenAt(5));
    expect(shallower.verdict).toBe('shallower');
    expect(judgedInWords('p01', shallower, true)).toMatch(
      /^p01 lies shallower than said, about 5 cm by the day's swing \(from 0 to 1\d cm deep\): look whether/,
    );
    expect(judged(5, seenAt(20)).verdict).toBe('deeper');
  });

  test('a bare probe is shallower whatever was planned, but for the top, and lies at 0 cm', () => {
    for (const said_cm of [15, 20, 30, 50]) {
      const { verdict, lies } = judged(said_cm, outside);
      expect([verdict, lies]).toEqual(['shallower', { low: 0, likely: 0, high: expect.any(Number) }]);
      expect(lies?.high).toBeLessThan(5);
    }
  });

  test('where so little arrives that nothing can be measured, how deep it lies at least is said', () => {
    const still = daySwing(scattered(wave(0, 0), 0.05));
    const deep = judged(40, still);
    expect(deep.verdict).toBe('cannot tell');
    expect(deep.because).toMatch(/too small to be measured; so it lies at least 1\d cm deep$/);
    expect(deep.lies?.low).toBeGreaterThan(10);
    expect(deep.lies).toMatchObject({ likely: null, high: null });
    const shallow = judged(5, still);
    expect(shallow).toMatchObject({ verdict: 'deeper', share: null, lag_h: null });
    expect(shallow.because).toMatch(/^at most .* % of the swing outside arrives; at 5 cm at least/);
  });

  test('nothing under a still sky, or one that is no wave', () => {
    for (const air of [daySwing(wave(1.4, 14)), daySwing(scattered(wave(2, 14), 4))])
      expect(judged(10, seenAt(10), air)).toMatchObject({ verdict: 'cannot tell', lies: null });
  });

  test('says what it saw, and the lag of more than a day where that fits', () => {
    const { share, lag_h, because } = judged(10, seenAt(10));
    expect(share).toBeCloseTo(expectedSwing(PIT, at(10)).share.likely, 1);
    expect(because).toMatch(
      /^\d+ % of the swing outside came [\d.]+ h later; at 10 cm [\d.]+ % to [\d.]+ % and/,
    );
    expect(Math.abs((lag_h ?? 0) - expectedSwing(PIT, at(10)).lag_h.likely)).toBeLessThan(1);
    const probe = { ...outside, amplitude_C: 1, latest_h: (outside.latest_h + 3) % 24 };
    expect(judged(50, probe, { ...outside, amplitude_C: 2000 }).lag_h).toBeCloseTo(27, 9);
  });

  test('between the walls of a box the day comes from the side: it cannot be told', () => {
    const { verdict, because, lies } = judged(50, seenAt(50, BOX, 0.002), outside, BOX);
    expect(verdict).toBe('cannot tell');
    expect(because).toMatch(/^between the walls of a box a probe shows the same from \d+ to \d+ cm deep: /);
    expect(lies?.low).toBeLessThan(25);
    expect(judged(40, outside, outside, BOX).verdict).toBe('shallower');
  });

  test.each([
    [true, /^p01 cannot be told: /],
    [false, /^p01 cannot be told yet: /],
  ])('while readings still come (over: %s) it is not told yet', (isOver, words) => {
    expect(judgedInWords('p01', judged(10, seenAt(10), daySwing(wave(1, 14))), isOver)).toMatch(words);
  });
});

describe('probes of simulated beds that lie where they are said to lie', () => {
  /** Hourly means of three days of each probe, and of the shade. */
  function meansOf(scenario: ReturnType<typeof loadScenario>, part: string) {
    const sums = new Map<string, number[][]>();
    for (const { sent } of simulateDaysWithTruth({ ...scenario, days: 3 }, part, 1))
      for (const { probe, readings } of sent)
        for (const { time_s, temperature_C } of readings) {
          const byHour = sums.get(probe) ?? Array.from({ length: 72 }, () => []);
          sums.set(probe, byHour);
          byHour[Math.ceil(time_s / 3600) - 1]?.push(temperature_C);
        }
    const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    return new Map([...sums].map(([probe, byHour]) => [probe, byHour.map(mean)]));
  }

  test.each([
    ['sound-box', 0],
    ['sound-pit', 2],
  ])('%s: none is told to lie elsewhere, after a day or two, and %d as deep as said', (name, right) => {
    const scenario = loadScenario(name);
    const [air = []] = meansOf(scenario, 'shade').values();
    const [bed] = scenario.beds;
    const means = meansOf(scenario, bed?.id ?? '');
    const verdictsAfter = (hours: number) =>
      (bed?.probes ?? []).map(({ id, ...place }) => {
        const [outside, probe] = [air, means.get(id) ?? []].map((all) => daySwing(all.slice(1, hours + 1)));
        return bed && outside && probe && judgeDepth(bed, place, outside, probe).verdict;
      });
    for (const hours of [26, 36, 48])
      expect(verdictsAfter(hours).filter((verdict) => /er$/.test(verdict ?? 'other'))).toEqual([]);
    expect(verdictsAfter(48).filter((verdict) => verdict === 'as planned')).toHaveLength(right);
  });
});
