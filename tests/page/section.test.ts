import { connectAsync } from 'mqtt';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import {
  expectAccessible,
  expectNoSidewaysScroll,
  openPage,
  picture,
  SIZES_TRIED,
  type Size,
  seasonToRead,
  servedSeason,
} from './support/page.js';

const LOOKS = ['light', 'dark', 'sunlight'] as const;

/** Whatever is waited for: coverage takes seconds of a core that others use too. */
const PATIENCE = { timeout: 90_000 };

const handle = (page: Page) => page.getByRole('slider', { name: 'Go back through the season' });
const source = (page: Page) => page.locator('.cut .round[data-kind="source"]');
const mark = (page: Page, view: string, probe: string) => page.locator(`#probe-${view}-${probe}`);

async function openBed(size: Size, { http, mqtt } = seasonToRead()) {
  const opened = await openPage(`${http}/beds/pit-a`, size);
  await opened.page.getByRole('heading', { name: 'Pit A', level: 1 }).waitFor();
  await mark(opened.page, 'along', 'p01').waitFor();
  return { ...opened, http, mqtt };
}

describe.each(SIZES_TRIED)('a bed on a %s', (size) => {
  test('shows its source at the end of the season, and none before the rot; opens a probe by a tap and by keys', async () => {
    const { page, complaints } = await openBed(size);
    await source(page).first().waitFor({ state: 'attached' });
    expect(await source(page).count()).toBe(3);
    await page.getByText(/^Likely source: .* look within \d+ cm of there\.$/).waitFor();
    await handle(page).focus();
    await page.keyboard.press('Home');
    for (let day = 0; day < 20; day += 1) await page.keyboard.press('PageUp');
    expect(await handle(page).getAttribute('aria-valuetext')).toContain('day 21');
    await page.getByText('Shows what was measured nearest to that time').waitFor();
    await page.getByText('No source of warmth was suspected then.').waitFor();
    expect(await source(page).count()).toBe(0);
    // Of that time, not of now.
    expect(await mark(page, 'along', 'p01').getAttribute('aria-label')).toContain('as expected');
    await page.keyboard.press('ArrowLeft');
    expect(await handle(page).getAttribute('aria-valuetext')).toContain('day 20');
    await page.keyboard.press('End');
    await source(page).first().waitFor({ state: 'attached' });
    expect(await mark(page, 'along', 'p01').getAttribute('aria-label')).toContain('much warmer');

    const p03 = mark(page, 'above', 'p03');
    if (size === 'phone') {
      await page.getByText('The other two drawings').click();
      await p03.tap();
    } else await p03.click();
    const panel = page.locator('.probe-open');
    await panel.getByRole('heading', { name: 'Probe p03' }).waitFor();
    await panel.getByText('Not calibrated').waitFor();
    await panel.getByRole('button', { name: 'Close' }).click();
    await mark(page, 'along', 'p01').focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await panel.getByRole('heading', { name: 'Probe p02' }).waitFor();
    await page.keyboard.press('Shift+Tab');
    await panel.getByRole('button', { name: 'Close' }).press('Enter');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('probe-along-p02');
    expect(complaints).toEqual([]);
  });

  test('is told in words, breaks no rule of access and fits the window, in every look', async () => {
    const { page, complaints } = await openBed(size);
    await page.getByText('What happened').click();
    await page.getByText('The probes as a table').click();
    await page.getByRole('rowheader', { name: 'p04' }).waitFor();
    for (const look of LOOKS) {
      await page.evaluate((name) => {
        document.documentElement.dataset['look'] = name;
      }, look);
      await expectAccessible(page);
      await expectNoSidewaysScroll(page);
      await picture(page, `section-${size}-${look}`);
    }
    await page.setViewportSize({ width: 320, height: 640 });
    await page.evaluate(() => localStorage.setItem('sandlarder.look', 'sunlight'));
    await page.reload();
    await mark(page, 'along', 'p01').waitFor();
    await expectNoSidewaysScroll(page);
    expect(complaints).toEqual([]);
  });
});

test('the coverage is worked out, shaded, listed in words, and refuses what it cannot be asked', async () => {
  const { page, complaints } = await openBed('desk');
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  await page.getByLabel('Show what the probes see').check();
  await page.getByLabel('Days').waitFor();
  expect(asked.filter((url) => url.includes('/coverage'))).toEqual([]);
  await page.getByRole('button', { name: 'Work it out' }).click();
  await page.getByRole('heading', { name: 'Blind spots' }).waitFor(PATIENCE);
  await page.getByText(/^In \d+ % of the bed the 4 probes find a rot of 2 W within 7 days/).waitFor();
  for (const sight of ['seen', 'blind'])
    expect(await page.locator(`.cut [fill="url(#cut-${sight})"]`).count()).toBeGreaterThan(0);
  await page.getByLabel('Days').fill('22');
  await page.getByRole('button', { name: 'Work it out' }).click();
  await page.getByText('Expected a whole number of days, 1 to 21.').waitFor();
  expect(await page.getByLabel('Days').inputValue()).toBe('22');
  await page.getByRole('button', { name: 'Where would one more probe help most?' }).click();
  await page.getByText(/With it \d+ % of the bed are seen\./).waitFor(PATIENCE);
  await expectAccessible(page);
  await picture(page, 'section-coverage');
  expect(complaints).toEqual([]);
});

test('a reading that arrives moves the drawing without a reload', async () => {
  const { page, mqtt } = await openBed('desk', await servedSeason());
  const before = await mark(page, 'along', 'p02').getAttribute('aria-label');
  expect(before).not.toContain('measured 24.6');
  const client = await connectAsync(mqtt);
  const pack = [{ n: 'temperature', u: 'Cel', v: 24.6, t: Math.floor(Date.now() / 1000) }];
  await client.publishAsync('sandlarder/v1/ridge-station/probes/p02/readings', JSON.stringify(pack), {
    qos: 1,
  });
  await client.endAsync();
  await page.locator('#probe-along-p02[aria-label*="measured 24.6"]').waitFor();
});

test('plays by itself only where motion is welcome, and stops when it is told to', async () => {
  const { http } = seasonToRead();
  const { page } = await openPage(`${http}/beds/pit-a`, 'desk', { reducedMotion: 'reduce' });
  await handle(page).waitFor();
  expect(await page.getByRole('button', { name: 'Play slowly' }).count()).toBe(0);
  await page.emulateMedia({ reducedMotion: 'no-preference' });
  await handle(page).focus();
  await page.keyboard.press('Home');
  await page.getByRole('button', { name: 'Play slowly' }).click();
  await page.locator('input[type="range"][aria-valuetext*="day 2"]').waitFor();
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.getByRole('button', { name: 'Play slowly' }).waitFor();
});
