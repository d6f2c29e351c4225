/**
 * Free text for a cell that a spreadsheet may open: one that begins with = + - @, a tab or a line end would be taken for
 * a formula, so it gets an apostrophe before it. Numbers, times and ids are no free text and stay as they are.
 *
 * Source: common practice, no source; RFC 4180 knows no formulas.
 */
export const textCell = (text: string): string => (/^[=+\-@\t\r\n]/.test(text) ? `'${text}` : text);
