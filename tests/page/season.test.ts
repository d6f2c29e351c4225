import { describe, expect, test } from 'vitest';
import {
  expectAccessible,
  expectNoSidewaysScroll,
  openPage,
  picture,
  SIZES_TRIED,
  seasonToRead,
} from './support/page.js';

describe.each(SIZES_TRIED)('what is to come and what was, on a %s', (size) => {
  test('an outlook with prices, and seasons of one bed and of several', async () => {
    const { http } = seasonToRead();
    const { page, complaints } = await openPage(`${http}/jobs/outlook/box-b`, size);
    await page.getByText(/^216 roots are left now, filled on/).waitFor();
    await page
      .getByRole('img', { name: /^From 216 roots now to between \d+ and \d+ after 6 months/ })
      .waitFor();

    const form = page.getByRole('form', { name: 'What to reckon with' });
    await form.getByRole('textbox', { name: 'Months ahead' }).fill('13');
    await form.getByRole('textbox', { name: 'Cost of keeping' }).fill('30');
    await form.getByRole('button', { name: 'Reckon' }).click();
    await form.getByText('Expected a whole number from 1 to 12.').waitFor();
    await form.getByText('Expected the price of now beside what else was typed.').waitFor();
    await form.getByRole('textbox', { name: 'Months ahead' }).fill('4');
    await form.getByRole('textbox', { name: 'Your money' }).fill('shells');
    await form.getByRole('textbox', { name: 'Price now' }).fill('12');
    await form.getByRole('textbox', { name: 'Price that you expect' }).fill('15,5');
    await form.getByRole('textbox', { name: 'Persons' }).fill('3');
    await form.getByRole('textbox', { name: 'Each eats' }).fill('4');
    await form.getByRole('button', { name: 'Reckon' }).click();
    await page.getByText(/^A root is worth 12(\.0)? shells now\./).waitFor();
    await page
      .getByRole('row', { name: /^4 months/ })
      .first()
      .waitFor();
    await page.getByText(/^Food for about \d+ weeks/).waitFor();
    expect(await page.getByText(/% of what is known of this bed's losses rests on/).count()).toBe(1);
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `outlook-${size}`);

    await page.goto(`${http}/jobs/season`);
    await page.getByRole('button', { name: 'Show the report' }).click();
    await page.getByText('Expected at least one bed.').waitFor();
    await page.getByRole('checkbox', { name: 'Box B in the hut' }).check();
    await page.getByRole('button', { name: 'Show the report' }).click();
    await page.getByRole('heading', { name: 'Box B in the hut' }).waitFor();
    await page.getByText('Orange, early').waitFor();
    await page.getByText('not known: nobody looked into the bed').waitFor();
    await expectAccessible(page);
    await picture(page, `season-one-${size}`);
    await page.getByRole('checkbox', { name: 'Pit A' }).check();
    await page.getByRole('button', { name: 'Show the report' }).click();
    await page.getByRole('columnheader', { name: 'Pit A' }).waitFor();
    await page.getByText('This is no trial', { exact: false }).first().waitFor();
    const address = await page.getByRole('link', { name: 'PDF file' }).getAttribute('href');
    const file = await fetch(http + address);
    expect([file.status, file.headers.get('content-type')]).toEqual([200, 'application/pdf']);
    const sheet = await fetch(
      http + (await page.getByRole('link', { name: 'Page to print' }).getAttribute('href')),
    );
    expect(sheet.status).toBe(200);
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `season-several-${size}`);
    expect(complaints).toEqual([]);
  });
});

test('a season of before the filling is refused in words', async () => {
  const { http } = seasonToRead();
  const { page } = await openPage(`${http}/jobs/season?beds=box-b&to=2020-01-01T00:00:00.000Z`, 'phone');
  await page.getByText('Not taken').waitFor();
  await picture(page, 'season-none-phone');
});
