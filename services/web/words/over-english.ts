import type { Catalogue } from './catalogue.js';
import { catalogue as english } from './en/index.js';

/** Words of a language, as far as there are some. */
export type SomeWords = { readonly [Area in keyof Catalogue]?: Partial<Catalogue[Area]> };

/** A whole catalogue: what a language does not have yet is said in English, so that a new word of English can come first. */
export function overEnglish(words: SomeWords): Catalogue {
  const areas = Object.entries(english).map(([area, texts]) => [
    area,
    { ...texts, ...words[area as keyof Catalogue] },
  ]);
  return Object.fromEntries(areas) as Catalogue;
}
