/** What a bed asks for in which rot was found and left, in the words of a language. */
import type { Language } from './catalogue.js';
import { CATALOGUES } from './languages.js';
import type { Said } from './said.js';
import { plainName, say } from './say.js';
import { daySaid, type NamedBed } from './wrong.js';

/** @param at when it was found, ms; said as a day of the site's calendar */
export function rotLeftSaid(at: number, bed: Pick<NamedBed, 'name' | 'timeZone'>, language: Language): Said {
  const catalogue = CATALOGUES[language];
  const day = daySaid(catalogue, at, bed);
  const text = say(catalogue, 'page.rotLeft', { bed: plainName(bed.name), day });
  return {
    ...{ text: `${text} ${say(catalogue, 'page.caution')}`, language },
    draft: !catalogue.nativeReviewed,
  };
}
