/** What a bed asks for in which rot was found and left, in the words of a language. */
import type { Language } from './catalogue.js';
import { CATALOGUES } from './languages.js';
import type { Said } from './said.js';
import { plainName, say } from './say.js';

/**
 * @param at when it was found, ms; said as a day in UTC, the nearest that can be said without the site's clock
 */
export function rotLeftSaid(at: number, bed: { readonly name: string }, language: Language): Said {
  const catalogue = CATALOGUES[language];
  const date = new Date(at);
  const month = `m${date.getUTCMonth() + 1}`;
  const day = say(catalogue, 'day', { time: at, day: date.getUTCDate(), month });
  const text = say(catalogue, 'page.rotLeft', { bed: plainName(bed.name), day });
  return {
    ...{ text: `${text} ${say(catalogue, 'page.caution')}`, language },
    draft: !catalogue.nativeReviewed,
  };
}
