import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import {
  expectAccessible,
  expectNoSidewaysScroll,
  openPage,
  picture,
  SIZES,
  type Size,
  seasonToRead,
} from './support/page.js';
import { wetTheBox } from './support/publish.js';
import { sharedSeason } from './support/shared.js';

const season = sharedSeason();
const sizes = Object.keys(SIZES) as Size[];
const today = (page: Page) => page.getByRole('region', { name: 'Today' });
const card = (page: Page, name: string) =>
  page.getByRole('region', { name: 'The beds' }).getByRole('listitem').filter({ hasText: name }).first();

test('what needs somebody comes first, then how each bed stands; what comes up is told while the page is open', async () => {
  const served = await season();
  const opened = await Promise.all(
    sizes.map(async (size) => ({ size, ...(await openPage(served.http, size)) })),
  );
  for (const { page, size } of opened) {
    await today(page)
      .getByText(/^Pit A: .*Open and unpack today/)
      .waitFor();
    await today(page).getByText('Nobody has it in hand yet.').waitFor();
    expect(await card(page, 'Pit A').textContent()).toMatch(
      /open and unpack today since .*Warmest against sound\+\d+\.\d °C at probe p01, 30 cm deep/,
    );
    expect(await card(page, 'Box B').textContent()).toMatch(
      /look at the next visit since .*Newest reading\d+ (minutes|hours) ago.*Next look by handdue (?:\d+ days ago|\d+ \w+ 20\d\d)/,
    );
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `beds-${size}`);
  }
  await wetTheBox(served);
  for (const { page, size, complaints } of opened) {
    await page
      .getByRole('status')
      .filter({ hasText: /^New: Box B in the hut: water in the sand/ })
      .waitFor();
    await today(page)
      .getByText(/^Box B in the hut: water in the sand/)
      .waitFor();
    await card(page, 'Box B').getByText('open and unpack today').waitFor();
    await expectAccessible(page);
    await picture(page, `beds-came-up-${size}`);
    await today(page)
      .getByRole('link', { name: /step by step Box B/ })
      .click();
    await page.getByRole('heading', { level: 1, name: /Box B in the hut/ }).waitFor();
    expect(complaints).toEqual([]);
  }
});

test('each thing leads to the form that it asks for, and what is put off says by whom', async () => {
  const { http } = await season();
  const { page } = await openPage(http, 'phone');
  await today(page).getByText('Nobody has it in hand yet.').first().waitFor();
  const [{ id }] = (await (await fetch(`${http}/api/alarms?bed=pit-a&state=unacknowledged`)).json()).filter(
    ({ action }: { action: string }) => action === 'unpack',
  );
  const body = JSON.stringify({ by: 'Joseph', hours: 6 });
  const headers = { 'content-type': 'application/json' };
  await fetch(`${http}/api/alarms/${id}/shelve`, { method: 'POST', headers, body });
  await today(page)
    .getByText(/Joseph has put it off until .*\d/)
    .waitFor();
});

test.each(['sunlight', 'dark'])(
  'the %s look can be read, and stands still where that is asked for',
  async (look) => {
    const { http } = seasonToRead();
    const { page } = await openPage(http, 'phone', { reducedMotion: 'reduce' });
    await page.evaluate((name) => localStorage.setItem('sandlarder.look', name), look);
    await page.reload();
    await card(page, 'Pit A').waitFor();
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `beds-${look}`);
    expect(await page.evaluate(() => document.getAnimations().length)).toBe(0);
  },
);
