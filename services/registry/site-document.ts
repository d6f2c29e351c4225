/** Entries of a site description as they are kept. */
import { LANGUAGE_CODES } from '../core/model/languages.js';
import { reachSchema } from '../core/model/people.js';
import { formatTime } from '../core/model/time.js';

/** JSON text of an entry as a site file has it: times as text, keys in the order of the schema. */
export function documentOf(entry: unknown): string {
  return JSON.stringify(entry, (key, value) =>
    (key === 'from' || key === 'to' || key === 'filled') && typeof value === 'number'
      ? formatTime(value)
      : value,
  );
}

/** A description, or an entry of one, as a site file has it. */
export const siteFileOf = (part: unknown): unknown => JSON.parse(documentOf(part));

/** Of a person as an earlier version took them: what can no longer be used is left out, so that a service still starts. */
export function usable(person: { language?: string; reach?: readonly unknown[] }): unknown {
  const [language = ''] = (person.language ?? 'en').toLowerCase().split(/[-_]/);
  const isKnown = (LANGUAGE_CODES as readonly string[]).includes(language);
  return {
    ...person,
    ...(!isKnown && { language: 'en' }),
    reach: (person.reach ?? []).filter((way) => reachSchema.safeParse(way).success),
  };
}
