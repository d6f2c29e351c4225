/** Series that reach back beyond what is kept one by one. The long archive stands in another file of the same kind. */
import { describe, expect, test } from 'vitest';
import { HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { CoverageDesk } from '../../services/joining/coverage-desk.js';
import type { OlderReader } from '../../services/joining/older-series.js';
import { createViews } from '../../services/joining/views.js';
import { openStores } from '../support/open.js';
import { makeSeason, SHORT_SEASON } from '../support/season.js';
import { NOW, openStation } from '../support/station.js';

const START = SHORT_SEASON.startAt;

/** Until then nothing is kept one by one. */
const SINCE = START + 48 * HOUR_ms;
const ALL = { from: START, to: START + 96 * HOUR_ms, points: 5000 };

function aStation() {
  const station = openStation();
  station.load(makeSeason().site);
  station.station.refresh();
  const known = [...(station.station.directory.beds.get('pit-t')?.probes ?? [])];
  const [first] = known;
  if (!first) throw new Error('expected a probe');
  const other = openStores();
  const put = (to: typeof other.archive, key: number, from: number, until: number, value: number): void => {
    for (let time = from; time < until; time += 10 * MINUTE_ms)
      to.readings.put(key, time, { temperature: value });
  };
  const otherKey = other.archive.keys.keyOf(first.site, first.probe.id);
  put(station.archive, first.key, SINCE, ALL.to, 20);
  station.archive.fullRate.set(first.key, { since: SINCE, goal: SINCE, foldedTo: SINCE });
  const reader: OlderReader = {
    series: async (site, probe, { from, to }, points, unused) =>
      other.archive.series.read(other.archive.keys.keyOf(site, probe), from, to, points, unused),
  };
  return {
    probe: first.probe.id,
    fill: (from: number, until = SINCE) => put(other.archive, otherKey, from, until, 10),
    /** Of the probe, with the note. */
    ask: async (query = ALL, by: OlderReader | undefined = reader) => {
      const views = createViews(station.station, new CoverageDesk(), () => NOW, by);
      const older = await views.older('pit-t', query);
      const series = views.series('pit-t', query, older).find(({ probe }) => probe === first.probe.id);
      return { note: older.note, series };
    },
  };
}

describe('older readings', () => {
  test('come from the long archive, joined with what is kept one by one, each time once', async () => {
    const { fill, ask } = aStation();
    fill(START);
    const { note, series } = await ask();
    expect(note).toBeNull();
    expect(series?.readFrom).toEqual(['long-archive', 'full-rate']);
    expect(series?.time).toEqual(Array.from({ length: 96 * 6 }, (_, at) => START + at * 10 * MINUTE_ms));
    expect(series?.temperature_C.map((value) => value === 10).lastIndexOf(true)).toBe(48 * 6 - 1);
  });

  test('are not asked for where all is kept one by one', async () => {
    const asked: OlderReader = { series: () => Promise.reject(new Error('asked')) };
    const { ask } = aStation();
    const { note, series } = await ask({ ...ALL, from: SINCE }, asked);
    expect([note, series?.readFrom]).toEqual([null, ['full-rate']]);
  });

  test('are given by hours, with a note, where the server does not answer', async () => {
    const { ask } = aStation();
    const { note, series } = await ask(ALL, {
      series: () => Promise.reject(new Error('connect ECONNREFUSED')),
    });
    expect(note).toBe(
      'the long archive does not answer (connect ECONNREFUSED): older readings are given by hours',
    );
    expect(series?.readFrom).toEqual(['hours', 'full-rate']);
    expect(series?.time[0]).toBe(SINCE);
  });

  test('keep to the points that were asked for', async () => {
    const { fill, ask } = aStation();
    fill(START);
    const { series } = await ask({ ...ALL, points: 40 });
    expect(series?.time.length).toBeLessThanOrEqual(40);
    expect(series?.thinned).toBe(true);
    expect(series?.readFrom).toEqual(['long-archive', 'full-rate']);
  });
});
