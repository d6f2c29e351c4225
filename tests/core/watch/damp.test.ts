/** Damp: humidity of the pore air against its thresholds (judgement: no published limit). */
import { describe, expect, test } from 'vitest';
import { runSeason, saidIn } from './run.js';
import { dayOf, QUIET, type Season } from './season.js';

const DAYS = 30;
const from =
  (day: number, value_RH: number, before_RH = 85) =>
  (_: number, now: number) =>
    now >= day ? value_RH : before_RH;
const season = (humidity: NonNullable<Season['humidity']>): Season => ({ ...QUIET, days: DAYS, humidity });

describe('damp', () => {
  test('96 %RH for 48 h asks for a look, at the hour', () => {
    const { changes } = runSeason(season(from(10, 96)));
    expect(changes).toHaveLength(1);
    expect(changes[0]).toMatchObject({
      type: 'raise',
      kind: 'damp',
      action: 'check',
      priority: 'medium',
      evidence: { probe: 'p01', humidity_RH: 96, held_h: 48, threshold_RH: 95 },
      place: { x: 30, y: 25, depth: 20, radius: 25 },
    });
    expect(dayOf(changes[0]?.at ?? 0)).toBe(12);
  });

  test('99 %RH for 48 h asks for unpacking and not for a look', () => {
    const { changes } = runSeason(season(from(10, 99)));
    expect(changes).toHaveLength(1);
    expect(changes[0]).toMatchObject({
      action: 'unpack',
      priority: 'high',
      evidence: { humidity_RH: 99, threshold_RH: 97 },
    });
  });

  test('it is judged from the filling on, while warmth is still being learned', () => {
    expect(saidIn(runSeason(season(from(0, 99))))).toEqual(['raise damp/unpack day 2.0']);
  });

  test('the wettest probe gives the evidence', () => {
    const wettest = season((probe, day) => (day < 10 ? 85 : probe === 3 ? 99.5 : probe === 4 ? 98 : 85));
    expect(runSeason(wettest).changes[0]).toMatchObject({ evidence: { probe: 'p04', humidity_RH: 99.5 } });
  });

  test.each([
    ['94.9 %RH for ever', from(10, 94.9)],
    ['96 %RH for 47 h', (_: number, day: number) => (day >= 10 && day < 10 + 47 / 24 ? 96 : 85)],
    ['a probe without humidity', () => undefined],
    ['humidity that is no number', () => Number.NaN],
  ] satisfies [string, NonNullable<Season['humidity']>][])('%s raises nothing', (_, humidity) => {
    expect(saidIn(runSeason(season(humidity)))).toEqual([]);
  });

  test('gaps of some hours do not break off what develops', () => {
    const gappy = season((_, day) => (day < 10 ? 85 : Math.floor(day * 24) % 8 < 3 ? undefined : 96));
    expect(saidIn(runSeason(gappy))[0]).toMatch(/^raise damp\/check day 13\.\d/);
  });

  test('hours without data are not hours of damp', () => {
    const silent = season((_, day) => (day < 10 ? 85 : day < 11.5 ? 96 : day < 12.2 ? undefined : 85));
    expect(saidIn(runSeason(silent))).toEqual([]);
  });

  test('it clears when 2 %RH below the threshold for 24 h, not before', () => {
    const dried = season((_, day) => (day < 10 ? 85 : day < 14 ? 96 : day < 18 ? 93.5 : 92.9));
    expect(saidIn(runSeason(dried))).toEqual(['raise damp/check day 12.0', 'clear damp/check day 19.0']);
  });

  test('humidity that wavers about its threshold raises once and does not flutter', () => {
    const wavering = season((_, day) => (day < 10 ? 85 : 95.3 + Math.sin(day * 24)));
    const said = saidIn(runSeason(wavering));
    expect(said.length).toBeLessThanOrEqual(1);
  });

  test('unpacking that is over does not become a look, though it is still humid', () => {
    const lessDamp = season((_, day) => (day < 10 ? 85 : day < 14 ? 99 : 94.5));
    expect(saidIn(runSeason(lessDamp))).toEqual(['raise damp/unpack day 12.0', 'clear damp/unpack day 15.0']);
  });

  test('silence holds what is raised', () => {
    const silent = season((_, day) => (day < 10 ? 85 : day < 13 ? 99 : undefined));
    expect(saidIn(runSeason(silent))).toEqual(['raise damp/unpack day 12.0']);
  });
});
