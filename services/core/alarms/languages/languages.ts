/** Which languages there are, and how well they were read. */
import { SandlarderError } from '../../errors.js';
import { type Catalogue, LANGUAGE_CODES, type Language } from './catalogue.js';
import { AM } from './catalogues/am.js';
import { EN } from './catalogues/en.js';
import { FR } from './catalogues/fr.js';
import { HA } from './catalogues/ha.js';
import { NY } from './catalogues/ny.js';
import { PT } from './catalogues/pt.js';
import { SW } from './catalogues/sw.js';

export const CATALOGUES: Readonly<Record<Language, Catalogue>> = {
  en: EN,
  fr: FR,
  pt: PT,
  sw: SW,
  ha: HA,
  ny: NY,
  am: AM,
};

/** What settings and documents say of a language. */
export type LanguageStatus = Pick<Catalogue, 'language' | 'name' | 'nativeReviewed' | 'note' | 'letters'>;

export const LANGUAGES: readonly LanguageStatus[] = LANGUAGE_CODES.map((code) => {
  const { language, name, nativeReviewed, note, letters } = CATALOGUES[code];
  return { language, name, nativeReviewed, note, letters };
});

const isLanguage = (code: string): code is Language => (LANGUAGE_CODES as readonly string[]).includes(code);

/**
 * The language of a tag [RFC 5646]: `fr` for `fr`, `FR` and `fr-CM`.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a language that there is not
 */
export function languageOf(tag: string): Language {
  const [base = ''] = tag.toLowerCase().split(/[-_]/);
  if (isLanguage(base)) return base;
  const known = LANGUAGE_CODES.join(', ');
  throw new SandlarderError(
    'OUT_OF_DOMAIN',
    `language must be one of ${known}, or such a one with a region as fr-CM, got ${JSON.stringify(tag)}`,
  );
}

/** @throws SandlarderError OUT_OF_DOMAIN for a language that there is not */
export const catalogueOf = (tag: string): Catalogue => CATALOGUES[languageOf(tag)];
