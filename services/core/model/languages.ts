/** Languages that messages to people are written in, by their ISO 639 code. How well each was read is in their catalogues. */
export const LANGUAGE_CODES = ['en', 'fr', 'pt', 'sw', 'ha', 'ny', 'am'] as const;
export type Language = (typeof LANGUAGE_CODES)[number];
