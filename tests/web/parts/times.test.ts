import { afterAll, describe, expect, test, vi } from 'vitest';
import { notBefore } from '../../../services/web/parts/time-field.js';
import { ago, isLongAgo } from '../../../services/web/words/times.js';

vi.stubGlobal('navigator', { languages: ['en-GB'] });
afterAll(() => vi.unstubAllGlobals());

const NOW = Date.parse('2026-11-28T12:00:00Z');
const DAY_ms = 24 * 3_600_000;

describe('how long ago something was', () => {
  test('is counted in days for four weeks, then the day itself is said, with its year', () => {
    expect(ago(NOW - 27 * DAY_ms, NOW)).toBe('27 days ago');
    expect(isLongAgo(NOW - 27 * DAY_ms, NOW)).toBe(false);
    expect(ago(NOW - 138 * DAY_ms, NOW)).toMatch(/13.*2026|2026.*13/);
    expect(ago(NOW + 40 * DAY_ms, NOW)).toMatch(/2027/);
  });

  test('is near where it can be counted', () => {
    expect(ago(NOW - 3 * 3_600_000, NOW)).toBe('3 hours ago');
    expect(ago(NOW + 2 * DAY_ms, NOW)).toBe('in 2 days');
  });
});

describe('a time that was typed by the minute', () => {
  const FILLED = '2026-05-04T10:12:35.250Z';

  test('of the minute of the filling is after it', () => {
    expect(notBefore('2026-05-04T10:12:00.000Z', FILLED)).toBe(FILLED);
  });

  test.each([
    ['of a minute before', '2026-05-04T10:11:00.000Z', FILLED],
    ['of a minute after', '2026-05-04T10:13:00.000Z', FILLED],
    ['of the very moment', FILLED, FILLED],
    ['that is none', '', FILLED],
    ['of a bed that nobody filled', '2026-05-04T10:12:00.000Z', null],
  ])('%s stays as it is', (_name, time, filled) => {
    expect(notBefore(time, filled)).toBe(time);
  });
});
