/** Who eats from a bed, and how much, in questions about it. */
import type { OutlookTask } from '../../core/keeping/index.js';
import { countQuerySchema, numberQuerySchema } from './query.js';

export const eatingShape = {
  persons: countQuerySchema(1, 100_000).optional().meta({ description: 'Who eat from the bed' }),
  rootsPerPersonWeek: numberQuerySchema(0.01, 1000).optional(),
  kgPerPersonWeek: numberQuerySchema(0.001, 1000).optional(),
};

interface EatingQuery {
  readonly persons?: number | undefined;
  readonly rootsPerPersonWeek?: number | undefined;
  readonly kgPerPersonWeek?: number | undefined;
}

export const EATING_EXPECTED = {
  path: ['persons'],
  message:
    'expected persons together with either rootsPerPersonWeek or kgPerPersonWeek, or none of the three, got only some of them, or both ways',
};

/** Whether persons come with what one of them eats, in one of the two ways, or nothing is asked. */
export const isEatingWhole = ({ persons, rootsPerPersonWeek, kgPerPersonWeek }: EatingQuery): boolean =>
  (persons === undefined) === (rootsPerPersonWeek === undefined && kgPerPersonWeek === undefined) &&
  (rootsPerPersonWeek === undefined || kgPerPersonWeek === undefined);

/** What all eat in a day; undefined where nobody's eating was asked for. A week has seven days. */
export function eatingOf(query: EatingQuery): OutlookTask['eating'] {
  const { persons, rootsPerPersonWeek, kgPerPersonWeek = 0 } = query;
  if (persons === undefined) return undefined;
  return rootsPerPersonWeek === undefined
    ? { kg_per_day: (persons * kgPerPersonWeek) / 7 }
    : { roots_per_day: (persons * rootsPerPersonWeek) / 7 };
}
