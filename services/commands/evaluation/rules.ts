/** Simple rules on the same readings, for scale: each with the limit that serves it best afterwards. */
import type { BedHour } from '../../core/watch/watch.js';
import type { EvaluatedSeason } from './season.js';

export const RULES = ['fixed line', 'above shade', 'rise in three days'] as const;
export type Rule = (typeof RULES)[number];

/** Days after filling in which rules do not cry: sand is settling. */
const SETTLES_days = 5;
/** A hand finds what has rotted so long and is so strong, at the two-weekly look. Judgement. */
const HAND = { every_days: 14, after_days: 2 } as const;

const BELIEVABLE_C = [-20, 60] as const;

function dailyMean(hours: readonly BedHour[], day: number, of: 'probes' | 'shade'): Map<string, number> {
  const sums = new Map<string, [number, number]>();
  for (const hour of hours.slice(day * 24, day * 24 + 24))
    for (const [id, samples] of hour[of])
      for (const { temperature } of samples) {
        if (!(temperature !== undefined && temperature > BELIEVABLE_C[0] && temperature < BELIEVABLE_C[1]))
          continue;
        const [sum, count] = sums.get(id) ?? [0, 0];
        sums.set(id, [sum + temperature, count + 1]);
      }
  return new Map([...sums].map(([id, [sum, count]]) => [id, sum / count]));
}

/** For each day, what a rule holds against its limit, the largest of all probes, °C; absent where there is none. */
export function ruleValues({ hours, days }: EvaluatedSeason): Record<Rule, (number | undefined)[]> {
  const probes = Array.from({ length: days }, (_, day) => dailyMean(hours, day, 'probes'));
  const shade = Array.from({ length: days }, (_, day) => [...dailyMean(hours, day, 'shade').values()][0]);
  const largest = (values: (number | undefined)[]): number | undefined => {
    const known = values.filter((value) => value !== undefined);
    return known.length > 0 ? Math.max(...known) : undefined;
  };
  const each = (of: (id: string, mean: number, day: number) => number | undefined) =>
    probes.map((means, day) =>
      day < SETTLES_days ? undefined : largest([...means].map(([id, mean]) => of(id, mean, day))),
    );
  return {
    'fixed line': each((_id, mean) => mean),
    'above shade': each((_id, mean, day) => {
      const air = shade[day];
      return air === undefined ? undefined : mean - air;
    }),
    'rise in three days': each((id, mean, day) => {
      const before = probes[day - 3]?.get(id);
      return before === undefined ? undefined : mean - before;
    }),
  };
}

/** Days at whose end a rule cries: when its value passes the limit from below. */
export const cries = (values: readonly (number | undefined)[], limit_C: number): number[] =>
  values.flatMap((value, day) => {
    const before = values[day - 1];
    return value !== undefined && value > limit_C && !(before !== undefined && before > limit_C)
      ? [day + 1]
      : [];
  });

/** The day on which the two-weekly hand finds a rot that began on a day. */
export const handDay = (startDay: number): number =>
  Math.ceil((startDay + HAND.after_days) / HAND.every_days) * HAND.every_days;
