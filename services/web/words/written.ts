/** By what numbers and times are written where the browser has no data of the language: as words are, in English. */
const ELSE = 'en-GB';

/**
 * The language by which a browser writes numbers and times. One whose data it does not have it would write as the device's
 * own: those of Hausa in French, or on a Hausa device as "2026 M10 17".
 *
 * @param tag BCP 47
 */
export const written = (tag: string): string =>
  Intl.DateTimeFormat.supportedLocalesOf(tag).length > 0 ? tag : ELSE;
