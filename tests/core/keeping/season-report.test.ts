import { describe, expect, test } from 'vitest';
import { seasonReport } from '../../../services/core/keeping/season-report.js';
import { seasonFigures } from '../../../services/core/keeping/season-report-figures.js';
import { emptyLedger, withEntries } from '../../../services/core/keeping/stock.js';
import { ABOUT, linesOf, NOTHING, ROOTS, rowOf, season } from './a-season-report.js';
import { dayOf, FILLED, out } from './some-stock.js';

describe('figures', () => {
  const figures = seasonFigures(season(), dayOf(60));

  test('end with the report: what comes later is not in them', () => {
    expect(figures).toMatchObject({ filled: 400, filledMass_kg: 110, filledBy: 'ledger' });
    expect(figures).toMatchObject({ left: 357, kept_days: 60, emptied: false });
    expect(figures.totals.out.map(({ reason }) => reason)).toEqual(['sold', 'thrown']);
    expect(figures.alarms).toHaveLength(2);
    expect(seasonFigures(season(), dayOf(20)).intervals).toHaveLength(1);
  });

  test('warmth over the days of the season', () => {
    expect(figures.warmth).toEqual({ mean_C: 24.5, coldest_C: 18, warmest_C: 30, measured: 4, quickRot: 2 });
    expect(seasonFigures(season(), dayOf(2)).warmth?.measured).toBe(2);
    expect(seasonFigures(season({ days: [] }), dayOf(60)).warmth).toBeNull();
  });

  test('sprouts came between the last opened look without and the first with', () => {
    expect(figures.sprouts).toEqual({ foundAfter: 28, notAfter: 14 });
    expect(seasonFigures(season({ inspections: [] }), dayOf(60)).sprouts).toBeNull();
    const early = seasonFigures(season({ inspections: season().inspections.slice(2) }), dayOf(60));
    expect(early.sprouts?.notAfter).toBe(0);
  });

  test('looks at a closed bed say nothing of sprouts', () => {
    expect(figures.opened).toBe(3);
    const closed = season().inspections.map((look) => ({ ...look, opened: false, found: [] }));
    expect(seasonFigures(season({ inspections: closed }), dayOf(60)).opened).toBe(0);
  });

  test('where nothing was written down, what went in is as described, and what is left is not known', () => {
    expect(seasonFigures(season({ ledger: emptyLedger('pit-a') }), dayOf(60))).toMatchObject({
      ...{ filled: 500, filledMass_kg: 140, filledBy: 'description', left: null, emptied: false },
    });
  });

  test('that nobody looked within a week is known after the week', () => {
    const unseen = { kind: 'damp', raisedAt: dayOf(50), clearedAt: null } as const;
    const alarms = [{ ...unseen, foundOut: { verdict: 'unseen', lookedAt: null } }] as const;
    expect(seasonFigures(season({ alarms }), dayOf(57)).alarms).toEqual([unseen]);
    expect(seasonFigures(season({ alarms }), dayOf(58)).alarms).toEqual(alarms);
  });

  test('an emptied bed was kept until its last root came out', () => {
    const ledger = withEntries(season().ledger, [out(9, 40, 345, 'sold')]);
    expect(seasonFigures(season({ ledger }), dayOf(95))).toMatchObject({
      left: 0,
      emptied: true,
      kept_days: 90,
    });
  });

  test('a bed with nothing written down is not emptied', () => {
    expect(seasonFigures(season(NOTHING), dayOf(60))).toMatchObject({
      ...{ filled: null, filledMass_kg: null, filledBy: null, left: null, opened: 0 },
      emptied: false,
      survival: null,
      causes: [],
    });
  });

  test.each([FILLED, dayOf(-1), Number.NaN])('an end at %d is refused', (to) => {
    expect(() => seasonFigures(season(), to)).toThrow(expect.objectContaining({ code: 'OUT_OF_DOMAIN' }));
  });
});

describe('the report of one bed', () => {
  const { title, statement, sections } = seasonReport([season()], ABOUT);

  test('has a section for each question', () => {
    expect(title).toBe('Season of Pit A');
    expect(statement[0]).toBe('Ridge station, up to 2026-07-03 10:00 +02:00.');
    expect(sections.map(({ heading }) => heading)).toEqual([
      ...['Filled and kept', 'What came out', 'What was lost', 'Warmth', 'Alarms'],
    ]);
  });

  test('says what is known and what is not', () => {
    expect(rowOf(sections, 'Filled on')).toBe('2026-05-04');
    expect(rowOf(sections, 'Roots, and their mass')).toBe('400, 110 kg');
    expect(rowOf(sections, 'Cultivar')).toBe('orange, early');
    expect(rowOf(sections, 'Field, and lot')).toBe('not known, 7');
    expect(rowOf(sections, 'Kept')).toBe('60 days, and not empty yet');
    expect(rowOf(sections, 'Sprouts')).toBe('found after 28 days; they came between day 14 and then');
    expect(rowOf(sections, 'Mean')).toBe('24.5 °C, of 4 days out of 60');
  });

  test('what came out, by reason and as a share', () => {
    expect(linesOf(sections, 'What came out')).toEqual([
      'sold | 40 | 10 % | 11 kg',
      'thrown away | 3 | 0.8 % | not known',
      'left in the bed | 357 | 89.3 % | not known',
    ]);
  });

  test('what was lost, with intervals', () => {
    // By hand: 37 of 40; 3 in 40 is lost, 2 of it to rot. Score interval of 2 and 1 in 40.
    expect(rowOf(sections, 'Not lost by the last look')).toMatch(/^92\.5 % \(\d/);
    expect(rowOf(sections, 'Lost to rot')).toMatch(/^5 % \(1\.\d to 16\.\d %\)$/);
    expect(rowOf(sections, 'Lost to weevils')).toMatch(/^2\.5 % \(0\.\d to 1\d\.\d %\)$/);
    expect(linesOf(sections, 'What was lost')[1]).toMatch(
      /^2026-06-01 \| 40 of 360 \| rot 5 % .*; weevils 2\.5 %/,
    );
  });

  test('alarms with what was found', () => {
    expect(linesOf(sections, 'Alarms')).toEqual([
      '2026-05-30 | warmth | 2026-06-02 | found what it warned of',
      '2026-06-03 | probe silent | not yet | not known',
    ]);
  });

  test('looks that fell due are counted, and of long lists the last rows are shown', () => {
    const due = (day: number) => ({ kind: 'inspection-due', raisedAt: dayOf(day), clearedAt: null }) as const;
    const told = (day: number) => ({ kind: 'damp', raisedAt: dayOf(day), clearedAt: null }) as const;
    const days = Array.from({ length: 20 }, (_, index) => index + 1);
    const looks = days.map((day) => ({
      at: dayOf(day),
      looked: 10,
      present: null,
      lost: { rot: day % 2, weevils: 0 },
      sorted: false,
    }));
    const alarms = [...days.map(due), ...days.map(told)];
    const { sections: long } = seasonReport([season({ looks, alarms })], ABOUT, { looks: 6, alarms: 5 });
    expect(rowOf(long, 'Looks that fell due')).toBe('20');
    expect(linesOf(long, 'Alarms')).toHaveLength(5);
    const captions = long.flatMap(({ tables }) => tables.map(({ caption }) => caption));
    expect(captions).toContain('Alarms and what the look after them found, the 5 most urgent of 20');
    expect(captions).toContain('From look to look, the last 6 of 20');
    expect(linesOf(long, 'What was lost').at(-1)).toBe('2026-05-24 | 10 | nothing of rot, weevils');
    const heating = { kind: 'heating', raisedAt: dayOf(2), clearedAt: null } as const;
    const one = seasonReport([season({ alarms: [...days.map(told), heating] })], ABOUT, {
      looks: 1,
      alarms: 1,
    });
    expect(linesOf(one.sections, 'Alarms').join()).toMatch(/warm/);
    const quiet = seasonReport([season({ alarms: days.map(due) })], ABOUT).sections;
    expect(rowOf(quiet, 'Other alarms')).toBe('none');
  });

  test('a bed of which nothing is known says so, row by row', () => {
    const { sections: known } = seasonReport([season(NOTHING)], ABOUT);
    expect(rowOf(known, 'Roots, and their mass')).toBe('not known, not known');
    expect(rowOf(known, 'Not lost')).toBe('not known: no roots were counted');
    expect(rowOf(known, 'Daily means')).toBe('not known: no probe told');
    expect(rowOf(known, 'Alarms')).toBe('none');
    expect(rowOf(known, 'Sprouts')).toBe('not known: nobody looked into the bed');
    expect(rowOf(known, 'Roots that came out')).toMatch(/^not known: nobody wrote down/);
    expect(rowOf(known, 'To have it counted')).toMatch(/the commands fill and stock$/);
    expect(linesOf(known, 'What came out')).toEqual([]);
  });

  test('no sprouts are said where somebody looked, roots as described where nobody wrote them down', () => {
    const looked = season({ ...NOTHING, inspections: season().inspections.slice(0, 2), described: ROOTS });
    const { sections: known } = seasonReport([looked], ABOUT);
    expect(rowOf(known, 'Sprouts')).toBe('none found');
    expect(rowOf(known, 'Roots, and their mass')).toBe('500 (as the bed is described), 140 kg');
    expect(rowOf(known, 'Kept')).toBe('60 days since it was filled');
    expect(rowOf(known, 'Roots that came out')).toMatch(/^not known/);
  });
});
