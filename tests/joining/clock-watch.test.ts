/** The wall clock set forward and back beside a clock that only goes forward. */
import { describe, expect, test } from 'vitest';
import { DAY_ms, HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { ClockWatch } from '../../services/joining/clock-watch.js';

const START = Date.UTC(2026, 5, 1, 10);

function watched() {
  let [wall, steady] = [START, 1000.25];
  const watch = new ClockWatch({ now: () => Math.floor(wall), steady: () => steady });
  return {
    watch,
    now: () => wall,
    pass: (time_ms: number) => {
      wall += time_ms;
      steady += time_ms;
    },
    set: (by_ms: number) => {
      wall += by_ms;
    },
  };
}

describe('a clock', () => {
  test('that goes on, and is trimmed by seconds, is no news', () => {
    const { watch, pass, set } = watched();
    for (let second = 0; second < 200; second += 1) {
      pass(1000);
      set(second % 2 ? 20_000 : -20_000);
      expect(watch.untaken_ms()).toBe(0);
    }
    expect(watch.problems()).toEqual([]);
    expect(watch.behind_ms()).toBe(0);
  });

  test('that is set says so for a day, and how far', () => {
    const { watch, pass, set } = watched();
    pass(HOUR_ms);
    set(3 * HOUR_ms);
    expect(watch.problems()).toEqual([
      expect.stringMatching(
        /^the clock of this machine was set forward by 3 hours, from 2026-06-01T11:00:\S+ to 2026-06-01T14:00/,
      ),
    ]);
    expect(watch.untaken_ms()).toBe(3 * HOUR_ms);
    watch.taken(3 * HOUR_ms);
    expect(watch.untaken_ms()).toBe(0);
    set(-5 * DAY_ms);
    expect(watch.problems()[1]).toContain('set back by 5 days');
    pass(DAY_ms);
    expect(watch.problems()).toEqual([]);
    expect(watch.untaken_ms()).toBe(-5 * DAY_ms);
  });

  test('that was set back may be behind by that, until it is set forward again', () => {
    const { watch, set } = watched();
    set(-DAY_ms);
    expect(watch.behind_ms()).toBe(DAY_ms);
    set(DAY_ms);
    expect(watch.behind_ms()).toBe(0);
    set(2 * DAY_ms);
    expect(watch.behind_ms()).toBe(0);
  });
});

describe('what was written down', () => {
  const settings = [3 * HOUR_ms, -3 * HOUR_ms, 20 * DAY_ms, -20 * DAY_ms, 70 * MINUTE_ms, -26 * HOUR_ms];
  test.each(settings)(
    'is as long ago as it was, whether before or after the clock was set by %d ms',
    (by) => {
      const { watch, now, pass, set } = watched();
      pass(10 * MINUTE_ms);
      const before = now();
      pass(5 * MINUTE_ms);
      set(by);
      watch.look();
      const after = now();
      expect(now() - watch.counted(before)).toBe(5 * MINUTE_ms);
      pass(7 * MINUTE_ms);
      expect(now() - watch.counted(before)).toBe(12 * MINUTE_ms);
      expect(now() - watch.counted(after)).toBe(7 * MINUTE_ms);
    },
  );

  test('is so over several settings', () => {
    const { watch, now, pass, set } = watched();
    const times: [number, number][] = [];
    let passed = 0;
    for (const by of settings) {
      times.push([now(), passed]);
      pass(11 * MINUTE_ms);
      passed += 11 * MINUTE_ms;
      set(by);
      watch.look();
    }
    for (const [time, at] of times) expect(now() - watch.counted(time)).toBe(passed - at);
  });

  test('before the start stands, and counts from the start where it would be to come', () => {
    const { watch, now, pass, set } = watched();
    expect(watch.counted(START - HOUR_ms)).toBe(START - HOUR_ms);
    expect(watch.counted(START + HOUR_ms)).toBeCloseTo(START);
    pass(5 * MINUTE_ms);
    set(-2 * DAY_ms);
    expect(now() - watch.counted(START - HOUR_ms)).toBeCloseTo(5 * MINUTE_ms);
  });
});
