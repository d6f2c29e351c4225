/** A season of ten-minute readings of nine probes is moved through without the page standing still. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { longSeason } from '../support/long-season.js';
import { countLongTasks, longTasks, runKnownTasks } from '../support/long-tasks.js';
import { openPage, picture, SIZES_TRIED } from '../support/page.js';
import { sharedByThese, sharedDirectory, sharedService } from '../support/shared.js';

/**
 * Long tasks while the season is dragged through in 60 steps and zoomed, beside as many as 60 tasks of known work have
 * on the same machine meanwhile. Plots that draw or ask for too much have one at every step.
 */
const LONG_TASKS_MOST = 8;
const DRAGS = 5;
const STEPS = 12;

/** Questions for readings over the same way: tiles of the span and one to either side, of ten series, at few levels. */
const QUESTIONS_MOST = 160;

/** Characters of one answer, before compression: parsing one must not be a long task on a cheap phone. */
const ANSWER_MOST = 400_000;

const season = sharedByThese((undo) => sharedService(undo, { data: longSeason(sharedDirectory(undo)) }));

const rested = (page: Page): Promise<void> =>
  page.waitForFunction(() => document.querySelector('.series-progress')?.textContent === '') as never;

test.each(SIZES_TRIED)('a long season is moved through on a %s', async (size) => {
  const { http } = await season();
  const { page } = await openPage(`${http}/beds/pit-l`, size);
  const answers: number[] = [];
  page.on('response', async (response) => {
    if (response.url().includes('/readings?')) answers.push((await response.text().catch(() => '')).length);
  });
  await page.getByText('In what is shown every probe stays as a sound bed does').waitFor();
  await rested(page);
  await page.getByRole('button', { name: 'Week' }).click();
  await rested(page);
  const plots = page.locator('.plots');
  await plots.scrollIntoViewIfNeeded();
  const box = await plots.boundingBox();
  if (!box) throw new Error('expected plots with a place on the screen');
  const y = box.y + 150;
  const [left, right] = [box.x + 0.25 * box.width, box.x + 0.85 * box.width];
  await countLongTasks(page);
  for (let drag = 0; drag < DRAGS; drag += 1) {
    await page.mouse.move(left, y);
    await page.mouse.down();
    for (let step = 1; step <= STEPS; step += 1)
      await page.mouse.move(left + ((right - left) * step) / STEPS, y);
    await page.mouse.up();
    await runKnownTasks(page, STEPS);
  }
  await page.getByRole('button', { name: 'Show less, closer' }).click();
  await page.getByRole('button', { name: 'Month' }).click();
  await rested(page);
  const shown = await page.locator('.series-span').textContent();
  expect(shown).toMatch(/^Shown: /);
  const { known, others } = await longTasks(page);
  expect(others).toBeLessThanOrEqual(LONG_TASKS_MOST + known);
  expect(answers.length).toBeLessThanOrEqual(QUESTIONS_MOST);
  expect(answers.length).toBeGreaterThan(9);
  expect(Math.max(...answers)).toBeLessThanOrEqual(ANSWER_MOST);
  await picture(page, `series-long-${size}`);
});
