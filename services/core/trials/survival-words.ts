/** What treatments kept over time, in plain sentences. */
import { pText } from './numbers.js';
import type { KeptDifference, KeptTreatment, SurvivalComparison } from './survival.js';
import { CALLED_FROM_p, type ComparisonWords } from './words.js';

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

const timeText = (time: number): string => String(Number(time.toFixed(2)));

/** Roots carried over from shares are no whole number. */
const rootsText = (roots: number): string => String(Number(roots.toFixed(1)));

export const INTERVAL_LIMIT =
  'A root is lost some time between two looks and counted at the second: times are late by half an interval on average, and treatments that are looked at on other days are late by other amounts.';

export const SHARES_WITHOUT_ENDS =
  'Intervals of shares are reckoned as if a share had no ends: one that passes 0 or 100 % says that beds are few, not that such a share could be.';

const SHARED_FATE =
  'Roots of one bed share its sand and its fate. The log-rank test over roots takes each for one by itself, and its p is too small for that: the one to go by is that of beds.';

const INTERVAL_BESIDE_p =
  'The interval of a difference is of the share kept at one time, from the scatter between beds; p is of the whole course, from how many ways of giving the treatments part them as far. With few beds they may disagree (two beds of each of two treatments leave six ways, and no p much below a third): p is the one to go by.';

const INTERVAL_BESIDE_p_OF_ROOTS =
  'The interval of a difference is of the share kept at one time, p is of the whole course: they may disagree, and p is the one to go by.';

export function survivalWords(comparison: SurvivalComparison): ComparisonWords {
  const { treatments, differences, logRank, byBed, commonTime, clustered } = comparison;
  const { chiSquare, df, p } = logRank;
  return {
    treatments: treatments.map((each) => keptText(each, commonTime, clustered)),
    differences: differences.map(differenceText),
    effects: [],
    tests: [
      ...(byBed
        ? [
            `Treatments given anew to the same beds (${byBed.draws} draws, seed ${byBed.seed}; ${byBed.ways} different ways): ${pText(byBed.p)}`,
          ]
        : []),
      `Log-rank test over roots: chi-square(${df}) = ${chiSquare.toFixed(3)}, ${pText(p)}`,
    ],
    assumptions: [
      INTERVAL_LIMIT,
      ...(clustered ? [SHARED_FATE] : []),
      clustered ? INTERVAL_BESIDE_p : INTERVAL_BESIDE_p_OF_ROOTS,
      ...(treatments.some(passesAnEnd) ? [SHARES_WITHOUT_ENDS] : []),
      'Roots that were taken out sound are taken to be no better and no worse than those that stayed.',
      'The tests see best where one treatment loses faster than another all the time; curves that cross can hide from them.',
    ],
    meaning: meaningOf(comparison),
  };
}

const passesAnEnd = ({ interval }: KeptTreatment): boolean =>
  interval !== null && !(interval.low >= 0 && interval.high <= 1);

function keptText(
  { treatment, beds, roots, lost, kept, interval, median }: KeptTreatment,
  time: number,
  clustered: boolean,
): string {
  const of = clustered ? `${beds} beds, ${rootsText(roots)} roots` : `${beds} beds of one root`;
  const between = interval ? ` (${percent(interval.low)} to ${percent(interval.high)})` : '';
  const half = median === null ? 'more than half kept to the end' : `half lost by ${timeText(median)}`;
  return `${treatment}: ${of}, ${rootsText(lost)} lost; kept at ${timeText(time)}: ${percent(kept)}${between}; ${half}`;
}

function differenceText({ from, to, difference: { estimate, low, high }, ratio, p }: KeptDifference): string {
  const between = low === null || high === null ? '' : ` (${percent(low)} to ${percent(high)})`;
  const faster = ratio
    ? `; loses ${ratio.estimate.toFixed(2)} times as fast (${ratio.low.toFixed(2)} to ${ratio.high.toFixed(2)})`
    : '';
  return `${to} less ${from}, share kept: ${percent(estimate)}${between}${faster}; ${pText(p)}`;
}

function meaningOf({ byBed, logRank, differences, beds }: SurvivalComparison): string[] {
  const p = byBed?.p ?? logRank.p;
  const few =
    byBed && 2 / byBed.ways > CALLED_FROM_p
      ? [
          `With ${beds} beds there are only ${byBed.ways} ways of giving the treatments: no result could have been called a difference.`,
        ]
      : [];
  if (!(p < CALLED_FROM_p))
    return [
      `These beds do not show that the treatments lose roots differently (${pText(p)}). That is not the same as no difference.`,
      ...few,
    ];
  const found = differences.filter((each) => each.p < CALLED_FROM_p);
  return [
    ...found.map(({ from, to, difference: { estimate } }) =>
      estimate >= 0
        ? `Beds of ${to} kept more than those of ${from}.`
        : `Beds of ${from} kept more than those of ${to}.`,
    ),
    `Were there no difference at all, chance would bring one as large or larger in ${p < 0.001 ? 'fewer than 1 of 1,000' : `about ${Math.round(p * 1000)} of 1,000`} such trials.`,
    'It does not say that the difference is worth its cost, nor that it holds for other sand, seasons or cultivars than those that were tried.',
  ];
}
