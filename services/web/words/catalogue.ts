import type { catalogue } from './en/index.js';

type English = typeof catalogue;

/** The words of a language, as those of English: a key that is missing does not compile. */
export type Catalogue = {
  readonly [Area in keyof English]: { readonly [Key in keyof English[Area]]: string };
};

/** `area.key`. */
export type WordKey = {
  [Area in keyof English & string]: `${Area}.${keyof English[Area] & string}`;
}[keyof English & string];
