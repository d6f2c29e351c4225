/** Where parts of series were read, and how finely they are kept. */
import { READ_FROM, type ReadFrom } from '../../api/types/series.js';
import type { Columns } from './columns.js';

type Read = Pick<Columns, 'readFrom' | 'note'>;

/** Each once, in one order whatever came first. */
export function originOf(columns: readonly Read[]): { from: readonly ReadFrom[]; notes: readonly string[] } {
  const all = new Set(columns.flatMap(({ readFrom }) => readFrom));
  return {
    from: READ_FROM.filter((one) => all.has(one)),
    notes: [...new Set(columns.flatMap(({ note }) => note ?? []))],
  };
}
