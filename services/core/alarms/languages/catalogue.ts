/** What a language needs to be spoken here: its messages, and the words that people answer with. */

import type { Language } from '../../model/languages.js';
import type { EN_MESSAGES } from './catalogues/en.js';

export { LANGUAGE_CODES, type Language } from '../../model/languages.js';

export type MessageKey = keyof typeof EN_MESSAGES;

/**
 * ICU messages; those under `page.` are for a screen and need no letters of short messages. An apostrophe right before
 * a brace would quote it, so none stands there.
 */
export type Messages = Readonly<Record<MessageKey, string>>;

/** What a word in an answer can mean. `not` turns a meaning round, `hours` says that a number is hours. */
export const MEANINGS = [
  'seen',
  'found',
  'rot',
  'damp',
  'sprouts',
  'weevils',
  'nothing',
  'repacked',
  'quiet',
  'all',
  'stop',
  'not',
  'hours',
] as const;
export type WordMeaning = (typeof MEANINGS)[number];

/**
 * Words and phrases of up to three words, in any spelling: case, accents and hooks are taken off both here and in what
 * people write.
 */
export interface AnswerWords extends Readonly<Record<WordMeaning, readonly string[]>> {
  /** Words that mean nothing here, though they do in another language. */
  readonly harmless: readonly string[];
  /** Whether the word for hours stands before their number. */
  readonly hoursFirst: boolean;
}

export interface Catalogue {
  readonly language: Language;
  /** In the language itself. */
  readonly name: string;
  /** What numbers, plurals and days are written by: a language that the runtime has data of. */
  readonly locale: string;
  readonly nativeReviewed: boolean;
  readonly note: string;
  /** How the short form writes the language's letters. */
  readonly letters: string;
  readonly messages: Messages;
  readonly answers: AnswerWords;
}

/** What a draft says of itself. */
export const DRAFT = { nativeReviewed: false, note: 'draft: no native speaker has read it' } as const;
