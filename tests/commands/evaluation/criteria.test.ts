import { describe, expect, test } from 'vitest';
import { type Criterion, criteriaOf } from '../../../services/commands/evaluation/criteria.js';
import { criteriaLines } from '../../../services/commands/evaluation/criteria-table.js';
import { scoreSeason } from '../../../services/commands/evaluation/score.js';
import { totalsOf } from '../../../services/commands/evaluation/totals.js';
import { at, fault, ROT, raise, refine, seasonWith } from './a-season.js';

const season = seasonWith([ROT], { warmFrom: 33 });
const near = (found: number, missed: number, apart = false) => [
  ...Array.from({ length: found }, () => scoreSeason({ ...season, apart }, [raise(33.25)])),
  ...Array.from({ length: missed }, () => scoreSeason({ ...season, apart }, [])),
];
const named = (criteria: readonly Criterion[], part: string): Criterion | undefined =>
  criteria.find(({ name }) => name.includes(part));
const near95 = (scores: ReturnType<typeof near>) => named(criteriaOf(totalsOf(scores)), '30 cm (a)');

describe('what is asked of the watch', () => {
  test('of near sources is asked with late readings and a missing shade probe apart', () => {
    expect(near95([...near(19, 1), ...near(0, 2, true)])).toMatchObject({
      ...{ came: 0.95, inAll: 19 / 22, met: true },
    });
    expect(near95([...near(18, 2), ...near(20, 0, true)])).toMatchObject({ came: 0.9, met: false });
  });

  test('of places is asked of beds with four probes or more', () => {
    const off = scoreSeason(season, [raise(34, { place: at(60) }), refine(37, at(63, 12))]);
    const criteria = criteriaOf(totalsOf([off, { ...off, probes: 3 }, { ...off, probes: 3 }]));
    expect(named(criteria, 'at the alarm (b)')).toMatchObject({ came: 10, met: true });
    expect(named(criteria, 'later (b)')).toMatchObject({ came: 13, met: false });
    expect(criteria.filter(({ name }) => name.includes('radius')).map(({ met }) => met)).toEqual([
      ...[true, false],
    ]);
  });

  test('of a wet front that was never told is not met', () => {
    const wet = scoreSeason(seasonWith([], { wetFrom: 20 }), []);
    const criterion = named(criteriaOf(totalsOf([wet])), 'wet front');
    expect(criterion?.met).toBe(false);
    expect(criteriaLines(criteriaOf(totalsOf([wet]))).join('\n')).toMatch(/wet front.* never +no/);
  });

  test('of one false call in fifty months, and of a fault that was missed: not met', () => {
    const months = scoreSeason(seasonWith([fault('drift', 'p02', 10, 40)]), [raise(60)]);
    const criteria = criteriaOf(totalsOf([{ ...months, soundMonths: 50 }]));
    expect(named(criteria, 'false "unpack"')).toMatchObject({ came: 2, met: false });
    expect(named(criteria, 'recognised')).toMatchObject({ came: 0, met: false });
    expect(named(criteria, 'beside a fault')).toMatchObject({ came: 0, met: true });
  });

  test('of nothing at all is neither met nor missed', () => {
    const criteria = criteriaOf(totalsOf([]));
    expect(criteria.map(({ met }) => met)).toEqual(criteria.map(() => null));
  });
});
