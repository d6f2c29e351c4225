/** What plots are drawn from: columns, ranges, and marks that do not lie on one another. */
import { describe, expect, test } from 'vitest';
import type { MeasuredAnswer } from '../../../services/web/api/types/series.js';
import { clusters } from '../../../services/web/bed/series/clusters.js';
import { columnsOf, placeOf } from '../../../services/web/bed/series/columns.js';
import { rangeOf } from '../../../services/web/bed/series/range.js';

const HOUR_ms = 3_600_000;
const START = Date.UTC(2026, 5, 1);
const at = (hours: number): string => new Date(START + hours * HOUR_ms).toISOString();

const answer = (change: Partial<MeasuredAnswer> = {}): MeasuredAnswer => ({
  ...{ probe: 'p01', time: [at(0), at(1), at(2)], temperature_C: [20, 85, null] },
  ...{ temperatureUncertainty_C: [null, 0.2, 0.2], temperatureDoubt: [null, null, 'outside'] },
  ...{ humidity_RH: [80, 81, 82], humidityUncertainty_RH: [null, null, null] },
  flagged: [{ at: at(1), quantity: 'temperature', reason: 'sensor-code', value: 85 }],
  thinned: false,
  hours: { time: [at(0)], expected_C: [19.5], band_C: [0.5], excess_C: [null] },
  ...change,
});

describe('columns', () => {
  const columns = columnsOf(answer());

  test('have no value where none was measured, and none that is not used', () => {
    expect([...columns.temperature]).toEqual([20, Number.NaN, Number.NaN]);
    expect([...columns.humidity]).toEqual([80, 81, 82]);
    expect(columns.flagged).toMatchObject([{ at: START + HOUR_ms, value: 85 }]);
  });

  test('have hours at their middle', () => {
    expect([...columns.hours.time]).toEqual([START + HOUR_ms / 2]);
    expect([...columns.hours.excess]).toEqual([Number.NaN]);
  });

  test('of the shade have no hours', () => {
    const { hours: _, ...shade } = answer();
    expect(columnsOf(shade).hours.time).toHaveLength(0);
  });

  test('take a silence for a gap by what is usual between their readings', () => {
    const time = Array.from({ length: 50 }, (_, index) => at(12 * index));
    const filled = Array(50).fill(20);
    const sparse = columnsOf(
      answer({ time, temperature_C: filled, humidity_RH: filled, flagged: [], thinned: true }),
    );
    expect(sparse.gap_ms).toBe(36 * HOUR_ms);
    expect(columns.gap_ms).toBe(3 * HOUR_ms);
  });

  test('are found by time', () => {
    expect([-1, 0, 0.5, 2, 9].map((hours) => placeOf(columns.time, START + hours * HOUR_ms))).toEqual([
      0, 0, 1, 2, 3,
    ]);
  });
});

describe('a range', () => {
  const usual = { least: 18, greatest: 22 };
  const clip = { from: START, to: START + 3 * HOUR_ms };
  const time = Float64Array.of(START, START + HOUR_ms, START + 2 * HOUR_ms);

  test('holds all values and bands in whole steps', () => {
    const value = Float64Array.of(14.2, Number.NaN, 23.1);
    const half = Float64Array.of(0.3, 9, 0.1);
    expect(rangeOf([{ time, value, half, clip }], 0.5, usual)).toEqual({ least: 13.5, greatest: 23.5 });
  });

  test('of still sand is not drawn larger than it is', () => {
    const value = Float64Array.of(20.1, 20.2, 20.1);
    const { least, greatest } = rangeOf([{ time, value, clip }], 0.5, usual);
    expect(greatest - least).toBeGreaterThanOrEqual(4);
    expect(least).toBeLessThan(20.1);
    expect(greatest).toBeGreaterThan(20.2);
  });

  test('of nothing is the usual one', () => {
    const value = Float64Array.of(Number.NaN, Number.NaN, Number.NaN);
    expect(rangeOf([{ time, value, clip }], 0.5, usual)).toEqual(usual);
    expect(rangeOf([], 0.5, usual)).toEqual(usual);
  });
});

describe('marks of events', () => {
  const placed = (...places: number[]) =>
    places.map((x) => ({ event: { id: String(x), at: at(x), kind: 'filling', text: '', about: {} }, x }));
  const joined = (...places: number[]) =>
    clusters(placed(...places), { width: 300, mark: 44 }).map(({ events }) => events.map(({ id }) => id));

  test('that would lie on one another are one, the newest first', () => {
    expect(joined(10, 30, 200, 220, 290)).toEqual([['30', '10'], ['220', '200'], ['290']]);
    expect(joined(30, 90, 150)).toEqual([['30'], ['90'], ['150']]);
  });

  test('beyond the line are left out', () => {
    expect(joined(-1, 301)).toEqual([]);
  });

  test('never overlap and stay within the line', () => {
    const places = Array.from({ length: 80 }, (_, index) => (index * 37) % 301);
    const marks = clusters(placed(...places), { width: 300, mark: 44 });
    marks.forEach(({ left, room }, index) => {
      expect(left).toBeGreaterThanOrEqual(0);
      expect(left).toBeLessThanOrEqual(300 - 44);
      const next = marks[index + 1];
      if (next) expect(next.left - left).toBeGreaterThanOrEqual(44);
      expect(room).toBeGreaterThanOrEqual(44);
    });
    expect(marks.flatMap(({ events }) => events)).toHaveLength(80);
  });
});
