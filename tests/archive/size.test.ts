/** How many bytes readings take, one by one and by hours: DEVELOPERS.md says the same. */
import { expect, test } from 'vitest';
import { DAY_ms, HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { openStores } from '../support/open.js';

const START = Date.UTC(2026, 4, 4);
const DAYS = 30;
const PROBES = [1, 2, 3, 4, 5, 6];

/** Bytes on disk of a reading with temperature and humidity, and of an hour of six of them, at the most. */
const MOST_A_READING = 45;
const MOST_AN_HOUR = 120;
const MOST_JUDGED = 60;

/** Beds' readings come in turns, as they do in life: pages of a table fill less well than in order. */
function filled() {
  const { database, archive } = openStores();
  database.transaction(() => {
    for (let time = START + 1_234; time < START + DAYS * DAY_ms; time += 10 * MINUTE_ms)
      for (const probe of PROBES)
        archive.readings.put(probe, time + 977 * probe, { temperature: 20.0625, humidity: 81.7 });
  })();
  const bytes = database.prepare('SELECT coalesce(sum(pgsize), 0) FROM dbstat WHERE name = ?').pluck();
  const rows = (table: string): number =>
    database.prepare(`SELECT count(*) FROM ${table}`).pluck().get() as number;
  const bytesEach = (table: string): number => (bytes.get(table) as number) / rows(table);
  const fold = database.transaction(() => {
    for (const probe of PROBES) {
      archive.fullRate.set(probe, { since: 0, goal: START + DAYS * DAY_ms, foldedTo: 0 });
      while (archive.folding.waits(probe)) archive.folding.step(probe);
    }
  });
  return { database, archive, bytesEach, rows, fold };
}

test('a reading and an hour take no more than is said', () => {
  const { bytesEach, rows, fold } = filled();
  const reading = bytesEach('reading');
  expect(reading).toBeLessThan(MOST_A_READING);
  expect(reading).toBeGreaterThan(MOST_A_READING / 2);
  fold();
  expect(rows('reading')).toBe(0);
  const hour = bytesEach('reading_hour');
  expect(hour).toBeLessThan(MOST_AN_HOUR);
  expect(hour).toBeGreaterThan(MOST_AN_HOUR / 2);
  expect(hour).toBeLessThan(6 * reading);
});

test('what the watch made of an hour stays, in no more than is said', () => {
  const { database, archive, bytesEach } = filled();
  database.transaction(() => {
    for (let hour = START; hour < START + DAYS * DAY_ms; hour += HOUR_ms)
      for (const probe of PROBES)
        archive.judged.put(probe, { hour, expected: 20.1234, band: 0.4321, excess: -0.0123 });
  })();
  expect(bytesEach('judged_hour')).toBeLessThan(MOST_JUDGED);
});

test('the place that readings leave is used again, so that the file grows no more', () => {
  const { database, archive, fold } = filled();
  fold();
  const pages = () => database.pragma('page_count', { simple: true }) as number;
  const before = pages();
  expect(database.pragma('freelist_count', { simple: true })).toBeGreaterThan(before / 3);
  database.transaction(() => {
    for (let time = START + DAYS * DAY_ms; time < START + 1.5 * DAYS * DAY_ms; time += 10 * MINUTE_ms)
      for (const probe of PROBES) archive.readings.put(probe, time, { temperature: 20.0625, humidity: 81.7 });
  })();
  expect(pages()).toBe(before);
});
