import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { untilKept } from './support/kept.js';
import {
  expectAccessible,
  expectNoSidewaysScroll,
  KEPT,
  openPage,
  picture,
  SIZES_TRIED,
  seasonToRead,
  servedSeason,
} from './support/page.js';

const readIn = (page: Page, language: string): Promise<void> =>
  page.evaluate((code) => localStorage.setItem('sandlarder.language', code), language);

const beds = (page: Page) => page.getByRole('region', { name: 'The beds' });

/** However far it is scrolled, and nothing that takes the focus lies under it [WCAG 2.4.11]. */
async function expectInSightBelowBanner(page: Page): Promise<void> {
  const last = beds(page).getByRole('link').last();
  const first = beds(page).getByRole('link').first();
  await last.focus();
  await first.focus();
  const [banner, link] = await Promise.all([page.locator('.away').boundingBox(), first.boundingBox()]);
  expect(banner?.y).toBe(0);
  expect(link?.y).toBeGreaterThanOrEqual(Math.floor(banner?.height ?? Number.POSITIVE_INFINITY));
}

describe.each(SIZES_TRIED)('without the service on a %s', (size) => {
  test('what was last seen is read with its age; a look is written there, and sent once when it is back', async () => {
    const served = await servedSeason();
    const { page, context } = await openPage(`${served.http}/beds`, size, KEPT);
    await beds(page).getByRole('link', { name: 'Pit A' }).waitFor();
    await page.getByText(/^Pit A: .*Open and unpack today/).waitFor();
    await untilKept(page);
    // Its words are on the device from now on; the beds were not seen in it.
    await readIn(page, 'sw');
    await page.goto(`${served.http}/jobs/waiting`);
    await page.getByText('Hakuna kinachosubiri').first().waitFor();
    await readIn(page, 'en');
    const look = await context.newPage();
    await look.goto(`${served.http}/jobs/inspect/pit-a`);
    await look.getByRole('heading', { name: 'A look into Pit A' }).waitFor();
    expect(await served.service.stop()).toBe(0);

    await page.goto(`${served.http}/beds`);
    await page.getByText(/^No word from the service since .*\d\d:\d\d/).waitFor();
    await beds(page)
      .getByText(/^As seen /)
      .waitFor();
    await page.getByText(/^Pit A: .*Open and unpack today/).waitFor();
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await expectInSightBelowBanner(page);
    await picture(page, `beds-away-${size}`);
    await readIn(page, 'sw');
    await page.reload();
    await page
      .getByText(/^Kama ilivyoonekana .*, kwa lugha ya English$/)
      .first()
      .waitFor();
    await page
      .locator('[lang="en"]', { hasText: /^Pit A: .*Open and unpack today/ })
      .first()
      .waitFor();
    await readIn(page, 'en');

    await look.reload();
    await look.getByLabel(/^I am/).fill('Wanja');
    await look.getByLabel('Yes, opened').check();
    await look.getByLabel('rot', { exact: true }).check();
    await look.getByRole('button', { name: 'Write it down' }).click();
    await look.getByRole('status').filter({ hasText: 'Kept on this device' }).waitFor();
    await look.reload();
    await look.getByText(/^One record waits on this device/).waitFor();
    const again = await servedSeason({ data: served.data, listen: new URL(served.http).host });
    await look.getByText(/^Sent: .*Pit A.*, written down .*\.$/).waitFor();
    await look.getByText(/^One record waits/).waitFor({ state: 'detached' });
    await picture(look, `sent-${size}`);
    const looks: { by: string }[] = await (await fetch(`${again.http}/api/beds/pit-a/inspections`)).json();
    expect(looks.filter(({ by }) => by === 'Wanja')).toHaveLength(1);
  });
});

test('answers of the service are not kept twice: the worker keeps the page alone', async () => {
  const { http } = seasonToRead();
  const { page } = await openPage(`${http}/beds`, 'phone', KEPT);
  await page.getByRole('link', { name: 'Pit A' }).first().waitFor();
  await untilKept(page);
  const kept = await page.evaluate(async () => {
    const names = await caches.keys();
    const all = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
    return all.flat().map(({ url }) => new URL(url).pathname);
  });
  expect(kept).toContain('/beds');
  expect(kept.filter((path) => !/^\/(assets\/|beds$|icon|app\.webmanifest)/.test(path))).toEqual([]);
});
