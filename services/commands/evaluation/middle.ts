/** Of values some of which are not known: medians, largest ones, sums. */
import { median } from 'simple-statistics';

export const known = (values: readonly (number | null)[]): number[] =>
  values.filter((value) => value !== null);

export const middle = (values: readonly (number | null)[]): number | null =>
  known(values).length > 0 ? median(known(values)) : null;

export const most = (values: readonly (number | null)[]): number | null =>
  known(values).length > 0 ? Math.max(...known(values)) : null;

export const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Null of none. */
export const shareOf = (some: number, all: number): number | null => (all > 0 ? some / all : null);
