/** Simple rules on the same readings, for scale: what each holds against its limit, day by day. */
import { type DayMeans, dailyMeans } from './daily-means.js';
import { apartFromNeighbours } from './own-level.js';
import type { EvaluatedSeason } from './season.js';

export const RULES = ['fixed line', 'above shade', 'rise in three days', 'own level, neighbours'] as const;
export type Rule = (typeof RULES)[number];

/** For each day the largest of all probes, °C; absent where there is none. */
export type RuleValues = Readonly<Record<Rule, readonly (number | undefined)[]>>;

/** Days after filling in which rules do not cry: sand is settling. */
const SETTLES_days = 5;
const RISE_days = 3;

type Means = readonly DayMeans[];

/** Each probe's mean less what a rule holds against it, where that is known. */
const less = (means: DayMeans | undefined, other: (id: string) => number | undefined): DayMeans =>
  new Map(
    [...(means ?? [])].flatMap(([id, mean]) => {
      const value = other(id);
      return value === undefined ? [] : [[id, mean - value] as const];
    }),
  );

const RULE_OF: Readonly<Record<Rule, (probes: Means, shade: Means, day: number) => DayMeans>> = {
  'fixed line': (probes, _shade, day) => probes[day] ?? new Map(),
  'above shade': (probes, shade, day) => less(probes[day], () => shade[day]?.values().next().value),
  'rise in three days': (probes, _shade, day) => less(probes[day], (id) => probes[day - RISE_days]?.get(id)),
  'own level, neighbours': (probes, _shade, day) => apartFromNeighbours(probes, day),
};

export function ruleValues({ hours }: Pick<EvaluatedSeason, 'hours'>): RuleValues {
  const probes = dailyMeans(hours, 'probes');
  const shade = dailyMeans(hours, 'shade');
  const valuesOf = (rule: Rule): (number | undefined)[] =>
    probes.map((_, day) => {
      const values = day < SETTLES_days ? [] : [...RULE_OF[rule](probes, shade, day).values()];
      return values.length > 0 ? Math.max(...values) : undefined;
    });
  return Object.fromEntries(RULES.map((rule) => [rule, valuesOf(rule)])) as Record<
    Rule,
    (number | undefined)[]
  >;
}

/** Days at whose end a rule cries: when its value passes the limit from below. */
export const cries = (values: readonly (number | undefined)[], limit_C: number): number[] =>
  values.flatMap((value, day) => {
    const before = values[day - 1];
    return value !== undefined && value > limit_C && !(before !== undefined && before > limit_C)
      ? [day + 1]
      : [];
  });
