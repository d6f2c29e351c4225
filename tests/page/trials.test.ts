import { expect, test } from 'vitest';
import {
  expectAccessible,
  expectNoSidewaysScroll,
  KEPT,
  openPage,
  picture,
  SIZES_TRIED,
  servedSeason,
} from './support/page.js';
import { keepTrial, trialData } from './support/trial.js';
import { askHowMany, changeIt, draw, giveByHand, onlyLook, writeDown } from './support/trial-steps.js';

test('trials: that there is none, what came of one, and one that is planned, written down, drawn and changed', async () => {
  const { data, filledAt } = trialData();
  const { http } = await servedSeason({ data });
  const nothing = await openPage(`${http}/trials`, 'phone');
  await nothing.page.getByText(/^No trial is written down yet/).waitFor();
  await nothing.page.goto(`${http}/trials/none`);
  await nothing.page.getByText('There is no trial with the id “none”.').waitFor();
  await keepTrial(http, filledAt);
  for (const size of SIZES_TRIED) {
    const at = await openPage(`${http}/jobs`, size, KEPT);
    const { page, complaints } = at;
    await page.getByRole('link', { name: 'Trials' }).click();
    await page.getByRole('heading', { name: 'Trials', level: 1 }).waitFor();
    await page.getByText('6 beds: fine sand, coarse sand').first().waitFor();
    await expectAccessible(page);
    await picture(page, `trials-${size}`);

    await page.getByRole('link', { name: 'Fine or coarse sand' }).click();
    await page.getByText(/^Treatments were given by hand\. Whatever chose them/).waitFor();
    await page
      .getByText(/^coarse sand less fine sand: 1[67]\.\d\s%; between \d+\.\d\s% and \d+\.\d\s% fits/)
      .waitFor();
    await page
      .getByRole('img', {
        name: /^Roots lost, in %, a line for each treatment\. At the end: fine sand 10\.0/,
      })
      .waitFor();
    await page.getByRole('row', { name: /^Box 2 coarse sand row 1 24\.0\s% 63/ }).waitFor();
    await page.getByText('How surely, and what it rests on').click();
    await page.getByText(/^Analysis of variance in randomised blocks: F\(1, 2\)/).waitFor();
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `trial-${size}`);

    await page.getByRole('radio', { name: /^Highest warmth/ }).check();
    await page.getByRole('radio', { name: 'Days of the calendar' }).check();
    await page.getByRole('img', { name: /^Highest warmth above a sound bed/ }).waitFor();
    await page.getByText('The same in numbers').first().click();
    await page.getByRole('columnheader', { name: 'coarse sand' }).waitFor();
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `trial-calendar-${size}`);

    const address = await page.getByRole('link', { name: 'Report as PDF file' }).getAttribute('href');
    const file = await fetch(http + address);
    expect([file.status, file.headers.get('content-type')]).toEqual([200, 'application/pdf']);
    const opened = page.waitForEvent('popup');
    await page.getByRole('link', { name: 'Report to print' }).click();
    const report = await opened;
    await report.getByRole('heading', { name: 'Trial: Fine or coarse sand' }).waitFor();
    await expectAccessible(report);
    await expectNoSidewaysScroll(report);
    await picture(report, `trial-report-${size}`);
    await report.close();

    await page.getByRole('link', { name: 'To the trials' }).click();
    for (const step of [askHowMany, writeDown, draw, changeIt, giveByHand, onlyLook]) await step(at, size);
    expect(complaints).toEqual([]);
  }
});
