/** What a comparison rests on, looked at where beds are enough to look, and said where they are not. */
import { SandlarderError } from '../errors.js';
import { inBlocks } from './blocks.js';
import type { Assumption, Design } from './comparison.js';
import { brownForsythe } from './equal-spread.js';
import { momentsOf, varianceOf } from './moments.js';
import { andersonDarling, FEWEST_FOR_NORMALITY } from './normality.js';
import { pText } from './numbers.js';
import { groupsOf, type PerBed } from './per-bed.js';

/** Beds of the smallest treatment from which spreads are compared at all. Judgement. */
const FEWEST_FOR_SPREAD = 4;

/** Below this p something speaks against what is assumed. */
const SPEAKS = 0.05;

export function assumptionsOf(design: Exclude<Design, 'survival'>, values: PerBed): Assumption[] {
  switch (design) {
    case 'welch':
      return [
        normality(scaledResiduals(values)),
        { about: 'spread', said: 'Treatments may scatter unequally: this test allows for it.', p: null },
        OWN_BEDS,
      ];
    case 'anova':
      return [normality(residuals(values)), spread(values), OWN_BEDS];
    case 'blocks':
      return [normality(inBlocks(values).fit.residuals), spread(values), ADDITIVE, OWN_BEDS];
    case 'kruskal':
      return [ALIKE, OWN_BEDS];
  }
}

const OWN_BEDS: Assumption = {
  about: 'beds',
  said: 'Each bed counts as one that stands for itself, and got its treatment by chance: no table can show that. Beds that share a roof, a lot of roots or a day of filling belong into blocks.',
  p: null,
};

const ADDITIVE: Assumption = {
  about: 'blocks',
  said: 'Treatments are taken to differ by the same in every block; with one bed of each in a block this cannot be looked at.',
  p: null,
};

const ALIKE: Assumption = {
  about: 'shape',
  said: 'No shape is asked of the scatter. The shifts hold where treatments scatter alike; else the test says only that beds of one tend to lie above those of another.',
  p: null,
};

function residuals(values: PerBed): number[] {
  return groupsOf(values).flatMap((group) => {
    const { mean } = momentsOf(group.values);
    return group.values.map((value) => value - mean);
  });
}

/** Each in the standard deviations of its own treatment. */
function scaledResiduals(values: PerBed): number[] {
  return groupsOf(values).flatMap((group) => {
    const moments = momentsOf(group.values);
    const sd = Math.sqrt(varianceOf(moments));
    return sd > 0 ? group.values.map((value) => (value - moments.mean) / sd) : [];
  });
}

function normality(left: readonly number[]): Assumption {
  const about = 'normal scatter';
  if (!(left.length >= FEWEST_FOR_NORMALITY))
    return {
      about,
      said: `With ${left.length} beds nobody can tell whether they scatter normally: it is taken on trust.`,
      p: null,
    };
  const looked = orNothing(() => andersonDarling(left));
  if (!looked)
    return {
      about,
      said: 'The beds do not differ within treatments: there is no scatter to look at.',
      p: null,
    };
  const { a, p } = looked;
  const test = `Anderson-Darling ${a.toFixed(3)}, ${pText(p)}`;
  const said =
    p < SPEAKS
      ? `The scatter of beds does not look normal (${test}): look at the beds that lie far off, and at ranks (--design kruskal) beside this.`
      : `Nothing speaks against normal scatter (${test}); with ${left.length} beds only coarse departures would show.`;
  return { about, said, p };
}

function spread(values: PerBed): Assumption {
  const about = 'equal spread';
  const fewest = Math.min(...groupsOf(values).map((group) => group.beds.length));
  if (!(fewest >= FEWEST_FOR_SPREAD))
    return {
      about,
      said: `With ${fewest} beds of a treatment nobody can tell whether treatments scatter alike: it is taken on trust.`,
      p: null,
    };
  const looked = orNothing(() => brownForsythe(values));
  if (!looked)
    return { about, said: 'Beds of a treatment do not differ: there are no spreads to compare.', p: null };
  const { f, betweenDf, withinDf, p } = looked;
  const test = `Brown-Forsythe F(${betweenDf}, ${withinDf}) ${f.toFixed(2)}, ${pText(p)}`;
  const said =
    p < SPEAKS
      ? `Treatments scatter unequally (${test}): Welch's test (--design welch) allows for that.`
      : `Nothing speaks against equal spread (${test}).`;
  return { about, said, p };
}

/** What cannot be looked at for want of scatter is left out. */
function orNothing<Value>(look: () => Value): Value | undefined {
  try {
    return look();
  } catch (error) {
    if (error instanceof SandlarderError && error.code === 'TOO_FEW_SAMPLES') return undefined;
    throw error;
  }
}
