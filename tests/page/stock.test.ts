import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import {
  expectAccessible,
  expectNoSidewaysScroll,
  KEPT,
  openPage,
  picture,
  SIZES_TRIED,
  servedSeason,
} from './support/page.js';
import { sharedSeason } from './support/shared.js';

const stockOf = async (http: string) =>
  (await (await fetch(`${http}/api/beds/box-b/stock`)).json()) as {
    left: number;
    entries: { kind: string; roots: number; by: string; reason: string }[];
  };

/** Somebody opened the bed and counted. */
async function countedLook(http: string): Promise<void> {
  const body = {
    ...{ at: new Date(Date.now() - 60_000).toISOString(), by: 'Amina', opened: true, repacked: false },
    ...{ found: ['rot'], looked: 40, rotten: 2, weevil: 0 },
  };
  const answer = await fetch(`${http}/api/beds/box-b/inspections`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  expect(answer.status).toBe(201);
}

/** For what is written down out of reach. */
const season = sharedSeason();

const form = (page: Page) => page.getByRole('form', { name: 'Write down what went in or out' });

async function writeDown(page: Page, reason: string, roots: string): Promise<void> {
  await form(page).getByRole('combobox', { name: 'Why' }).selectOption({ label: reason });
  await form(page).getByRole('textbox', { name: 'Roots' }).fill(roots);
  await form(page).getByLabel('I am (needed)').fill('Joseph');
  await form(page).getByRole('button', { name: 'Write it down' }).click();
}

describe.each(SIZES_TRIED)('the stock of a bed on a %s', (size) => {
  test('goes out, is taken back, and never below none', async () => {
    const { http } = await servedSeason();
    await countedLook(http);
    const { page, complaints } = await openPage(`${http}/jobs/stock/box-b`, size);
    await page.getByText('216 roots are left, about 61 kg.').waitFor();
    await page.getByText(/^Rot: \d.* %/).waitFor();
    await form(page).getByRole('button', { name: 'Write it down' }).click();
    await form(page).getByText('Expected a whole number from 1 to 1,000,000.').waitFor();

    await writeDown(page, 'sold', '30');
    await page.getByText('186 roots are left now.').waitFor();
    await page.getByText('186 roots are left, about 52 kg.').waitFor();

    await writeDown(page, 'eaten', '500');
    await form(page)
      .getByText(/expected no more to come out than the 216 roots that were there on .*, got 530/i)
      .waitFor();
    expect(await form(page).getByRole('textbox', { name: 'Roots' }).inputValue()).toBe('500');
    await picture(page, `stock-refused-${size}`);

    await page.getByRole('button', { name: 'Take it back: Out: 30 roots, sold' }).click();
    const back = page.getByRole('form', { name: 'Take it back' });
    await back.getByRole('textbox', { name: 'Roots to take back' }).fill('31');
    await back.getByRole('button', { name: 'Take back', exact: true }).click();
    await back.getByText('Expected a whole number from 1 to 30.').waitFor();
    await back.getByText('Expected a few words.').waitFor();
    await back.getByRole('textbox', { name: 'Roots to take back' }).fill('10');
    await back.getByRole('textbox', { name: 'What was wrong with it' }).fill('Counted twice');
    await back.getByRole('button', { name: 'Take back', exact: true }).click();
    await page.getByText('196 roots are left now.').waitFor();
    await page.getByText('10 of 30 were taken back.').waitFor();
    await page.getByText('Of “Out: 30 roots, sold”, because: Counted twice').waitFor();
    expect((await stockOf(http)).left).toBe(196);
    // The browser itself notes each answer that is a refusal.
    expect(complaints.filter((text) => !text.includes('409'))).toEqual([]);

    const food = page.getByRole('form', { name: 'How long it feeds' });
    await food.getByRole('textbox', { name: 'Persons' }).fill('4');
    await food.getByRole('button', { name: 'Reckon' }).click();
    await food.getByText('Expected a number from 0.01 to 1,000.').waitFor();
    await food.getByRole('textbox', { name: 'Each eats in a week' }).fill('2,5');
    await food.getByRole('textbox', { name: 'Months over which' }).fill('3');
    await food.getByRole('button', { name: 'Reckon' }).click();
    await page.getByText(/^Food for about \d+ weeks; likely between \d+ and \d+\.$/).waitFor();
    await page.getByText(/^To sell at the end of each month/).waitFor();
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `stock-${size}`);
  });
});

test('what was written down out of reach waits, and is sent once', async () => {
  const { http } = await season();
  const { page, context } = await openPage(`${http}/jobs/stock/box-b`, 'phone', KEPT);
  await page.getByRole('heading', { name: 'Stock of Box B in the hut' }).waitFor();
  await page.getByText('216 roots are left').waitFor();
  await context.setOffline(true);
  await writeDown(page, 'eaten', '8');
  const waits = page.getByText('Box B in the hut: 8 roots out, eaten');
  await waits.waitFor();
  await picture(page, 'stock-offline-phone');
  await page.getByText('216 roots are left').waitFor();
  // One that was wrong is not sent at all.
  await writeDown(page, 'sold', '9');
  await page.getByRole('button', { name: 'Do not send it: Box B in the hut: 9 roots out, sold' }).click();
  await page.getByText('9 roots out, sold').waitFor({ state: 'detached' });
  await context.setOffline(false);
  await page.getByText('208 roots are left').waitFor();
  await page.getByText(/^Sent: Box B in the hut: 8 roots out, eaten, written down /).waitFor();
  await page.getByRole('button', { name: 'Do not send it' }).waitFor({ state: 'detached' });
  const { left, entries } = await stockOf(http);
  expect(left).toBe(208);
  expect(entries.filter(({ by }) => by === 'Joseph')).toMatchObject([{ roots: 8, reason: 'eaten' }]);
});

test('what is sent from out of reach and refused says why, and stays', async () => {
  const { http } = await season();
  const before = (await stockOf(http)).left;
  const { page, context } = await openPage(`${http}/jobs/stock/box-b`, 'phone', KEPT);
  await page.getByRole('heading', { name: 'Stock of Box B in the hut' }).waitFor();
  await page.getByText(`${before} roots are left`).waitFor();
  await context.setOffline(true);
  await writeDown(page, 'sold', '300');
  await page.getByText('Box B in the hut: 300 roots out, sold').waitFor();
  await context.setOffline(false);
  // Of the same minute as what went out before, it stands first.
  await page.getByText(/expected no more to come out than the \d+ roots/i).waitFor();
  await page.getByRole('button', { name: 'Mend it: Box B in the hut: 300 roots out, sold' }).click();
  await page.getByText(`Only ${before} are left by what was written down.`).waitFor();
  await form(page)
    .getByRole('textbox', { name: 'Roots' })
    .fill(String(before - 16));
  await form(page).getByRole('button', { name: 'Write it down' }).click();
  await page.getByText('16 roots are left now.').waitFor();
  expect((await stockOf(http)).left).toBe(16);
});
