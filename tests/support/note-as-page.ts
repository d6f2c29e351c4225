/** A note as a page to print: as much of Markdown as the notes use. For tests of how much paper they take. */

const safe = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

const inline = (text: string): string =>
  safe(text)
    .replace(/`([^`]+)`/g, '<code>$1</code>')
    .replace(/\*\*([^*]+)\*\*/g, '<b>$1</b>')
    .replace(/\*([^*]+)\*/g, '<i>$1</i>')
    .replace(/\[([^\]]+)\]\([^)]+\)/g, '<u>$1</u>');

const LIST = /^(?:- |\d+\. )/;

const STYLE = `@page { size: A4; margin: 15mm } body { font: 10pt/1.3 sans-serif; margin: 0 }
h1 { font-size: 15pt; margin: 0 0 2mm } h2 { font-size: 12pt; margin: 3mm 0 1mm } p { margin: 1mm 0 }
table { border-collapse: collapse; width: 100% } tr { break-inside: avoid }
td, th { border: 0.3pt solid; padding: 0.6mm 1mm; text-align: left; vertical-align: top } ol, ul { margin: 1mm 0; padding-left: 5mm }`;

/** Headings, paragraphs, tables and lists. */
export function noteAsPage(markdown: string): string {
  const blocks = markdown.split(/\n(?:\n+|(?=#))/).map((block) => {
    const lines = block.trim().split('\n');
    const [first = ''] = lines;
    const heading = /^(#+) (.*)/.exec(first);
    if (heading) return `<h${heading[1]?.length}>${inline(heading[2] ?? '')}</h${heading[1]?.length}>`;
    if (first.startsWith('|')) return tableOf(lines);
    if (LIST.test(first)) return listOf(lines);
    return `<p>${inline(lines.join(' '))}</p>`;
  });
  return `<!doctype html><meta charset="utf-8"><style>${STYLE}</style>${blocks.join('\n')}`;
}

function tableOf([head = '', , ...rows]: readonly string[]): string {
  const row = (line: string, cell: string): string =>
    `<tr>${line
      .slice(1, -1)
      .split('|')
      .map((text) => `<${cell}>${inline(text.trim())}</${cell}>`)
      .join('')}</tr>`;
  return `<table>${row(head, 'th')}${rows.map((line) => row(line, 'td')).join('')}</table>`;
}

function listOf(lines: readonly string[]): string {
  const items: string[] = [];
  for (const line of lines)
    if (LIST.test(line)) items.push(line.replace(LIST, ''));
    else items.push(`${items.pop()} ${line.trim()}`);
  return `<ol>${items.map((item) => `<li>${inline(item)}</li>`).join('')}</ol>`;
}
