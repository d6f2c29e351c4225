/** The plots of a bed, used as people use them. */
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
} from '../support/page.js';

async function opened(size: Size) {
  const served = seasonToRead();
  const opened = await openPage(`${served.http}/beds/pit-a`, size);
  await part(opened.page).getByText('Warmest in what is shown').waitFor();
  await rested(opened.page);
  return { ...served, ...opened };
}

const rested = (page: Page): Promise<unknown> =>
  page.waitForFunction(() => document.querySelector('.series-progress')?.textContent === '');

/** The plots of the page. */
const part = (page: Page) => page.locator('.series');

const button = (page: Page, name: string) => part(page).getByRole('button', { name, exact: true });
const textOf = async (page: Page, place: string): Promise<string> =>
  (await page.locator(place).textContent()) ?? '';
const shown = (page: Page): Promise<string> => textOf(page, '.series-span');
const reading = (page: Page): Promise<string> => textOf(page, '.reading-words');

/** Until what is shown is another than it was. */
async function otherThan(page: Page, before: string): Promise<string> {
  await page.waitForFunction((text) => document.querySelector('.series-span')?.textContent !== text, before);
  return shown(page);
}

const dayOfMonth = (text: string): number => Number(/(\d+)/.exec(text)?.[1]);

async function readByKeys(page: Page): Promise<void> {
  const handle = part(page).getByRole('slider', { name: 'Time that is looked at' });
  await handle.focus();
  const before = await reading(page);
  await page.keyboard.press('ArrowLeft');
  await page.waitForFunction(
    (text) => document.querySelector('.reading-words')?.textContent !== text,
    before,
  );
  const words = await reading(page);
  expect(words).toMatch(/p0\d shows .*°C.*, .* the hand|lukewarm/);
  expect(words).toMatch(/A sound bed would show .*°C, give or take/);
  expect(words).toMatch(/The others: p0\d/);
  expect(await handle.getAttribute('aria-valuetext')).toBe(words);
  const season = await shown(page);
  await page.locator('.held').focus();
  await page.keyboard.press('+');
  const closer = await otherThan(page, season);
  await page.keyboard.press('Home');
  const first = await otherThan(page, closer);
  await page.keyboard.press('ArrowRight');
  await otherThan(page, first);
  await page.keyboard.press('Backspace');
  await page.keyboard.press('Backspace');
  await page.keyboard.press('Backspace');
  await page.waitForFunction((text) => document.querySelector('.series-span')?.textContent === text, season);
}

describe.each(SIZES_TRIED)('the plots of a bed on a %s', (size) => {
  test('say first what they show, are moved by buttons and back, and read out by keys alone', async () => {
    const { page } = await opened(size);
    expect(await textOf(page, '.series-summary')).toMatch(
      /^Warmest in what is shown: p0\d on .*°C above what a sound bed would show there/,
    );
    expect(await button(page, 'Season').getAttribute('aria-pressed')).toBe('true');
    const season = await shown(page);
    await button(page, 'Week').click();
    const week = await otherThan(page, season);
    await button(page, 'Earlier').click();
    const earlier = await otherThan(page, week);
    expect(earlier).not.toBe(season);
    await button(page, 'Show less, closer').click();
    await otherThan(page, earlier);
    await button(page, 'Back').click();
    await page.waitForFunction(
      (text) => document.querySelector('.series-span')?.textContent === text,
      earlier,
    );
    await rested(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `series-week-${size}`);
    await button(page, 'Season').click();
    await otherThan(page, earlier);
    await readByKeys(page);
  });

  test('put another probe in front, show what is asked for, mark what happened, say it as a list, and lead to it', async () => {
    const { page } = await opened(size);
    await part(page)
      .getByRole('button', { name: /^p02, 30 cm deep/ })
      .click();
    await page.waitForFunction(() =>
      /: p02 shows/.test(document.querySelector('.reading-words')?.textContent ?? ''),
    );
    await part(page).getByLabel('The others thin behind it').uncheck();
    await page.waitForFunction(
      () => !/The others/.test(document.querySelector('.reading-words')?.textContent ?? ''),
    );
    for (const plot of ['daily swing that arrives', 'shade outside'])
      await part(page).getByLabel(plot).check();
    await part(page).getByText('In the shade outside, °C').waitFor();
    await part(page)
      .getByText(/of the daily swing outside arrived at p02|For the five days to/)
      .waitFor();
    expect(await textOf(page, '.swing-words')).toMatch(/Dry sand lets about .* % through there/);
    await part(page).getByLabel('humidity', { exact: true }).uncheck();
    await part(page).getByText('Humidity of the air in the sand, %').waitFor({ state: 'detached' });
    await rested(page);
    const strip = part(page).getByRole('region', { name: 'What happened, along the time axis' });
    const marks = strip.getByRole('button');
    expect(await marks.count()).toBeGreaterThan(1);
    for (const mark of await marks.all()) {
      const place = await mark.boundingBox();
      expect(Math.min(place?.width ?? 0, place?.height ?? 0)).toBeGreaterThanOrEqual(44);
    }
    // Of the alarms the one to unpack is the newest.
    const last = strip.locator('[data-family="alarm"]').last();
    await last.click();
    expect(await last.getAttribute('aria-expanded')).toBe('true');
    const open = page.locator('.strip-open');
    await open.getByText(/Pit A: .*unpack today/i).waitFor();
    expect(await open.getByRole('link', { name: 'Open the alarm' }).first().getAttribute('href')).toMatch(
      /^\/alarms\/ridge-station\.pit-a\./,
    );
    await part(page)
      .getByText(/\d+ events in what is shown/)
      .click();
    const list = page.locator('.fold .series-events');
    await list.getByText(/Pit A: .*unpack today/i).waitFor();
    while (await part(page).getByRole('button', { name: 'Show more', exact: true }).isVisible())
      await part(page).getByRole('button', { name: 'Show more', exact: true }).click();
    await list
      .getByText(/Looked at without opening by Amina: nothing wrong found\./)
      .first()
      .waitFor();
    await part(page).getByText('The values as a table').click();
    await part(page).getByRole('columnheader', { name: 'Expected, °C' }).waitFor();
    expect(await page.locator('.series-values tbody tr').count()).toBeGreaterThan(20);
    for (const look of ['light', 'dark', 'sunlight']) {
      await page.evaluate((name) => {
        document.documentElement.dataset['look'] = name;
      }, look);
      await expectAccessible(page);
      await expectNoSidewaysScroll(page);
      await picture(page, `series-${look}-${size}`);
    }
  });
});

test('fingers move and spread the plots; without a network what was fetched stays, and what is missing is said', async () => {
  const { page, context } = await opened('phone');
  const hand = await context.newCDPSession(page);
  const touch = (type: string, points: readonly (readonly [number, number])[]) =>
    hand.send('Input.dispatchTouchEvent', {
      type: type as 'touchStart',
      touchPoints: points.map(([x, y], id) => ({ x, y, id })),
    });
  await button(page, 'Week').click();
  await rested(page);
  const plot = page.locator('.plot').first();
  await plot.scrollIntoViewIfNeeded();
  const box = await plot.boundingBox();
  const y = (box?.y ?? 0) + 100;
  const before = await shown(page);
  await touch('touchStart', [[120, y]]);
  for (let x = 130; x <= 260; x += 10) await touch('touchMove', [[x, y]]);
  await touch('touchEnd', []);
  const dragged = await otherThan(page, before);
  await touch('touchStart', [
    [150, y],
    [200, y],
  ]);
  for (let wider = 0; wider <= 60; wider += 10)
    await touch('touchMove', [
      [150 - wider, y],
      [200 + wider, y],
    ]);
  await touch('touchEnd', []);
  await otherThan(page, dragged);
  expect(await button(page, 'Week').getAttribute('aria-pressed')).toBe('false');
  expect(
    await plot.evaluate((element) => getComputedStyle(element.closest('.held') as Element).touchAction),
  ).toBe('pan-y');

  await context.setOffline(true);
  await button(page, 'Day').click();
  await part(page).getByText('A part is missing').waitFor();
  expect(await reading(page)).toMatch(/p0\d shows/);
  await context.setOffline(false);
  await part(page).getByRole('button', { name: 'Try again' }).click();
  await part(page).getByText('A part is missing').waitFor({ state: 'detached' });
  await rested(page);
});

test('the mouse drags and points; its wheel turns the page until the plots are worked with', async () => {
  const { page } = await opened('desk');
  await button(page, 'Week').click();
  await rested(page);
  const plot = page.locator('.plot').first();
  await plot.scrollIntoViewIfNeeded();
  const box = await plot.boundingBox();
  const [x, y] = [(box?.x ?? 0) + 500, (box?.y ?? 0) + 120];
  await page.mouse.move(x, y);
  await page.locator('.crosshair').waitFor();
  const before = await shown(page);
  await page.mouse.wheel(0, 120);
  await page.waitForFunction(() => scrollY > 0);
  expect(await shown(page)).toBe(before);
  await page.evaluate(() => scrollTo(0, 0));
  await plot.scrollIntoViewIfNeeded();
  const place = await plot.boundingBox();
  const [px, py] = [(place?.x ?? 0) + 500, (place?.y ?? 0) + 120];
  await page.mouse.move(px, py);
  await page.mouse.down();
  await page.mouse.move(px + 80, py);
  await page.mouse.move(px + 200, py);
  await page.mouse.up();
  const dragged = await otherThan(page, before);
  await page.locator('.held').focus();
  await page.mouse.move(px, py);
  await page.mouse.wheel(0, -400);
  await otherThan(page, dragged);
  expect(dayOfMonth(dragged)).toBeGreaterThan(0);
});
