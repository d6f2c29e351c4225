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

/** Pit C is 120 cm long, 60 cm wide and 50 cm deep; its lower step reaches from 25 to 95 cm. */
async function tap(page: Page, drawing: RegExp, across: number, down: number): Promise<void> {
  const svg = page.getByRole('img', { name: drawing });
  await svg.scrollIntoViewIfNeeded();
  const place = await svg.evaluate(
    (element, [x, y]) => {
      const matrix = (element as unknown as SVGSVGElement).getScreenCTM();
      const point = new DOMPoint(x, y).matrixTransform(matrix ?? undefined);
      return { x: point.x, y: point.y };
    },
    [across, down] as const,
  );
  await page.mouse.click(place.x, place.y);
}

/** Pit C is filled in it once, and what went into box B mended. */
const season = sharedSeason();

const placeOf = (page: Page, probe: string) => page.getByRole('group', { name: `Place of ${probe}` });

async function numbersOf(page: Page, probe: string): Promise<number[]> {
  const texts = await placeOf(page, probe)
    .getByRole('textbox')
    .evaluateAll((fields) => fields.map((field) => (field as HTMLInputElement).value));
  return texts.map(Number);
}

describe.each(SIZES_TRIED)('filling a bed on a %s', (size) => {
  test('what went in, probes placed by tapping, and what they should show', async () => {
    const { http } = await servedSeason();
    const { page, complaints } = await openPage(`${http}/jobs/fill/pit-c`, size);
    await page.getByRole('heading', { level: 1, name: 'Fill Pit C by the fig tree' }).waitFor();
    const leads = page.getByRole('link', { name: 'To what must hold before filling' });
    await leads.waitFor();
    expect(await leads.getAttribute('href')).toBe('/jobs/ready/pit-c');

    // Nothing typed: each field that is needed says what it expects, and nothing is sent.
    await page.getByRole('button', { name: 'Write it down' }).click();
    await page.getByText('Expected a whole number from 1 to 1,000,000.').waitFor();
    await page.getByText('Expected a few words.').waitFor();
    await expectAccessible(page);

    const lowest = page.getByRole('group', { name: 'Course 1, the lowest' });
    await lowest.getByRole('textbox', { name: 'Roots' }).fill('80');
    await lowest.getByRole('textbox', { name: 'Mass' }).fill('22,5');
    await page.getByRole('button', { name: 'Add a course on top' }).click();
    const second = page.getByRole('group', { name: 'Course 2' });
    await second.getByRole('textbox', { name: 'Roots' }).fill('70');
    await second.getByRole('textbox', { name: 'Mass' }).fill('20');
    await page.getByText('Together 150 roots, 42.5 kg.').waitFor();
    await page.getByLabel('Cultivar').fill('Orange, early');

    await page.getByRole('checkbox', { name: 'p21' }).check();
    await tap(page, /from above/, 45, 30);
    await tap(page, /^A cut/, 45, 20);
    await page.getByRole('checkbox', { name: 'p22' }).check();
    await tap(page, /from above/, 10, 30);
    await tap(page, /^A cut/, 80, 45);
    const [x = 0, y = 0, depth = 0] = await numbersOf(page, 'p21');
    expect([Math.abs(x - 45) <= 1, Math.abs(y - 30) <= 1, Math.abs(depth - 20) <= 1]).toEqual([
      true,
      true,
      true,
    ]);
    // A tap in the cut says how far along it is, too.
    expect(Math.abs(((await numbersOf(page, 'p22'))[0] ?? 0) - 80)).toBeLessThanOrEqual(1);
    await placeOf(page, 'p22').getByRole('textbox', { name: /Along/ }).fill('110');
    await page.getByText('p22 would lie outside the sand there').waitFor();
    await page.getByLabel('I am (needed)').fill('Amina');
    await page.getByRole('button', { name: 'Write it down' }).click();
    await page.getByRole('alert').getByText('p22 would lie outside the sand there').waitFor();
    await picture(page, `fill-refused-${size}`);
    await placeOf(page, 'p22').getByRole('textbox', { name: /Along/ }).fill('80');
    await page.getByRole('button', { name: 'Write it down' }).click();

    await page.getByText('150 roots are in the bed. It is watched as filled from then on.').waitFor();
    await page.getByText(/^p21: 20 cm deep it should show|^p21: 19 cm|^p21: 21 cm/).waitFor();
    await page.getByRole('heading', { name: 'Do the probes lie as deep as said?' }).waitFor();
    await page.getByText(/It is judged anew as readings come/).waitFor();
    await expectAccessible(page);
    await expectNoSidewaysScroll(page);
    await picture(page, `fill-taken-${size}`);
    const stock = await (await fetch(`${http}/api/beds/pit-c/stock`)).json();
    expect(stock).toMatchObject({ left: 150, leftMass_kg: 42.5 });
    expect(complaints).toEqual([]);
  });
});

test('a filling of weeks ago says whether its probes lie as said, and is mended by another', async () => {
  const { http } = await season();
  const { page, complaints } = await openPage(`${http}/jobs/fill/box-b`, 'phone');
  await page.getByText(/p11: (as deep as said|cannot be told|shallower|deeper)/).waitFor();
  await page.getByText('250 in 2 courses').waitFor();
  await picture(page, 'fill-later-phone');
  await page.getByRole('button', { name: 'Something in it is wrong' }).click();
  const lowest = page.getByRole('group', { name: 'Course 1, the lowest' });
  await lowest.getByRole('textbox', { name: 'Roots' }).fill('230');
  await lowest.getByRole('textbox', { name: 'Mass' }).fill('60');
  await page.getByLabel('I am (needed)').fill('Joseph');
  await page.getByRole('button', { name: 'Put it in place of the old one' }).click();
  await page.getByText('350 roots are in the bed.').waitFor();
  await page.getByText(/mended since/).waitFor();
  expect(await (await fetch(`${http}/api/beds/box-b/stock`)).json()).toMatchObject({ left: 316 });

  await page.getByRole('button', { name: 'Write down another filling' }).click();
  await lowest.getByRole('textbox', { name: 'Roots' }).fill('10');
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText('Tick that it was emptied and filled again').first().waitFor();
  const fillings = await (await fetch(`${http}/api/beds/box-b/fillings`)).json();
  expect(fillings.map(({ roots }: { roots: number }) => roots)).not.toContain(10);
  expect(complaints).toEqual([]);
});

test('a filling that was written down out of reach is sent once the service is back, once', async () => {
  const { http } = await season();
  const { page, context } = await openPage(`${http}/jobs/fill/pit-c`, 'phone', KEPT);
  await page
    .getByRole('group', { name: 'Course 1, the lowest' })
    .getByRole('textbox', { name: 'Roots' })
    .fill('60');
  await page.getByLabel('I am (needed)').fill('Amina');
  await context.setOffline(true);
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText('Kept on this device').waitFor();
  await page.getByText('One record waits on this device').waitFor();
  await context.setOffline(false);
  await page.getByText('One record waits on this device').waitFor({ state: 'detached' });
  const fillings = await (await fetch(`${http}/api/beds/pit-c/fillings`)).json();
  expect(fillings).toMatchObject([{ roots: 60, by: 'Amina' }]);
});
