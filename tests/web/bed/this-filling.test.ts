import { afterAll, describe, expect, test, vi } from 'vitest';
import type { Probe } from '../../../services/web/api/types/bed.js';
import { seasonOf } from '../../../services/web/bed/cursor.js';
import { inThisFilling, isFilledAnew, noSeasonSaid } from '../../../services/web/bed/this-filling.js';

vi.stubGlobal('navigator', { languages: ['en-GB'] });
afterAll(() => vi.unstubAllGlobals());

const DAY_ms = 24 * 3_600_000;
const FILLED = '2026-06-10T08:00:30Z';

const probe = (id: string, at: string | null): Probe => ({
  ...{ id, model: null, x: 1, y: 1, depth: 1, online: null },
  latest: at === null ? null : { at, temperature_C: 21 },
  ...{ expected_C: 20, band_C: 0.3, excess_C: 1 },
});

const bed = (filled: string | null, ...times: (string | null)[]) => ({
  filled,
  probes: times.map((at, index) => probe(`p${index}`, at)),
});

describe('a bed that was filled anew', () => {
  const before = bed(FILLED, '2026-06-10T07:50:00Z', null);

  test('has no season and no reading until one of this filling is there', () => {
    expect(seasonOf(before)).toBeUndefined();
    expect(isFilledAnew(before)).toBe(true);
    expect(noSeasonSaid(before)).toMatch(/^No reading since the bed was filled on .*10.* yet\.$/);
    const [own] = inThisFilling(before).probes;
    expect(own).toMatchObject({ id: 'p0', latest: null, expected_C: null, excess_C: null, band_C: null });
  });

  test('begins its season with the filling, and shows only the probes that spoke since', () => {
    const now = bed(FILLED, '2026-06-10T07:50:00Z', '2026-06-10T08:20:00Z');
    expect(seasonOf(now)).toEqual({ from: Date.parse(FILLED), to: Date.parse('2026-06-10T08:20:00Z') + 1 });
    expect(isFilledAnew(now)).toBe(false);
    expect(inThisFilling(now).probes.map(({ latest }) => latest?.at)).toEqual([
      undefined,
      '2026-06-10T08:20:00Z',
    ]);
  });
});

test('a reading of the moment of the filling is of it; of a bed that never was filled all count', () => {
  expect(isFilledAnew(bed(FILLED, FILLED))).toBe(false);
  const never = bed(null, '2026-06-10T07:50:00Z');
  expect(inThisFilling(never)).toEqual(never);
  expect(seasonOf(never)?.from).toBe(Date.parse('2026-06-10T07:50:00Z') - 42 * DAY_ms);
});

test('a bed whose probes have said nothing at all says so', () => {
  expect(isFilledAnew(bed(FILLED, null))).toBe(false);
  expect(noSeasonSaid(bed(FILLED, null))).toBe('No probe of this bed has measured anything yet.');
});
