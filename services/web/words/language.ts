/** Which language this device is read in. Kept on the device; the browser's own where nothing was chosen. */
import { LANGUAGE_CODES, type Language } from '../../core/model/languages.js';
import { changes } from '../parts/changes.js';
import type { Catalogue } from './catalogue.js';
import { catalogue as english } from './en/index.js';
import { written } from './written.js';

const KEPT = 'sandlarder.language';

/** Each language is a chunk of its own, fetched when it is chosen. */
const OTHERS = import.meta.glob<{ readonly catalogue: Catalogue }>(['./*/index.ts', '!./en/index.ts']);

let current: Language = 'en';
let words: Catalogue = english;

export const languageChanged = changes<Language>();

/** Languages that the page can be read in. */
export const PAGE_LANGUAGES: readonly Language[] = LANGUAGE_CODES.filter(
  (code) => code === 'en' || `./${code}/index.ts` in OTHERS,
);

export const language = (): Language => current;

/** The language with the region that the browser has it for: how numbers and times are written. */
export const locale = (): string =>
  written(navigator.languages.find((tag) => tag.toLowerCase().split('-')[0] === current) ?? current);

export const wordsNow = (): Catalogue => words;

/** Texts that no native speaker has read: all but English. */
export const isDraft = (code: Language): boolean => code !== 'en';

/** Reads the page in a language from now on. Where its words cannot be fetched the old one stays. */
export async function chooseLanguage(code: Language): Promise<void> {
  const load = OTHERS[`./${code}/index.ts`];
  words = load ? (await load()).catalogue : english;
  current = load ? code : 'en';
  localStorage.setItem(KEPT, current);
  document.documentElement.lang = current;
  languageChanged.tell(current);
}

/** The language to begin with: what was chosen on this device, else the first of the browser's that there is. */
export function firstLanguage(): Language {
  const wanted = [localStorage.getItem(KEPT) ?? '', ...navigator.languages];
  const codes = wanted.map((tag) => tag.toLowerCase().split('-')[0]);
  return (
    PAGE_LANGUAGES.find((code) => code === codes.find((tag) => PAGE_LANGUAGES.includes(tag as Language))) ??
    'en'
  );
}
