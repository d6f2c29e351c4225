/** A trial by clicking, as a person at a station does it. */
import { expect } from 'vitest';
import { expectAccessible, expectNoSidewaysScroll, type OpenPage, picture, type Size } from './page.js';

type Step = (at: OpenPage, size: Size) => Promise<void>;

/** Years in which no other trial has these beds. */
const YEARS: Readonly<Record<Size, number>> = { phone: 2023, desk: 2022 };

const look = async ({ page }: OpenPage, name: string): Promise<void> => {
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await picture(page, name);
};

export const askHowMany: Step = async (at, size) => {
  const { page } = at;
  await page.getByRole('link', { name: 'How many beds a trial needs' }).click();
  await page.getByRole('button', { name: 'How many beds?' }).click();
  await page.getByText(/^2 fields are not as expected/).waitFor();
  await page.getByLabel('Difference worth having').fill('10');
  await page.getByLabel('By how much beds differ').fill('8');
  await page.getByRole('button', { name: 'How many beds?' }).click();
  await page.getByText('12 beds of each of 2 treatments: 24 beds in all.').waitFor();
  await page.getByText(/by 10, and beds kept alike by 8, such a trial finds it in 8\d of 100/).waitFor();
  await look(at, `trial-size-${size}`);
};

export const writeDown: Step = async (at, size) => {
  const { page, context } = at;
  await page.getByRole('link', { name: 'Write such a trial down' }).click();
  await page.getByLabel('Name of the trial').fill(`Wet or dry, ${size}`);
  for (const [nth, [name, done]] of [
    ['wet', 'Sand with 8 % water.'],
    ['dry', ''],
  ].entries()) {
    const treatment = page.getByRole('group', { name: `Treatment ${nth + 1}` });
    await treatment.getByLabel('Its name').fill(name ?? '');
    await treatment.getByLabel('What is done').fill(done ?? '');
  }
  await page.getByRole('radio', { name: /^Within blocks/ }).check();
  for (const [nth, block] of ['north', 'north', 'south', ''].entries()) {
    const bed = `Box ${nth + 1}`;
    await page.getByRole('checkbox', { name: bed }).check();
    await page.getByLabel(`Block of ${bed}`).fill(block);
  }
  await page.getByText(/^Block “south”: one bed cannot be shared out evenly among 2 treatments/).waitFor();
  await page.getByLabel('When treatments begin').fill(`${YEARS[size]}-05-04T08:00`);
  await page.getByLabel('When the trial ends').fill(`${YEARS[size]}-09-04T08:00`);
  await page.getByLabel(/^I am/).fill('Amina');
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByRole('button', { name: 'Beds that take part: Block of Box 4' }).waitFor();
  await look(at, `trial-new-${size}`);
  await page.getByLabel('Block of Box 4').fill('south');
  await context.setOffline(true);
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText(/^The service does not answer\. What you typed is still there/).waitFor();
  await context.setOffline(false);
  await page.reload();
  await page.getByText('4 beds, 2 treatments: 2 of each.').waitFor();
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByRole('heading', { name: `Wet or dry, ${size}`, level: 1 }).waitFor();
};

export const draw: Step = async (at, size) => {
  const { page } = at;
  await page.getByRole('button', { name: 'Draw by chance' }).click();
  const drawn = page.getByText(/^Drawn by chance with seed \d+, .* by Amina\. It is not in force yet/);
  const [, seed = ''] = /seed (\d+)/.exec((await drawn.textContent()) ?? '') ?? [];
  const rows = await page.getByRole('row', { name: /^Box \d (north|south) (wet|dry)$/ }).allTextContents();
  expect(rows).toHaveLength(4);
  await look(at, `trial-drawn-${size}`);
  await page.getByRole('button', { name: 'Put this draw in force' }).click();
  await page.getByText(`Treatments were drawn by chance, with seed ${seed}.`).waitFor();
};

export const changeIt: Step = async (at, size) => {
  const { page } = at;
  await page.getByRole('link', { name: 'Change this trial' }).click();
  await page.getByLabel('Name of the trial').fill(`Wet, ${size}`);
  await page.getByRole('checkbox', { name: /^Box 4: (wet|dry)$/ }).uncheck();
  await page.getByText('A bed was treated otherwise').click();
  const first = page.getByLabel('Treatment of Box 1');
  const had = await first.inputValue();
  await first.selectOption(had === 'wet' ? 'dry' : 'wet');
  await page.getByRole('button', { name: 'Keep the change' }).click();
  await page.getByText(/^The trial will no longer count as drawn by chance/).waitFor();
  await page.getByRole('button', { name: 'No, leave it' }).click();
  await first.selectOption(had);
  await page.getByRole('button', { name: 'Keep the change' }).click();
  await page.getByRole('button', { name: 'Why' }).waitFor();
  await look(at, `trial-change-${size}`);
  await page.getByLabel('Why').fill('A goat opened box 4.');
  await page.getByRole('button', { name: 'Keep the change' }).click();
  await page.getByRole('heading', { name: `Wet, ${size}`, level: 1 }).waitFor();
  await page.getByText(/^Treatments were drawn by chance, with seed/).waitFor();
  await page.getByText('What was changed, and who said so').click();
  await page.getByText('Out of the trial: Box 4.').waitFor();
  await page.getByText('Why: A goat opened box 4.').waitFor();
  await page.getByText(/^The draw with seed \d+ came in force/).waitFor();
  await look(at, `trial-history-${size}`);
};

/** Of a trial that is not drawn: a treatment for each bed, and why chance did not choose. */
export const giveByHand: Step = async ({ page }, size) => {
  const trial = `old-${size}`;
  const from = `${YEARS[size] - 5}-05-04T08:00:00Z`;
  await page.request.post(new URL('/api/trials', page.url()).href, {
    data: {
      ...{ trial, name: 'Old', at: from, by: 'Amina', from, to: from.replace('-05-', '-06-') },
      ...{ design: 'complete', treatments: ['deep', 'shallow'], outcome: { kind: 'loss', day: 60 } },
      beds: [{ bed: 'box-1' }, { bed: 'box-2' }],
    },
  });
  await page.goto(new URL(`/trials/${trial}`, page.url()).href);
  await page.getByText('Give treatments by hand instead').click();
  await page.getByLabel('Treatment of Box 1').selectOption('shallow');
  await page.getByRole('button', { name: 'Give these treatments' }).click();
  await page.getByRole('button', { name: 'Treatment of Box 2' }).waitFor();
  await page.getByLabel('Treatment of Box 2').selectOption('deep');
  await page.getByLabel('Why').fill('It was filled so before anybody thought of a trial.');
  await page.getByRole('button', { name: 'Give these treatments' }).click();
  await page.getByText(/^Treatments were given by hand\. Whatever chose them/).waitFor();
};

/** Whoever may only look is offered nothing else. */
export const onlyLook: Step = async ({ page }) => {
  await page.route('**/api/me', async (route) => {
    const answer = await route.fetch();
    await route.fulfill({ response: answer, json: { ...(await answer.json()), may: ['look'] } });
  });
  await page.goto(new URL('/trials', page.url()).href);
  await page.getByRole('link', { name: 'How many beds a trial needs' }).waitFor();
  await expect.poll(() => page.getByRole('link', { name: 'New trial' }).count()).toBe(0);
};
