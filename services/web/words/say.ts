import { IntlMessageFormat } from 'intl-messageformat';
import type { Catalogue, WordKey } from './catalogue.js';
import { language, wordsNow } from './language.js';

export type Values = Readonly<Record<string, string | number>>;

const formats = new Map<string, IntlMessageFormat>();

/** A text that only names values: no plural, no choice and no quoting. To read it as ICU takes a slow phone some 2 ms each. */
const PLAIN = /^(?:[^{}']|\{\w+\})*$/;

/**
 * A text in the language of this device.
 *
 * @param key `area.key` of the catalogue
 * @param values what the text names in braces; numbers that are measured come formatted (`celsius` and its like)
 */
export function say(key: WordKey, values?: Values): string {
  const [area = '', name = ''] = key.split('.');
  const text = (wordsNow() as Record<string, Record<string, string>>)[area]?.[name];
  if (text === undefined) return key;
  if (values === undefined && !text.includes('{')) return text;
  if (PLAIN.test(text))
    return text.replace(/\{(\w+)\}/g, (named, name: string) => String(values?.[name] ?? named));
  const code = language();
  const id = `${code}/${key}`;
  const format = formats.get(id) ?? new IntlMessageFormat(text, code, undefined, { ignoreTag: true });
  formats.set(id, format);
  return String(format.format({ ...values }));
}

/** Whether a word is there under a name that came from the service, as `find.rot`. */
export function wordFor<Area extends keyof Catalogue>(area: Area, name: string): string | undefined {
  return Object.hasOwn(wordsNow()[area], name) ? say(`${area}.${name}` as WordKey) : undefined;
}
