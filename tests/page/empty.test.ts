import { expect, test } from 'vitest';
import { temporaryDirectory } from '../support/open.js';
import { expectAccessible, openPage, picture, servedSeason } from './support/page.js';

test('a service without a bed says how to begin', async () => {
  const { http } = await servedSeason({ data: temporaryDirectory() });
  const { page, complaints } = await openPage(http, 'phone');
  await page.getByRole('heading', { name: 'No bed is described yet' }).waitFor();
  expect(await page.getByRole('link', { name: 'Describe a bed' }).getAttribute('href')).toBe('/settings');
  expect(await page.getByRole('link', { name: 'Plan a bed' }).getAttribute('href')).toBe('/jobs/plan');
  await expectAccessible(page);
  await picture(page, 'beds-empty');
  expect(complaints).toEqual([]);
});
