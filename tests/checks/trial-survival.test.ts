/**
 * Log-rank on remission under 6-MP: E. J. Freireich et al., Blood 21 (1963) 699-716 [V: data set gehan of the R package MASS;
 * V+L: R survival 3.5, survdiff].
 */
import { describe, expect, test } from 'vitest';
import { compareSurvival, type RootsSeen } from '../../services/core/trials/index.js';
import { bedExcess, logRank } from '../../services/core/trials/log-rank.js';

const TREATED = '6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+';
const PLACEBO = '1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23';

/** Each a bed of one root; a plus marks who was last seen then, still well. */
const seenOf = (treatment: string, text: string): RootsSeen[] =>
  text.split(' ').map((each, at) => ({
    ...{ bed: `${treatment}-${at}`, treatment, roots: 1 },
    ...{ time: Number.parseInt(each, 10), lost: !each.endsWith('+') },
  }));

describe('6-MP', () => {
  const found = compareSurvival([...seenOf('6-MP', TREATED), ...seenOf('placebo', PLACEBO)]);

  test('log-rank', () => {
    expect(found.logRank.chiSquare).toBeCloseTo(16.7929409892, 10);
    expect(found.logRank.df).toBe(1);
    expect(found.logRank.p).toBeCloseTo(4.168809e-5, 11);
    const [treated, placebo] = found.logRank.treatments;
    expect([treated?.lost, placebo?.lost]).toEqual([9, 21]);
    expect(treated?.expected.toFixed(1)).toBe('19.3');
    expect(placebo?.expected.toFixed(1)).toBe('10.7');
  });

  test('medians 23 and 8; each bed is one root, so that the test is by beds', () => {
    expect(found.treatments.map(({ median }) => median)).toEqual([23, 8]);
    expect(found).toMatchObject({ clustered: false, byBed: null, commonTime: 23 });
  });

  test('the ratio of losses is the one-step estimate exp((O - E) / V) [C]', () => {
    const { ratio, p } = found.differences[0] as (typeof found.differences)[number];
    expect(ratio?.estimate).toBeCloseTo(Math.exp(10.25050094803113 / 6.2569605736755), 10);
    expect(p).toBe(found.logRank.p);
  });

  test('what beds lost beyond what was expected adds up to that of their treatment', () => {
    const all = [...seenOf('6-MP', TREATED), ...seenOf('placebo', PLACEBO)];
    const excess = [...bedExcess(all)].filter(([bed]) => bed.startsWith('6-MP'));
    expect(excess.reduce((sum, [, value]) => sum + value, 0)).toBeCloseTo(9 - 19.25050094803113, 10);
  });
});

test('three treatments with ties [C: numpy, hypergeometric covariance; two of them L: scipy 1.17, logrank]', () => {
  const a = seenOf('a', '5 7 7+ 9 12+ 14');
  const b = seenOf('b', '2 4 7 8+ 9');
  const c = seenOf('c', '3 3 6 7+ 9 10');
  const { chiSquare, df, p, treatments } = logRank([...a, ...b, ...c]);
  expect(chiSquare).toBeCloseTo(2.5830639389155605, 12);
  expect(df).toBe(2);
  expect(p).toBeCloseTo(0.27484939951323734, 12);
  expect(treatments[0]?.expected).toBeCloseTo(6.48547531, 8);
  const two = logRank([...a, ...b]);
  expect(two.chiSquare).toBeCloseTo(1.3385526303349145 ** 2, 12);
  expect(two.p).toBeCloseTo(0.18071635588563784, 12);
});
