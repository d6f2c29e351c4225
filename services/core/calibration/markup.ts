/** Text within HTML and SVG. */

const NAMED: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** What neither language may hold: control characters but tab and line ends, half surrogates, and two that are none. */
const FORBIDDEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** For content and for attributes between quotes. What may not stand there becomes the sign for that, U+FFFD. */
export const escaped = (text: string): string =>
  text.replace(FORBIDDEN, '\ufffd').replace(/[&<>"']/g, (character) => NAMED[character] ?? '');
