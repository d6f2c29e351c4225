import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
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

const heading = (page: Page, name: string | RegExp) => page.getByRole('heading', { name });

const seen = (page: Page) => page.getByRole('form', { name: 'I have seen it' });

/** By the clock of the site, which is not that of the browser, as the browser of these tests writes it. */
async function raisedOnSite(http: string, url: string): Promise<string> {
  const { raisedAt } = (await (await fetch(`${http}/api${new URL(url).pathname}`)).json()) as {
    raisedAt: string;
  };
  return new Intl.DateTimeFormat('en-GB', {
    ...{ day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit', timeZone: 'Africa/Lusaka' },
  }).format(Date.parse(raisedAt));
}

/** From the list to the call to unpack pit A. */
async function openUnpack(page: Page): Promise<void> {
  const line = page.locator('.alarm-list article', { hasText: 'Open and unpack today' }).first();
  await line.getByRole('link', { name: 'Pit A' }).click();
  await heading(page, 'Pit A: Open and unpack today').waitFor();
}

describe.each(SIZES_TRIED)('alarms on a %s', (size) => {
  test('open ones come first; earlier ones are chosen among', async () => {
    const { http } = seasonToRead();
    const { page } = await openPage(`${http}/alarms`, size);
    const open = page.getByRole('region', { name: 'What waits for somebody' });
    await open.getByRole('article').first().waitFor();
    expect(await open.getByRole('article').first().textContent()).toContain('Open and unpack today');
    const past = page.getByRole('region', { name: 'Earlier ones' });
    await past.getByLabel('Bed').selectOption('box-b');
    await past.getByLabel('What became of it').selectOption('normal');
    await past
      .getByRole('status')
      .filter({ hasText: 'None that fits.' })
      .or(past.getByRole('article'))
      .first()
      .waitFor();
    expect(await past.getByRole('article', { name: /Pit A/ }).count()).toBe(0);
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `alarms-${size}`);
  });

  test('one says what, where, why and what to do, and takes an answer', async () => {
    const { http } = await servedSeason();
    const { page } = await openPage(`${http}/alarms`, size);
    await openUnpack(page);
    await page.getByText(`Established by ${await raisedOnSite(http, page.url())}`).waitFor();
    await page.getByRole('img', { name: /The bed from above.*place to look at/ }).waitFor();
    await page.getByText('Throw away every mouldy, bitter or rotten root').first().waitFor();

    await page
      .getByText(/^That figure is of .*: \+\d\.\d °C beside a sound bed, at probe p\d\d\.$/)
      .waitFor();
    await page.getByText(/^Now: \+\d/).waitFor();

    await page.getByText(/^How sure: (not very|fairly|very) sure/).click();
    await page.getByText('heating_unpack_per_bed_month').waitFor();
    await page.getByText(/^Warmer than a sound bed would be there/).click();
    await page.getByRole('img', { name: /Measured temperature of probe p\d\d: from/ }).waitFor();
    await page.getByText('No calibration was in force then').first().waitFor();
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `alarm-${size}`);

    const first = page.getByRole('checkbox').first();
    await first.check();
    await page.reload();
    await heading(page, 'What to do').waitFor();
    expect(await first.isChecked()).toBe(true);

    await page.getByRole('button', { name: 'I have seen it' }).click();
    await page.getByRole('alert').filter({ hasText: 'Say who you are.' }).waitFor();
    await seen(page).getByLabel(/^I am/).fill('Amina');
    await page.getByLabel('Note').fill('on my way');
    await page.getByRole('button', { name: 'I have seen it' }).click();
    await page.getByText(/^Seen by Amina,/).waitFor();
    await page.getByText('“on my way”').waitFor();

    await page.getByText('Be quiet for a time').click();
    await page.getByLabel('For how many hours').fill('100');
    await page.getByRole('button', { name: 'Be quiet', exact: true }).click();
    await page.getByRole('alert').filter({ hasText: 'at most 72' }).waitFor();
    await page.getByLabel('For how many hours').fill('6');
    expect(await page.getByLabel(/^I am/).inputValue()).toBe('Amina');
    await page.getByRole('button', { name: 'Be quiet', exact: true }).click();
    await page.getByText(/^Quiet until .* asked for by Amina/).waitFor();

    const href = await page.getByRole('link', { name: /CAP 1\.2/ }).getAttribute('href');
    expect(await (await fetch(`${http}${href}`)).text()).toContain('urn:oasis:names:tc:emergency:cap:1.2');
  });

  test('one that is none says so, and stays readable where the service is away', async () => {
    const { http } = seasonToRead();
    const { page, context } = await openPage(`${http}/alarms/none`, size, KEPT);
    await page.getByRole('alert').filter({ hasText: 'There is no alarm with the id “none”.' }).waitFor();
    await page.goto(`${http}/alarms`);
    await openUnpack(page);
    await heading(page, 'What became of it').waitFor();
    await context.setOffline(true);
    await page.getByRole('link', { name: 'All alarms' }).click();
    await openUnpack(page);
    await page.getByText(/^As seen/).waitFor();
    await page.getByRole('button', { name: 'I have seen it' }).waitFor();
    await seen(page).getByLabel(/^I am/).fill('Amina');
    await page.getByRole('button', { name: 'I have seen it' }).click();
    await page.getByRole('alert').filter({ hasText: 'The service does not answer' }).waitFor();
    expect(await seen(page).getByLabel(/^I am/).inputValue()).toBe('Amina');
  });
});
