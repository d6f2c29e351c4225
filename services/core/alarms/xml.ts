/** Writes XML 1.0 (fifth edition) text: elements with either text or elements in them, and no attribute but a namespace. */

/** An element: its name, and its text or its elements in their order. */
export type XmlElement = readonly [name: string, content: string | readonly XmlElement[]];

/** Production 2 (Char): what is outside it cannot stand in a document, not even as a reference. Halves of pairs too. */
const FORBIDDEN = /[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/gu;

const REFERENCES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};

/** The text without the characters that XML forbids; line ends are what a parser makes of them (section 2.11). */
export function xmlText(text: string): string {
  return text.replace(FORBIDDEN, '').replace(/\r\n?/g, '\n');
}

/** The text as it stands between tags. `>` is escaped for the sake of `]]>` (section 2.4). */
export function escapeXml(text: string): string {
  return xmlText(text).replace(/[&<>"]/g, (character) => REFERENCES[character] ?? character);
}

function writeElement([name, content]: XmlElement, indent: string, attributes = ''): string {
  const inner =
    typeof content === 'string'
      ? escapeXml(content)
      : `\n${content.map((child) => writeElement(child, `${indent}  `)).join('')}${indent}`;
  return `${indent}<${name}${attributes}>${inner}</${name}>\n`;
}

/**
 * A whole document in UTF-8, one element a line.
 *
 * @param root element names come from the program: they are not escaped
 * @param namespace of all elements
 */
export function xmlDocument(root: XmlElement, namespace: string): string {
  const attributes = ` xmlns="${escapeXml(namespace)}"`;
  return `<?xml version="1.0" encoding="UTF-8"?>\n${writeElement(root, '', attributes)}`;
}
