/** What is to be done, job by job: whatever waits at one bed is done at one visit. */
import type { TodayItem } from '../api/types/today.js';

export interface TodayJob {
  readonly when: TodayItem['when'];
  /** Why, the most pressing first. */
  readonly items: readonly [TodayItem, ...TodayItem[]];
  /** What would wait for the next visit, which this one is. */
  readonly alsoThere: readonly TodayItem[];
}

/** @returns in the order in which the service tells their first items */
export function jobsOf(items: readonly TodayItem[]): TodayJob[] {
  const jobs = new Map<string, [TodayItem, ...TodayItem[]]>();
  for (const item of items) {
    const key = `${item.when} ${item.bed?.id ?? keyOf(item)}`;
    const job = jobs.get(key);
    if (job) job.push(item);
    else jobs.set(key, [item]);
  }
  const later = (bed: string): string => `next-visit ${bed}`;
  const isOfToday = (bed: string | undefined): boolean => jobs.has(`today ${bed}`);
  return [...jobs.values()]
    .filter(([{ when, bed }]) => when !== 'next-visit' || !isOfToday(bed?.id))
    .map((together) => {
      const [{ when, bed }] = together;
      const alsoThere = when === 'today' && bed ? (jobs.get(later(bed.id)) ?? []) : [];
      return { when, items: together, alsoThere };
    });
}

/** Visits to which nothing but an overdue look leads, apart: of many beds they would bury the rest. */
export function looksApart(jobs: readonly TodayJob[]): {
  readonly others: readonly TodayJob[];
  readonly looks: readonly TodayJob[];
} {
  const isLook = ({ items }: TodayJob): boolean =>
    items.every(({ isOverdueLook, bed }) => isOverdueLook === true && bed !== null);
  return { others: jobs.filter((job) => !isLook(job)), looks: jobs.filter(isLook) };
}

/** The same for the same thing, asked again. */
export const keyOf = ({ kind, alarm, bed, probe, text }: TodayItem): string =>
  alarm ?? `${kind}/${bed?.id}/${probe}/${text}`;

/** What is to be done soonest comes first. */
const STANDS = ['unpack', 'check', 'service', 'learning', 'unfilled', 'sound'] as const;

interface Bed {
  readonly id: string;
  readonly name: string;
  readonly stands: (typeof STANDS)[number];
}

/** Beds in the order of what is to be done at them; the others by how they stand, then by name. */
export function inOrder<One extends Bed>(
  beds: readonly One[],
  items: readonly TodayItem[],
  language: string,
): One[] {
  const named = jobsOf(items).flatMap(({ items: [{ bed }] }) => bed?.id ?? []);
  const placeOf = ({ id }: One): number => (named.includes(id) ? named.indexOf(id) : named.length);
  return [...beds].sort(
    (one, other) =>
      placeOf(one) - placeOf(other) ||
      STANDS.indexOf(one.stands) - STANDS.indexOf(other.stands) ||
      one.name.localeCompare(other.name, language),
  );
}
