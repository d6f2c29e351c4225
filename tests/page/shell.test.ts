import { describe, expect, test } from 'vitest';
import {
  expectAccessible,
  expectNoSidewaysScroll,
  openPage,
  picture,
  SIZES_TRIED,
  seasonToRead,
} from './support/page.js';

describe.each(SIZES_TRIED)('the frame of the page on a %s', (size) => {
  test('leads to every part, names where one is, and says what is not there', async () => {
    const { http } = seasonToRead();
    const { page, complaints } = await openPage(http, size);
    const ways = page.getByRole('navigation', { name: 'Parts of this page' });
    await ways.getByRole('link', { name: 'Beds' }).waitFor();
    expect(await ways.getByRole('link', { name: 'Beds' }).getAttribute('aria-current')).toBe('page');
    await page.goto(`${http}/beds/nope/nothing`);
    await page.getByRole('heading', { name: 'There is no such page' }).waitFor();
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `frame-${size}`);
    expect(complaints).toEqual([]);
    await page.goto(`${http}/nowhere`);
    await page.getByRole('heading', { name: 'There is no such page' }).waitFor();
    await page.getByRole('link', { name: 'To the beds' }).click();
    await page.getByRole('heading', { name: 'Beds', level: 1 }).waitFor();
  });

  test.each([
    ['/beds/nobed', 'There is no bed with the id “nobed”.', 'To the beds'],
    ['/jobs/stock/nobed', 'There is no bed with the id “nobed”.', 'To the beds'],
    ['/jobs/inspect/nobed', 'There is no bed with the id “nobed”.', 'To the beds'],
    ['/alarms/none', 'There is no alarm with the id “none”.', 'To the alarms'],
    ['/trials/none', 'There is no trial with the id “none”.', 'To the trials'],
    ['/settings/probes/none', 'There is no probe with the id “none”.', 'To the probes'],
    ['/bench/calibrations/none', 'There is no calibration with the id “none”.', 'To the bench'],
  ])('says of %s what is not there, and leads to those that are', async (address, said, list) => {
    const { page } = await openPage(`${seasonToRead().http}${address}`, size);
    await page.getByText(said).waitFor();
    await page.getByRole('link', { name: list }).last().waitFor();
    expect(await page.getByText('Not taken').count()).toBe(0);
    if (address === '/beds/nobed') await expectAccessible(page);
  });
});

test('a device that was never here says times by the clock of the site, whichever page is opened first', async () => {
  const { http } = seasonToRead();
  const { page } = await openPage(`${http}/beds/pit-a`, 'phone', { timezoneId: 'Pacific/Auckland' });
  await page.getByRole('heading', { name: 'Pit A', level: 1 }).waitFor();
  await page.waitForFunction(() => localStorage.getItem('sandlarder.zone') === 'Africa/Lusaka');
  const since = page.locator('time').first();
  const said = new Intl.DateTimeFormat('en-GB', {
    ...{ hour: '2-digit', minute: '2-digit', timeZone: 'Africa/Lusaka' },
  }).format(Date.parse((await since.getAttribute('datetime')) ?? ''));
  await page.locator('time', { hasText: said }).first().waitFor();
});

test('printed it is black on white in every look, without what can only be pressed', async () => {
  const { http } = seasonToRead();
  const { page } = await openPage(`${http}/beds/pit-a`, 'phone');
  await page.evaluate(() => localStorage.setItem('sandlarder.look', 'dark'));
  await page.reload();
  await page.getByRole('heading', { name: 'Pit A', level: 1 }).waitFor();
  const ink = () => page.evaluate(() => getComputedStyle(document.body).color);
  const dark = await ink();
  await page.emulateMedia({ media: 'print' });
  expect(await ink()).toBe('rgb(42, 31, 20)');
  expect(dark).not.toBe(await ink());
  expect(await page.locator('main button:not(.as-link)').filter({ visible: true }).count()).toBe(0);
});

test('it looks as the device does, and as it does later', async () => {
  const { http } = seasonToRead();
  const { page } = await openPage(http, 'phone', { colorScheme: 'dark' });
  const inked = (colour: string) =>
    page.waitForFunction((wanted) => getComputedStyle(document.body).color === wanted, colour);
  await inked('rgb(245, 234, 219)');
  await page.emulateMedia({ colorScheme: 'light' });
  await inked('rgb(42, 31, 20)');
});
