import { describe, expect, test } from 'vitest';
import { DAY_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { openStores } from '../support/open.js';
import { seeded } from '../support/season.js';

const FROM = Date.UTC(2026, 4, 4);
const STEP_ms = 10 * MINUTE_ms;
const READINGS = 2_000;
const TO = FROM + READINGS * STEP_ms;

interface Row {
  readonly time: number;
  readonly temperature: number | null;
  readonly humidity: number | null;
}

interface Unused {
  readonly temperature: ReadonlySet<number>;
  readonly humidity: ReadonlySet<number>;
}

const NONE: Unused = { temperature: new Set(), humidity: new Set() };

/** Coarse values, so that many are alike; some absent. */
function rowsOf(seed: number, { humid = true } = {}): Row[] {
  const random = seeded(seed);
  return Array.from({ length: READINGS }, (_, at) => ({
    time: FROM + at * STEP_ms,
    temperature: random() < 0.1 ? null : 20 + Math.round(random() * 20) / 10,
    humidity: !humid || random() < 0.2 ? null : 80 + Math.round(random() * 10),
  }));
}

/** The first row with each extreme of each part, found one by one. */
function oneByOne(rows: readonly Row[], points: number, unused: Unused, columns = 2): Row[] {
  const width = Math.ceil((TO - FROM) / Math.floor(points / (2 * columns)));
  return Array.from({ length: Math.ceil((TO - FROM) / width) }, (_, part) =>
    rows.filter(({ time }) => Math.floor((time - FROM) / width) === part),
  ).flatMap((all) => {
    const part = all.map((row) => ({
      time: row.time,
      temperature: unused.temperature.has(row.time) ? null : row.temperature,
      humidity: unused.humidity.has(row.time) ? null : row.humidity,
    }));
    const kept = (['temperature', 'humidity'] as const).flatMap((quantity) => {
      const known = part.flatMap(({ [quantity]: value }) => (value === null ? [] : [value]));
      return [Math.min(...known), Math.max(...known)].flatMap(
        (extreme) => part.find(({ [quantity]: value }) => value === extreme) ?? [],
      );
    });
    return [...new Set(kept)].sort((one, other) => one.time - other.time);
  });
}

function stored(rows: readonly Row[]) {
  const { archive, database } = openStores();
  database.transaction(() => {
    for (const { time, temperature, humidity } of rows)
      archive.readings.put(1, time, {
        battery: 3,
        ...(temperature !== null && { temperature }),
        ...(humidity !== null && { humidity }),
      });
  })();
  return archive.series;
}

describe('a long series in a few points', () => {
  test.each([1, 2, 3])('is what is found by looking at every reading, seed %i', (seed) => {
    const rows = rowsOf(seed);
    const series = stored(rows);
    for (const points of [10, 100, 399])
      expect(series.read(1, FROM, TO, points)).toEqual({
        rows: oneByOne(rows, points, NONE),
        thinned: true,
      });
  });

  test('leaves out what is not used, and nothing else of its part', () => {
    const rows = rowsOf(4);
    const warm = rows.filter(({ temperature }) => temperature === 22).slice(0, 30);
    const unused = {
      temperature: new Set(warm.map(({ time }) => time)),
      humidity: new Set([rows[7]?.time ?? 0, FROM - DAY_ms, TO]),
    };
    const { rows: kept } = stored(rows).read(1, FROM, TO, 100, unused);
    expect(kept).toEqual(oneByOne(rows, 100, unused));
    expect(kept).not.toEqual(oneByOne(rows, 100, NONE));
  });

  test('of one quantity gives it all the points', () => {
    const rows = rowsOf(5, { humid: false });
    expect(stored(rows).read(1, FROM, TO, 100).rows).toEqual(oneByOne(rows, 100, NONE, 1));
  });

  test('of neither quantity gives no rows, and soon', () => {
    const rows = rowsOf(6).map(({ time }) => ({ time, temperature: null, humidity: null }));
    expect(stored(rows).read(1, FROM, TO, 100)).toEqual({ rows: [], thinned: true });
  });

  test('is given whole where it just fits', () => {
    const rows = rowsOf(7);
    const series = stored(rows);
    expect(series.read(1, FROM, TO, READINGS)).toEqual({ rows, thinned: false });
    expect(series.read(1, FROM, TO, READINGS - 1).thinned).toBe(true);
  });
});
