/** How a trial was compared, and what that cannot show, in plain sentences. */
import type { Outcome, Trial } from '../model/trial.js';
import { HOW_ASSIGNED } from './assign.js';
import { OUTCOME_WORDS } from './outcome.js';
import { PERMUTATIONS } from './permutation.js';
import { INTERVAL_LIMIT, SHARES_WITHOUT_ENDS } from './survival-words.js';

const HOW_READ: Readonly<Record<Outcome['kind'], string>> = {
  loss: 'Lost roots were counted at looks by hand. From sorting to sorting the shares found are joined (pooled where they would fall), and what is left is multiplied over sortings; roots taken out sound leave the count.',
  'first-rot':
    'A bed counts as rotten from the first look that opened it and found rot; a bed without is followed to its last look.',
  'sound-mass':
    'Of the mass that went in, the share not lost by the looks times the mean mass of a root weighed as it came out, over that at the filling.',
  'highest-excess':
    'Excess is the corrected temperature of a probe less what a sound bed would show there and then; of each hour of each probe of the bed the highest counts.',
  sprouted: 'Sprouted roots were counted at looks by hand, of those looked at; sprouts are no loss.',
};

/** One paragraph. */
export function methodsOf({ outcome, design, beds, treatments }: Trial): string {
  const { name } = OUTCOME_WORDS[outcome.kind];
  const byDays = outcome.kind === 'first-rot';
  const compared = byDays
    ? 'Beds were compared by the log-rank test, and by Kaplan-Meier curves with Greenwood intervals on the scale log(-log).'
    : design === 'blocks'
      ? 'Treatments were compared by analysis of variance with blocks taken out first, pairs by Tukey with the studentised range; Friedman ranks stand beside it.'
      : `Treatments were compared by Welch's ${treatments.length === 2 ? 't test' : 'analysis of variance, pairs after Games and Howell'}, which allows for unequal scatter.`;
  const roots = byDays
    ? ''
    : ` What roots came to over time was compared with beds as units: what each bed lost beyond its expectation under equal losses was given to treatments anew ${PERMUTATIONS} times, within blocks where there are blocks. Shares are carried over to as many roots as the fewest looked at.`;
  return `${beds.length} beds, ${treatments.length} treatments${design === 'blocks' ? ', in blocks' : ''}. Each bed counts once, with one number: ${name}, by day ${outcome.day} from its filling; a look counts that is no further off than a tenth of that or a week. ${HOW_READ[outcome.kind]} ${compared}${roots} Intervals are of 95 %, p two-sided; of pairs they hold for all together (below two degrees of freedom after Bonferroni).`;
}

export function assignedText({ assigned }: Trial): string {
  if (assigned === null) return 'No treatments were given yet.';
  if (assigned.how === 'hand')
    return 'Treatments were given by hand. Whatever chose them may show as a difference between treatments; no statistics can take that out.';
  return `Treatments were drawn by chance, seed ${assigned.seed}. ${HOW_ASSIGNED}`;
}

export const LIMITS: readonly string[] = [
  INTERVAL_LIMIT,
  'A look sees a part of the roots. Whoever always looks at the same ones, as at the top, finds too little.',
  SHARES_WITHOUT_ENDS,
  'Intervals along a curve hold at each time alone, not for the curve as a whole.',
  'A bed that could not be told is left out. Where beds drop out because of what their treatment did, what is left flatters it.',
  'A difference that is shown holds for these beds, sands, roots and this season. Another place or year is another trial.',
];
