/** A field of CSV: in quotes where it must be, with quotes within doubled [RFC 4180 2.5 to 2.7]. */
export const csvCell = (text: string): string =>
  /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
