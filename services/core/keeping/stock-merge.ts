/** Records written on several devices, merged by their ids: the same one again is no second one. */
import { SandlarderError } from '../errors.js';

export interface Identified {
  readonly id: string;
}

/** Whether two records say the same, whatever the order of their keys; a key that is undefined is absent. */
export const isSameRecord = (one: Identified, other: Identified): boolean => asText(one) === asText(other);

const asText = (record: Identified): string => JSON.stringify(record, sortedKeys);

function sortedKeys(_: string, value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
}

export interface Merged<Kept extends Identified> {
  /** Those known, then the new ones in the order in which they came. */
  readonly records: readonly Kept[];
  readonly added: readonly Kept[];
  /** How many were there already. */
  readonly doubled: number;
}

/**
 * Takes in records that may be there already.
 *
 * @param name what a record is called in a message
 * @throws SandlarderError CONFLICT where an id is there with other content
 */
export function mergedById<Kept extends Identified>(
  known: readonly Kept[],
  arrived: readonly Kept[],
  name: string,
): Merged<Kept> {
  const byId = new Map(known.map((record) => [record.id, record]));
  const added: Kept[] = [];
  for (const record of arrived) {
    const before = byId.get(record.id);
    if (before === undefined) added.push(record);
    else if (!isSameRecord(before, record))
      throw new SandlarderError(
        'CONFLICT',
        `${name} ${record.id}: expected the content that is there already, got another; to correct it takes a new one`,
      );
    byId.set(record.id, before ?? record);
  }
  return { records: [...known, ...added], added, doubled: arrived.length - added.length };
}
