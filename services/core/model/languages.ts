/** Languages that messages to people are written in, by their ISO 639 code. How well each was read is in their catalogues. */
export const LANGUAGE_CODES = ['en', 'fr', 'pt', 'sw', 'ha', 'ny', 'am'] as const;
export type Language = (typeof LANGUAGE_CODES)[number];

/**
 * The calendar that days are said in, in messages and on the page alike. Readers of Amharic live by the Ethiopian one.
 */
export const calendarOf = (language: Language): 'ethiopic' | 'gregory' =>
  language === 'am' ? 'ethiopic' : 'gregory';
