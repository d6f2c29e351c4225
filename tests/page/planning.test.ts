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
} from './support/page.js';
import { sharedSeason } from './support/shared.js';

/** The service looks for places of probes in its own time: waited for at one size, that it may not take all. */
const PLACING_ms = 90_000;

async function looked(page: Page, name: string): Promise<void> {
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await picture(page, name);
}

async function typeStep(page: Page, step: number, sides: readonly [string, string, string]): Promise<void> {
  const group = page.getByRole('group', { name: `Step ${step}, counted from the top` });
  for (const [index, side] of (['Length', 'Width', 'Height'] as const).entries())
    await group.getByLabel(side).fill(sides[index] ?? '');
}

describe.each(SIZES_TRIED)('planning a bed on a %s', (size) => {
  test('from roots and from a space that is too small; kept, and handed to a new bed', async () => {
    const { http } = seasonToRead();
    const { page, complaints } = await openPage(`${http}/jobs/plan`, size);
    const send = page.getByRole('button', { name: 'Plan it' });
    await page.getByLabel('Roots to keep').fill('many');
    await send.click();
    await page.getByText('Expected a whole number from 1, such as 400.').waitFor();
    expect(await page.getByLabel('Roots to keep').inputValue()).toBe('many');
    await looked(page, `plan-wrong-${size}`);

    await page.getByLabel('Roots to keep').fill('30');
    await page.getByText('Measures of your own body').click();
    await page.getByLabel('Breadth of your hand with the thumb').fill('9');
    await send.click();
    await page.getByText('Looking for the best places for probes.', { exact: false }).waitFor();
    await page.getByText(/Trenches can cave in/).waitFor();
    if (size === 'phone')
      await page.getByText(/would be found within a week in/).waitFor({ timeout: PLACING_ms });
    await picture(page, `plan-${size}`);

    await page.getByLabel('The space that I have').check();
    await page.getByLabel('Find places for probes too').uncheck();
    await typeStep(page, 1, ['150', '60', '25']);
    await page.getByRole('button', { name: 'Add a step below' }).click();
    await typeStep(page, 2, ['160', '60', '25']);
    await page.getByLabel('Roots to keep in it').fill('300');
    await send.click();
    await page.getByText(/step 2: expected a length of at most 150 cm/).waitFor();
    await typeStep(page, 2, ['100', '60', '25']);
    await send.click();
    await page
      .getByText('300 roots were asked for; this bed takes 185 at the most', { exact: false })
      .waitFor();
    await page.getByText('The nearest that takes all is one bed of', { exact: false }).waitFor();
    await looked(page, `plan-no-fit-${size}`);
    await page.getByRole('button', { name: 'Plan the nearest' }).click();
    await page.getByText('It does not fit').waitFor({ state: 'hidden' });

    expect(await page.getByRole('link', { name: 'Make this bed' }).getAttribute('href')).toMatch(
      /^\/settings\/beds\/new\?kind=stepped-pit&steps=\d+x60x25,\d+x60x25$/,
    );
    await page.getByRole('button', { name: 'Keep it on this device' }).click();
    await page.getByText('Kept on this device. It is found here').waitFor();
    await page.goto(`${http}/jobs`);
    await page.getByRole('link', { name: /^Kept on this device: Stepped pit of .* for 300 roots$/ }).click();
    await page.getByRole('heading', { name: 'The plan' }).waitFor();
    await page.getByText(/300 roots, .* from the floor up/i).waitFor();
    expect(complaints.filter((text) => !text.includes('422'))).toEqual([]);
  });
});

describe.each(SIZES_TRIED)('sand and readiness on a %s', (size) => {
  const season = sharedSeason();

  test('sand is judged, each verdict with its limit and source, and kept with who said so', async () => {
    const { http } = await season();
    const { page, complaints } = await openPage(`${http}/jobs/sand`, size);
    const judge = page.getByRole('button', { name: 'Judge it' });
    await judge.click();
    await page.getByText('Expected one of the three', { exact: false }).waitFor();
    await page.getByLabel('I sieved a dry sample').check();
    await page.getByRole('button', { name: 'Put in the usual sieves' }).click();
    for (const [index, grams] of ['0', '10', '40', '250', '500', '150', 'x'].entries())
      await page.getByLabel(`Left on sieve ${index + 1}, in g`).fill(grams);
    await page.getByLabel('Fell through all of them').fill('10');
    await judge.click();
    await page.getByText('Expected a mass in g of 0 or more, such as 250.').waitFor();
    await looked(page, `sand-wrong-${size}`);
    await page.getByLabel('Left on sieve 7, in g').fill('40');
    await judge.click();
    await page.getByRole('heading', { name: 'Grains: good', exact: false }).waitFor();

    await page.getByLabel('I weighed a sample moist and dried').check();
    await page.getByRole('textbox', { name: 'Moist' }).fill('820,1');
    await page.getByLabel('Dried, weighing 1').fill('801');
    await page.getByLabel('Dried, weighing 2').fill('800,9');
    await page.getByLabel('The container alone').fill('300');
    await page.getByLabel('I measured how warm the sand is').check();
    await page.getByLabel('Sand, in its warmest place').fill('27');
    await page.getByLabel('Mean of the shade over a day').fill('22');
    await page.getByLabel('How thick it is spread').fill('10');
    await page.getByLabel('Keep it for a bed').selectOption({ label: 'Pit C by the fig tree' });
    await page.getByRole('button', { name: 'Judge it and keep it' }).click();
    await page.getByText('Expected the name of whoever measured it.').waitFor();
    await page.getByLabel('Who measured it').fill('Wanja');
    await page.getByRole('button', { name: 'Judge it and keep it' }).click();
    await page.getByText('Kept for Pit C by the fig tree.').waitFor();
    const answer = page.getByRole('region', { name: 'What it comes to' });
    await answer.getByRole('heading', { name: 'Water: not good' }).waitFor();
    await answer.getByText(/harms the lungs/).waitFor();
    await answer.getByText('Where the limit comes from').nth(1).click();
    await answer.getByText('sand_dry_enough_percent').waitFor();
    await page
      .getByRole('region', { name: 'Earlier tests of Pit C by the fig tree' })
      .getByText(/, Wanja$/)
      .waitFor();
    await looked(page, `sand-${size}`);
    expect(complaints).toEqual([]);
  });

  test('readiness is answered by hand, kept, and overridden with a reason', async () => {
    const { http } = await season();
    const { page, complaints } = await openPage(`${http}/jobs/ready/pit-c`, size);
    const point = (question: string) => page.getByRole('article', { name: question });
    await point('Is the air in the open pit dry?').getByText('83.0 %RH (p22)').waitFor();
    await page.getByText('a reason is given against a list that is kept', { exact: false }).waitFor();
    await point('Does a roof keep rain').getByLabel('Yes').check();
    await point('Does a ditch around').getByLabel('No', { exact: true }).check();
    await point('How long were the roots cured').getByLabel('Days').fill('a week');
    await page.reload();
    await page.getByText('There are answers here that are not kept yet.').waitFor();
    expect(await point('Does a roof keep rain').getByLabel('Yes').isChecked()).toBe(true);
    await page.getByLabel('Who answers').fill('Wanja');
    const keep = page.getByRole('button', { name: 'Keep the list as it stands' });
    await keep.click();
    await page.getByText('Expected days, 0 or more, such as 5.').waitFor();
    await expectNoSidewaysScroll(page);
    await picture(page, `ready-wrong-${size}`);
    await point('How long were the roots cured').getByLabel('Days').fill('5');
    await keep.click();
    await page.getByText('Kept: the list as it stands now, with your answers.').waitFor();
    const against = page.getByRole('region', { name: 'Speaks against filling' });
    await against.getByRole('article', { name: 'Does a ditch around' }).waitFor();

    const override = page.getByRole('region', { name: 'Have it filled all the same' });
    await override.getByLabel('Reason').fill('Rain');
    await override.getByRole('button').click();
    await override.getByText('Expected a reason of 10 to 500 characters, got 4.').waitFor();
    await override.getByLabel('Reason').fill('Rain is coming tonight');
    await override.getByRole('button', { name: 'Have it filled all the same' }).click();
    await override.getByText(/^Wanja has it filled all the same .*: Rain is coming tonight$/).waitFor();
    await page
      .getByRole('region', { name: 'Kept lists of this bed' })
      .getByText(/, Wanja: not ready$/)
      .waitFor();
    await looked(page, `ready-${size}`);
    expect(complaints).toEqual([]);
  });

  test('answers that are given without a network wait, and are sent once', async () => {
    const { http } = await season();
    const { page, context } = await openPage(`${http}/jobs/ready/pit-c`, size, KEPT);
    const roof = page.getByRole('article', { name: 'Does a roof keep rain' });
    await roof.getByLabel('Yes').check();
    await page.getByLabel('Who answers').fill('Rehema');
    await context.setOffline(true);
    await page.getByRole('button', { name: 'Keep the list as it stands' }).click();
    await page.getByText('Your answers are kept on this device', { exact: false }).waitFor();
    await context.setOffline(false);
    await page.evaluate(() => dispatchEvent(new Event('online')));
    await page
      .getByRole('region', { name: 'Met' })
      .getByRole('article', { name: 'Does a roof keep rain' })
      .waitFor();
    const records: { by: string }[] = await (
      await page.request.get(`${http}/api/beds/pit-c/readiness/records`)
    ).json();
    expect(records.filter(({ by }) => by === 'Rehema')).toHaveLength(1);
  });
});
