import { describe, expect, test } from 'vitest';
import { newId } from '../../services/web/api/new-id.js';
import { fromLocalText, localText } from '../../services/web/words/local-time.js';

const at = Date.parse('2026-05-04T08:00:00Z');

describe('a time that is typed by the clock of the site', () => {
  test.each([
    ['Africa/Lusaka', '2026-05-04T10:00'],
    ['Asia/Kathmandu', '2026-05-04T13:45'],
    ['America/St_Johns', '2026-05-04T05:30'],
    ['UTC', '2026-05-04T08:00'],
  ])('is read and written in the zone %s', (zone, text) => {
    expect(localText(at, zone)).toBe(text);
    expect(fromLocalText(text, zone)).toBe(at);
  });

  test('keeps its clock time across a change of clocks', () => {
    // Berlin: 2026-03-29, 02:00 becomes 03:00.
    for (const utc of ['2026-03-29T00:30:00Z', '2026-03-29T01:30:00Z', '2026-10-25T02:30:00Z']) {
      const time = Date.parse(utc);
      expect(fromLocalText(localText(time, 'Europe/Berlin'), 'Europe/Berlin')).toBe(time);
    }
    expect(localText(Date.parse('2026-03-29T01:30:00Z'), 'Europe/Berlin')).toBe('2026-03-29T03:30');
  });

  test.each(['', 'today', '2026-05-04', '04.05.2026 10:00'])('is none where it is %j', (text) => {
    expect(fromLocalText(text, 'UTC')).toBeNaN();
  });
});

test('an id of a record is a UUID that nobody else has', () => {
  const ids = Array.from({ length: 100 }, newId);
  for (const id of ids)
    expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  expect(new Set(ids).size).toBe(100);
});
