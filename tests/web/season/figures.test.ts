import { afterAll, describe, expect, test, vi } from 'vitest';
import type { SeasonOfBed } from '../../../services/web/api/types/season.js';
import {
  keptInWords,
  massInInWords,
  sproutsInWords,
  wentInInWords,
} from '../../../services/web/jobs/season/figures.js';

const season = (change: Partial<SeasonOfBed>): SeasonOfBed => ({
  ...{
    bed: 'pit-a',
    name: 'Pit A',
    filledAt: '2026-05-04T08:00:00Z',
    cultivar: null,
    field: null,
    lot: null,
  },
  ...{ filled: null, filledMass_kg: null, filledBy: null, left: null, in: [], out: [] },
  ...{ kept_days: 60, emptied: false, notLost: null, losses: [], warmth: null, opened: 0, sprouts: null },
  ...{ alarms: [], ...change },
});

vi.stubGlobal('navigator', { languages: ['en'] });
afterAll(() => vi.unstubAllGlobals());

describe('the season on the page', () => {
  test('says that nothing is known of sprouts where nobody looked, and that none were found where somebody did', () => {
    expect(sproutsInWords(season({}))).toBe('not known: nobody looked into the bed');
    expect(sproutsInWords(season({ opened: 1 }))).toBe('none found');
    expect(sproutsInWords(season({ opened: 2, sprouts: { foundAfter: 28, notAfter: 14 } }))).toMatch(
      /28 days/,
    );
  });

  test('says where the roots that went in are from', () => {
    expect(wentInInWords(season({}))).toBe('not known');
    const described = season({ filled: 400, filledMass_kg: 110, filledBy: 'description' });
    expect(wentInInWords(described)).toBe('400, as the bed is described');
    expect(massInInWords(described)).toMatch(/^110(\.0)? kg$/);
    expect(keptInWords(described)).toBe('60 days');
    expect(wentInInWords(season({ filled: 400, filledBy: 'ledger' }))).toBe('400');
    expect(keptInWords(season({ filled: 400, filledBy: 'ledger', left: 12 }))).toMatch(/not empty yet/);
  });
});
