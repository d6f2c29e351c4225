import { describe, expect, test } from 'vitest';
import { HOUR_ms } from '../../../services/core/model/time.js';
import {
  lookedAfter,
  newSandState,
  type SandState,
  takeSandHour,
} from '../../../services/core/watch/out-of-sand.js';

const START = Date.UTC(2026, 4, 4);
const air = (hour: number): number => 24 + 6 * Math.sin((2 * Math.PI * hour) / 24);
/** Sand that lets a fifth of the day through, four hours late. */
const sand = (hour: number): number => 24 + 1.2 * Math.sin((2 * Math.PI * (hour - 4)) / 24);

/** Hours of one probe; what was told at the end of each. */
function run(hours: number, at: (hour: number) => number, shade: (hour: number) => number | undefined = air) {
  const state = newSandState();
  return Array.from({ length: hours }, (_, hour) => told(state, hour, at(hour), shade(hour)));
}

const told = (state: SandState, hour: number, mean: number, shade_C: number | undefined): boolean =>
  takeSandHour(state, { hour: START + hour * HOUR_ms, means: new Map([['p01', mean]]), shade_C }).has('p01');

describe('a probe', () => {
  test('that lies in sand is let be, day after day', () => {
    expect(run(30 * 24, sand)).not.toContain(true);
  });

  test('that comes to lie in the air is told within two days, and no more once it is back', () => {
    const out = run(20 * 24, (hour) => (hour >= 250 && hour < 340 ? air(hour) : sand(hour)));
    const first = out.indexOf(true);
    expect(first).toBeGreaterThan(250);
    expect(first).toBeLessThanOrEqual(250 + 48);
    expect(out.slice(first, 340)).not.toContain(false);
    expect(out.slice(340 + 48)).not.toContain(true);
  });

  test('that comes to lie in the air of a hut is told too: nearly all of the day, two hours late', () => {
    const hut = (hour: number): number => 24 + 5.2 * Math.sin((2 * Math.PI * (hour - 2)) / 24);
    const out = run(20 * 24, (hour) => (hour >= 250 && hour < 340 ? hut(hour) : sand(hour)));
    expect(out.indexOf(true)).toBeGreaterThan(250);
    expect(out.indexOf(true)).toBeLessThanOrEqual(250 + 48);
  });

  test('that a heap of warm sand comes to is not, however large the step', () => {
    expect(
      run(20 * 24, (hour) => sand(hour) + (hour > 250 ? 9 * Math.exp((250 - hour) / 60) : 0)),
    ).not.toContain(true);
  });

  test('that always lay shallow is not: what is usual for it counts', () => {
    const shallow = (hour: number): number => 24 + 3.6 * Math.sin((2 * Math.PI * (hour - 1)) / 24);
    expect(run(20 * 24, shallow)).not.toContain(true);
  });

  test('is not judged by a shade that is missing or hardly moves', () => {
    const moves = (hour: number): number => (hour >= 250 ? air(hour) : sand(hour));
    expect(run(20 * 24, moves, () => undefined)).not.toContain(true);
    expect(run(20 * 24, moves, (hour) => 24 + (air(hour) - 24) / 8)).not.toContain(true);
  });
});

test('a bed that lies open for a day pulls out none of its probes; two that stay out are told the day after', () => {
  const daysOut = (days: number): boolean[] => {
    const state = newSandState();
    return Array.from({ length: 20 * 24 }, (_, hour) => {
      const mean = hour >= 240 && hour < 240 + days * 24 ? air(hour) : sand(hour);
      const means = new Map(['p01', 'p02'].map((id) => [id, mean] as const));
      return takeSandHour(state, { hour: START + hour * HOUR_ms, means, shade_C: air(hour) }).size > 0;
    });
  };
  expect(daysOut(1)).not.toContain(true);
  expect(daysOut(2).indexOf(true)).toBe(288);
});

test('of a day in which somebody looked nothing is said', () => {
  const state = newSandState();
  const at = (hour: number): number => (hour >= 250 && hour < 262 ? air(hour) : sand(hour));
  for (let hour = 0; hour < 300; hour += 1) {
    if (hour === 250) lookedAfter(state);
    expect(told(state, hour, at(hour), air(hour))).toBe(false);
  }
});

test('whoever looks ends it, until another day shows it again', () => {
  const state = newSandState();
  const at = (hour: number): number => (hour >= 240 ? air(hour) : sand(hour));
  for (let hour = 0; hour < 270; hour += 1) told(state, hour, at(hour), air(hour));
  expect(told(state, 270, at(270), air(270))).toBe(true);
  lookedAfter(state);
  expect(told(state, 271, at(271), air(271))).toBe(false);
  for (let hour = 272; hour < 312; hour += 1) expect(told(state, hour, at(hour), air(hour))).toBe(false);
  expect(told(state, 312, at(312), air(312))).toBe(true);
});
