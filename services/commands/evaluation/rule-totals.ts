/** Each simple rule with the limit that serves it best, chosen afterwards over the whole run. */
import { median } from 'simple-statistics';
import { isSound } from './presence.js';
import { cries, RULES, type Rule, type RuleValues } from './rules.js';
import type { SeasonScore } from './score.js';
import { COUNTS_FOR_days } from './score-rot.js';

/** A rule may cry falsely so often in a hundred sound bed-months when its limit is chosen. */
const ALLOWED_per_100_months = 2;
/** Limits that are tried, °C. */
const LIMITS_C = Array.from({ length: 600 }, (_, index) => (index + 1) / 10);

export interface SeasonValues {
  readonly score: SeasonScore;
  readonly rules: RuleValues;
}

export interface RuleTotal {
  readonly rule: string;
  readonly limit_C: number | null;
  readonly found: number;
  readonly rots: number;
  readonly fromOnset_days: number | null;
  readonly false_per_100_months: number;
}

const middle = (values: readonly number[]): number | null => (values.length > 0 ? median([...values]) : null);

function ruleAt(seasons: readonly SeasonValues[], rule: Rule, limit_C: number): RuleTotal {
  let falsely = 0;
  let months = 0;
  let rots = 0;
  const delays: number[] = [];
  for (const { score, rules } of seasons) {
    const days = cries(rules[rule], limit_C);
    months += score.soundMonths;
    rots += score.rots.length;
    falsely += days.filter((day) => isSound(score.rots, day)).length;
    for (const { startDay, endDay } of score.rots) {
      const until = Math.min(endDay ?? Number.POSITIVE_INFINITY, startDay + COUNTS_FOR_days);
      const day = days.find((one) => one >= startDay && one <= until);
      if (day !== undefined) delays.push(day - startDay);
    }
  }
  const false_per_100_months = months > 0 ? (100 * falsely) / months : 0;
  return { rule, limit_C, rots, found: delays.length, fromOnset_days: middle(delays), false_per_100_months };
}

/** The one that finds more; of two that find as many the sooner, then the one tried first. */
function better(one: RuleTotal, other: RuleTotal): RuleTotal {
  if (other.found !== one.found) return other.found > one.found ? other : one;
  return (other.fromOnset_days ?? 0) < (one.fromOnset_days ?? 0) ? other : one;
}

function best(seasons: readonly SeasonValues[], rule: Rule): RuleTotal {
  const tried = LIMITS_C.map((limit_C) => ruleAt(seasons, rule, limit_C));
  const quiet = tried.filter((total) => total.false_per_100_months <= ALLOWED_per_100_months);
  return quiet.reduce(better, quiet[0] ?? (tried.at(-1) as RuleTotal));
}

function handTotal(seasons: readonly SeasonValues[]): RuleTotal {
  const rots = seasons.flatMap(({ score }) => score.rots);
  const delays = rots.flatMap(({ handDay, startDay }) => (handDay === null ? [] : [handDay - startDay]));
  return {
    ...{ rule: 'hand, every second week', limit_C: null, found: delays.length, rots: rots.length },
    ...{ fromOnset_days: middle(delays), false_per_100_months: 0 },
  };
}

/** The rules, each with its best limit that is not heard too often; the two-weekly hand last. */
export const ruleTotals = (seasons: readonly SeasonValues[]): RuleTotal[] => [
  ...RULES.map((rule) => best(seasons, rule)),
  handTotal(seasons),
];
