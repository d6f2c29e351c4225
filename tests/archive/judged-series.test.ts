import { expect, test } from 'vitest';
import { HOUR_ms } from '../../services/core/model/time.js';
import { openStores } from '../support/open.js';
import { seeded } from '../support/season.js';

const FROM = Date.UTC(2026, 4, 4);
const HOURS = 1_000;
const SPAN = { from: FROM + HOUR_ms / 2, to: FROM + HOURS * HOUR_ms };
const ALL = { first: FROM, last: SPAN.to };

/** Coarse, so that many are alike; a stretch without any excess. */
function judged(seed: number) {
  const random = seeded(seed);
  const { archive, database } = openStores();
  const hours = Array.from({ length: HOURS }, (_, at) => ({
    hour: FROM + at * HOUR_ms,
    expected: at,
    band: random() < 0.1 ? null : 0.5,
    excess: random() < 0.2 || (at > 300 && at < 400) ? null : Math.round(random() * 20) / 10,
  }));
  database.transaction(() => {
    for (const hour of hours) archive.judged.put(1, hour);
  })();
  return { hours, series: archive.judgedSeries };
}

type Hour = ReturnType<typeof judged>['hours'][number];

function oneByOne(hours: readonly Hour[], most: number): Hour[] {
  const parts = Math.floor(most / 2);
  const width = (SPAN.to - SPAN.from) / parts;
  const partOf = ({ hour }: Hour): number => Math.floor(Math.max(0, hour - SPAN.from) / width);
  return Array.from({ length: parts }, (_, part) => hours.filter((hour) => partOf(hour) === part)).flatMap(
    (all) => {
      const known = all.flatMap(({ excess }) => (excess === null ? [] : [excess]));
      if (known.length === 0) return all.slice(0, 1);
      const extremes = [Math.min(...known), Math.max(...known)];
      const kept = extremes.flatMap((extreme) => all.find(({ excess }) => excess === extreme) ?? []);
      return [...new Set(kept)].sort((one, other) => one.hour - other.hour);
    },
  );
}

test.each([1, 2, 3])('few hours of many are those found by looking at every one, seed %i', (seed) => {
  const { hours, series } = judged(seed);
  for (const most of [10, 99, 400]) expect(series.read(1, ALL, SPAN, most)).toEqual(oneByOne(hours, most));
});

test('all are given where they just fit, first and last included', () => {
  const { hours, series } = judged(4);
  expect(series.read(1, ALL, SPAN, HOURS)).toEqual(hours);
  expect(series.read(1, { first: FROM + HOUR_ms, last: FROM + 2 * HOUR_ms }, SPAN, 10)).toEqual(
    hours.slice(1, 3),
  );
});

test('what was expected is found by the hour of each time, and not beyond the hours asked for', () => {
  const { series } = judged(5);
  const [within, beyond] = [FROM + 7.5 * HOUR_ms, FROM + 9 * HOUR_ms];
  const found = series.at(1, { first: FROM, last: FROM + 8 * HOUR_ms }, [within, within, beyond]);
  expect(found.map((hour) => hour?.expected)).toEqual([7, 7, undefined]);
});
