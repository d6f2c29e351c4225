import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { asRead, plainly } from '../../services/web/words/service-english.js';
import { useZone } from '../../services/web/words/times.js';

vi.stubGlobal('navigator', { languages: ['en'] });
beforeAll(() => useZone('Africa/Lusaka'));
afterAll(() => vi.unstubAllGlobals());

describe('a refusal of the service on the page', () => {
  test.each([
    [
      'probe.placements[0]: expected a point inside bed "pit-a", got x 75, y 300, depth -1.5 cm',
      'Probe, place 1: expected a point inside bed "pit-a", got 75 cm along, 300 cm across, -1.5 cm deep',
    ],
    [
      'body is not as described: #/courses/1/mass_kg: expected number, got "a"',
      'Layer 2, mass, in kg: expected a number, got "a"',
    ],
    ['expected integer, got nothing', 'Expected a whole number, got nothing'],
    [
      'at: expected an RFC 3339 time with offset between 2000 and 2100, such as 2026-05-04T08:00:00Z, got "now"',
      'When: expected a day and time, got "now"',
    ],
    [
      'stock entry 0b8c9f3e-1111-4222-8333-444455556666: expected at most the 20 roots of entry 0b8c9f3e-1111-4222-8333-444455556667 to be taken back, got 21',
      'stock entry: expected at most the 20 roots of entry to be taken back, got 21',
    ],
    ['body is not as described: #: expected one of them', 'Expected one of them'],
    [
      'bed.thresholds.damp_check_RH: expected at most 100',
      'Bed, thresholds, damp check, in %RH: expected at most 100',
    ],
    ['#/constructor: unknown key', 'Constructor: unknown key'],
  ])('%s', (detail, read) => {
    expect(plainly(detail)).toBe(read);
  });

  test('times are by the clock of the site, with their year', () => {
    const detail =
      'at: expected a time that has come, got 2026-05-04T08:00:00Z while it is "2025-05-04T06:30:00.000Z" here';
    const read = plainly(detail);
    expect(read).toMatch(
      /^When: expected a time that has come, got .*2026.*10:00.* while it is .*2025.*08:30.* here$/,
    );
    expect(read).not.toMatch(/T\d|Z|"/);
  });

  test.each([
    'no bed has the id "pit-z"',
    'p01: 12 readings that were kept apart are taken in.',
    'Pit A: sand is warm',
    'the day 2026-05-04 stays',
    'got 2026-99-99T99:99:99Z',
  ])('what is plain stays: %s', (detail) => {
    expect(plainly(detail)).toBe(detail);
  });
});

test('notes have degrees and clock times', () => {
  expect(asRead('21 C since 2026-05-04T08:00:00Z.')).toMatch(/^21 °C since .*2026.*10:00.*\.$/);
});
