import { describe, expect, test } from 'vitest';
import { expectAccessible, expectNoSidewaysScroll, openPage, picture, SIZES_TRIED } from './support/page.js';
import { sharedShelf } from './support/shelf.js';

const shelf = sharedShelf();

describe.each(SIZES_TRIED)('the bench on a %s', (size) => {
  test('offers the probes that are free, says where the others are, and loses nothing that was typed', async () => {
    const { http } = await shelf();
    const { page } = await openPage(`${http}/bench`, size);
    await page.getByLabel('k01').waitFor();
    expect(await page.getByLabel('p01').count()).toBe(0);
    await page.getByText(/probes are not free/).click();
    await page.getByRole('link', { name: /^p01: in bed / }).waitFor();
    await page.getByLabel('Who does it').fill('A. Technician');
    await page.getByLabel('Reference instrument').fill('Glass thermometer');
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.getByText('Tick at least one probe.').waitFor();
    expect(await page.getByLabel('Who does it').inputValue()).toBe('A. Technician');
    await expectAccessible(page);
    await picture(page, `bench-begin-${size}`);
  });

  test('opens a buried probe beside a reference, and says what is missing', async () => {
    const { http } = await shelf();
    const { page } = await openPage(`${http}/bench/beside`, size);
    await page.getByLabel('Buried probe (needed)').selectOption('p01');
    await page.getByLabel('Travelling reference beside it').selectOption('k01');
    await page.getByLabel('Who does it').fill('A. Technician');
    await page.getByRole('button', { name: 'Compare them' }).click();
    await page.getByRole('alert').filter({ hasText: /k01/ }).waitFor();
    await page.getByText('Not taken').waitFor();
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `bench-beside-${size}`);
  });

  test('goes from two baths to a certificate, and shows how probes settle', async () => {
    const { http, bath } = await shelf();
    const { page, complaints } = await openPage(`${http}/bench`, size);
    await page.getByText('No probe is on the bench.').waitFor();
    for (const probe of ['k01', 'k02']) await page.getByLabel(probe).check();
    await page.getByLabel('Who does it').fill('A. Technician');
    await page.getByLabel('Reference instrument').fill('Glass thermometer');
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.getByRole('heading', { name: 'Calibrating k01, k02' }).waitFor();
    await page.getByRole('button', { name: 'The probes are in it' }).click();
    await page.getByRole('heading', { name: /^Point 1/ }).waitFor();
    await page.getByText('no reading yet').first().waitFor();
    await page.getByRole('button', { name: 'Take what has settled' }).click();
    await page
      .getByText(/too few readings yet/)
      .first()
      .waitFor();
    await bath({ k01: 0.3, k02: -0.2 });
    await page.getByText('at rest').nth(1).waitFor();
    await expectAccessible(page);
    await picture(page, `bench-settled-${size}`);
    await page.getByRole('button', { name: 'Take what has settled' }).click();
    await page.getByRole('heading', { name: 'Taken so far' }).waitFor();
    await page.getByRole('button', { name: 'Finish, and keep the calibrations' }).click();
    await page.getByRole('alert').filter({ hasText: 'Only one point was taken of k01, k02.' }).waitFor();
    await picture(page, `bench-one-point-${size}`);
    await page.getByRole('button', { name: 'Not yet: take another point' }).click();
    await page.getByText('Next point', { exact: true }).click();
    await page.getByLabel('What the probes are in').selectOption('instrument');
    await page.getByRole('button', { name: 'Go on to the next point' }).click();
    await page.getByText('A number is expected here, in °C.').first().waitFor();
    await page.getByLabel('The instrument shows').fill('30,00');
    await page.getByLabel('Its standard uncertainty').fill('0.05');
    await page.getByRole('button', { name: 'Go on to the next point' }).click();
    await page.getByRole('heading', { name: /^Point 2/ }).waitFor();
    await bath({ k01: 30.4, k02: 29.8 });
    await page.getByText('at rest').nth(1).waitFor();
    await page.getByRole('button', { name: 'Take k01' }).click();
    await page.getByRole('button', { name: 'Take k02' }).click();
    await page
      .getByRole('img', { name: /^Plot of what the fit leaves over/ })
      .nth(1)
      .waitFor();
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `bench-outcome-${size}`);
    await page.getByRole('button', { name: 'Finish, and keep the calibrations' }).click();
    await page.getByText('This bench has ended: finished.').waitFor();
    await page.getByRole('link', { name: 'k01, temperature' }).first().click();
    await page.getByText('In force now.').waitFor();
    await expectAccessible(page);
    await picture(page, `bench-calibration-${size}`);
    const pdf = await page.getByRole('link', { name: 'Certificate as PDF' }).getAttribute('href');
    expect((await fetch(`${http}${pdf}`)).headers.get('content-type')).toBe('application/pdf');
    await page.getByRole('link', { name: 'Bench' }).click();
    await page.getByRole('link', { name: 'k02, temperature' }).first().waitFor();
    await expectAccessible(page);
    await picture(page, `bench-${size}`);
    expect(complaints).toEqual([]);
  });
});
