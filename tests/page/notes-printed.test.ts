import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { noteAsPage } from '../support/note-as-page.js';
import { openPage } from './support/page.js';

const NOTE = new URL('../../firmware-notes/first-season.md', import.meta.url);

test('a first season is two printed pages, neither more nor less', async () => {
  const { page } = await openPage('about:blank', 'desk');
  await page.setContent(noteAsPage(readFileSync(NOTE, 'utf8')));
  expect(await page.getByRole('table').count()).toBe(4);
  const pdf = await page.pdf({ preferCSSPageSize: true });
  expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(2);
});
