/** Scores of many seasons together, and the rules beside them. */
import { median } from 'simple-statistics';
import { cries, handDay, RULES, type Rule } from './rules.js';
import type { RotScore, SeasonScore } from './score.js';

/** A rule may cry so often in a hundred sound bed-months when its limit is chosen. */
const ALLOWED_per_100_months = 2;
const COUNTS_FOR_days = 40;
/** Limits that are tried, °C. */
const LIMITS_C = Array.from({ length: 240 }, (_, index) => 0.25 * (index + 1));

export interface SeasonValues {
  readonly score: SeasonScore;
  readonly rules: Record<Rule, (number | undefined)[]>;
}

export interface RuleTotal {
  readonly rule: string;
  readonly limit_C: number | null;
  readonly found: number;
  readonly rots: number;
  readonly fromOnset_days: number | null;
  readonly false_per_100_months: number;
}

export interface Totals {
  readonly seasons: number;
  readonly rots: number;
  readonly found: number;
  readonly fromOnset_days: number | null;
  /** After the true excess at the nearest probe passed 0.5 °C; negative before. */
  readonly fromKnowable_h: number | null;
  readonly beforeHand_days: number | null;
  readonly falseUnpack_per_100_months: number;
  readonly falseCheck_per_100_months: number;
  readonly soundMonths: number;
  readonly error_cm: number | null;
  readonly laterError_cm: number | null;
  readonly radius_cm: number | null;
  readonly covered: number | null;
  readonly faults: number;
  readonly recognised: number;
  readonly wettingAfter_h: number | null;
}

const middle = (values: readonly (number | null)[]): number | null => {
  const known = values.filter((value) => value !== null);
  return known.length > 0 ? median(known) : null;
};

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

export function totalsOf(scores: readonly SeasonScore[]): Totals {
  const rots = scores.flatMap((score) => score.rots);
  const found = rots.filter((rot): rot is RotScore & { foundDay: number } => rot.foundDay !== null);
  const months = sum(scores.map(({ soundMonths }) => soundMonths));
  const per100 = (count: number): number => (months > 0 ? (100 * count) / months : 0);
  const placed = found.filter(({ error_cm }) => error_cm !== null);
  const faults = scores.flatMap((score) => score.faults);
  return {
    ...{ seasons: scores.length, rots: rots.length, found: found.length, soundMonths: months },
    fromOnset_days: middle(found.map(({ foundDay, startDay }) => foundDay - startDay)),
    fromKnowable_h: middle(
      found.map(({ foundDay, knowableDay }) => (knowableDay === null ? null : (foundDay - knowableDay) * 24)),
    ),
    beforeHand_days: middle(found.map(({ foundDay, startDay }) => handDay(startDay) - foundDay)),
    falseUnpack_per_100_months: per100(sum(scores.map(({ falseUnpack }) => falseUnpack))),
    falseCheck_per_100_months: per100(sum(scores.map(({ falseCheck }) => falseCheck))),
    error_cm: middle(placed.map(({ error_cm }) => error_cm)),
    laterError_cm: middle(placed.map(({ laterError_cm }) => laterError_cm)),
    radius_cm: middle(placed.map(({ radius_cm }) => radius_cm)),
    covered:
      placed.length > 0
        ? placed.filter(({ error_cm, radius_cm }) => (error_cm ?? 0) <= (radius_cm ?? 0)).length /
          placed.length
        : null,
    faults: faults.length,
    recognised: faults.filter(({ recognised }) => recognised).length,
    wettingAfter_h: middle(scores.map(({ wettingAfter_h }) => wettingAfter_h)),
  };
}

function ruleAt(seasons: readonly SeasonValues[], rule: Rule, limit_C: number): RuleTotal {
  let falses = 0;
  const delays: number[] = [];
  let rots = 0;
  for (const { score, rules } of seasons) {
    const days = cries(rules[rule], limit_C);
    const first = score.rots.reduce((day, rot) => Math.min(day, rot.startDay), Number.POSITIVE_INFINITY);
    falses += days.filter((day) => day < first).length;
    rots += score.rots.length;
    for (const { startDay } of score.rots) {
      const day = days.find((one) => one >= startDay && one <= startDay + COUNTS_FOR_days);
      if (day !== undefined) delays.push(day - startDay);
    }
  }
  const months = sum(seasons.map(({ score }) => score.soundMonths));
  return {
    ...{ rule, limit_C, rots, found: delays.length },
    fromOnset_days: middle(delays),
    false_per_100_months: months > 0 ? (100 * falses) / months : 0,
  };
}

/** Each rule with the lowest limit at which it is not heard too often; the two-weekly hand last. */
export function ruleTotals(seasons: readonly SeasonValues[]): RuleTotal[] {
  const best = RULES.map((rule) => {
    const tried = LIMITS_C.map((limit_C) => ruleAt(seasons, rule, limit_C));
    const quiet = tried.filter((total) => total.false_per_100_months <= ALLOWED_per_100_months);
    return quiet.reduce(
      (one, other) => (other.found > one.found ? other : one),
      quiet[0] ?? (tried.at(-1) as RuleTotal),
    );
  });
  const rots = seasons.flatMap(({ score }) => score.rots);
  const hand: RuleTotal = {
    ...{ rule: 'hand, every second week', limit_C: null, found: rots.length, rots: rots.length },
    fromOnset_days: middle(rots.map(({ startDay }) => handDay(startDay) - startDay)),
    false_per_100_months: 0,
  };
  return [...best, hand];
}
