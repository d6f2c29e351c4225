/** The notes hang together: each link and picture leads somewhere, each drawing is sound and is shown. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';

const NOTES = new URL('../../firmware-notes/', import.meta.url).pathname;
const files = readdirSync(NOTES, { recursive: true, encoding: 'utf8' });
const pages = files.filter((name) => name.endsWith('.md'));
const drawings = files.filter((name) => name.endsWith('.svg'));
const read = (name: string): string => readFileSync(join(NOTES, name), 'utf8');

/** Targets of links and pictures within the notes; what stands in code is none. */
function targetsOf(page: string): string[] {
  const text = read(page)
    .replace(/```[\s\S]*?```/g, '')
    .replace(/`[^`\n]*`/g, '');
  return [...text.matchAll(/\]\(([^)\s]+)\)/g)]
    .map(([, target = '']) => target)
    .filter((target) => !/^[a-z]+:/.test(target));
}

/** As Markdown readers make a heading's address: small letters, hyphens for spaces, no other signs. */
const addressOf = (heading: string): string =>
  heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N} -]/gu, '')
    .replaceAll(' ', '-');
const headingsOf = (page: string): string[] =>
  [...read(page).matchAll(/^#+ (.+)$/gm)].map(([, heading = '']) => addressOf(heading));

test.each(pages)('%s: each link leads somewhere, to its heading too', (page) => {
  const astray = targetsOf(page).filter((target) => {
    const [path = '', heading] = target.split('#');
    const led = path === '' ? page : join(dirname(page), path);
    if (!existsSync(join(NOTES, led))) return true;
    return heading !== undefined && !headingsOf(led).includes(heading);
  });
  expect(astray).toEqual([]);
});

test('each drawing is shown on a page', () => {
  const shown = pages.flatMap((page) =>
    targetsOf(page).map((target) => join(dirname(page), target.split('#')[0] ?? '')),
  );
  expect(drawings.filter((drawing) => !shown.includes(drawing))).toEqual([]);
});

/** Reads elements one by one; says the first thing that is not well formed. */
function wrongOf(xml: string): string | undefined {
  const open: string[] = [];
  const ids = new Set<string>();
  const rest = xml.replace(/<(\/?)([a-zA-Z][\w:-]*)((?:\s+[\w:-]+="[^"<&]*")*)\s*(\/?)>/g, (...found) => {
    const [, closes, name, attributes, isEmpty] = found as string[];
    for (const [, id = ''] of (attributes ?? '').matchAll(/\sid="([^"]*)"/g)) {
      if (ids.has(id)) open.push(`id ${id} twice`);
      ids.add(id);
    }
    if (closes && open.pop() !== name) open.push(`</${name}>`);
    else if (!closes && !isEmpty) open.push(name ?? '');
    return '';
  });
  if (open.length > 0) return `not closed: ${open.join(' ')}`;
  const stray = /[<>]|&(?!amp;|lt;|gt;|quot;|#\d+;)/.exec(rest);
  return stray ? `at ${rest.slice(stray.index, stray.index + 30)}` : undefined;
}

test.each(drawings)('%s is well formed, and scales', (drawing) => {
  const svg = read(drawing).replace(/<\?xml[^>]*\?>|<!--[\s\S]*?-->/g, '');
  expect(wrongOf(svg)).toBeUndefined();
  expect(svg).toMatch(/^\s*<svg [^>]*viewBox="0 0 \d+ \d+"/);
});

test('what is not well formed is noticed', () => {
  for (const broken of ['<a><b></a></b>', '<a>', '<a x=1/>', '<a>&c</a>', '<a id="n"><b id="n"/></a>'])
    expect(wrongOf(broken)).toBeDefined();
});
