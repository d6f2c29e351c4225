/** Settings by clicking: beds, probes, people, thresholds and this device. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import mqtt from 'mqtt';
import type { Page } from 'playwright-core';
import { describe, expect, onTestFinished, test } from 'vitest';
import {
  expectAccessible,
  expectNoSidewaysScroll,
  openPage,
  picture,
  type Served,
  SIZES_TRIED,
} from './support/page.js';
import { sharedSeason } from './support/shared.js';

const SITE = '/api/sites/ridge-station';

async function looksRight(page: Page, name: string): Promise<void> {
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await picture(page, name);
}

const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });
const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();
const follow = (page: Page, name: string | RegExp) => page.getByRole('link', { name }).first().click();
const heading = (page: Page, name: string) => page.getByRole('heading', { name, exact: true }).waitFor();

/** A stranger sends two readings, ten minutes apart; resolves when the service has kept them. */
async function unknownProbeSends({ mqtt: url }: Served, probe: string): Promise<void> {
  const client = await mqtt.connectAsync(url);
  const end = Math.floor(Date.now() / 60_000) * 60;
  for (const bt of [end - 1200, end - 600])
    await client.publishAsync(
      `sandlarder/v1/ridge-station/probes/${probe}/readings`,
      JSON.stringify([{ n: 'temperature', u: 'Cel', v: 21.5, bt }]),
      { qos: 1 },
    );
  await client.endAsync();
}

/** Somebody's address: takes what comes. */
async function receiver(): Promise<string> {
  const server = createServer((request, response) => {
    request.resume();
    response.writeHead(204).end();
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => void server.close());
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}/alarms`;
}

describe.each(SIZES_TRIED)('settings on a %s', (size) => {
  const season = sharedSeason();

  test('a bed is added, drawn as it is typed', async () => {
    const { http } = await season();
    const { page } = await openPage(`${http}/settings`, size);
    await follow(page, 'Beds of the site');
    await follow(page, 'Add a bed');
    await page.getByText('The bed is drawn here once').waitFor();
    await press(page, 'Add a bed');
    await page.getByText('6 fields are not as expected.').waitFor();
    expect(await page.locator('[aria-invalid="true"]').count()).toBe(6);
    expect(await page.evaluate(() => document.activeElement?.matches('[aria-invalid="true"]'))).toBe(true);
    await field(page, 'Name of the bed (needed)').fill('Box E');
    await page.getByLabel('A box', { exact: true }).check();
    await field(page, 'Length').fill('120');
    await field(page, 'Width').fill('0');
    await field(page, 'Height').fill('50');
    await field(page, 'Your name (needed)').fill('Wanja');
    await press(page, 'Add a bed');
    await page.getByText('Expected a number from 0.1 to 10,000.').waitFor();
    await page.getByText('One field is not as expected.').waitFor();
    await looksRight(page, `settings-bed-wrong-${size}`);
    await field(page, 'Width').fill('60');
    await page.getByText('is not as expected').waitFor({ state: 'detached' });
    await page.getByRole('img', { name: 'The bed from above' }).waitFor();
    await press(page, 'Add a bed');
    await heading(page, 'Box E');
    await picture(page, `settings-bed-${size}`);
  });

  test('an unknown probe is put into a bed by a tap, and another taken out', async () => {
    const served = await season();
    await unknownProbeSends(served, 'p77');
    const { page, complaints } = await openPage(`${served.http}/settings`, size);
    await page.getByText('One unknown probe sends readings.').waitFor();
    await looksRight(page, `settings-${size}`);
    await follow(page, 'Probes');
    await page.getByText('2 readings since').waitFor();
    await looksRight(page, `settings-probes-${size}`);
    await follow(page, 'Adopt p77');
    await page.getByLabel('Which bed').selectOption('Box B in the hut');
    const cut = page.getByRole('img', { name: 'The bed cut along its length, from the side' });
    await cut.click();
    expect(await field(page, 'Along the length').inputValue()).toBe('50');
    expect(await field(page, 'Depth in the sand').inputValue()).toMatch(/^3[78]$/);
    await field(page, 'Across the width').fill('90');
    await press(page, 'Adopt it');
    await page.getByText('Say who changes this: a name that the others know.').waitFor();
    await field(page, 'Your name (needed)').fill('Wanja');
    await press(page, 'Adopt it');
    await page.getByText(/^Probe, place 1: expected a point inside bed "box-b", got .* cm along/).waitFor();
    await field(page, 'Across the width').fill('30');
    await page.getByRole('button', { name: /^Since its first reading/ }).click();
    await looksRight(page, `settings-adopt-${size}`);
    await press(page, 'Adopt it');
    await page.getByText(/2 readings that were kept apart .* are taken in/).waitFor();
    await follow(page, 'Back to the probes');
    await page.getByText('No unknown probe sends readings.').waitFor();
    await page.getByText(/^Box B in the hut since .*: 50 cm along, 30 cm across, 3[78] cm deep\.$/).waitFor();

    await follow(page, 'p04');
    await page.getByLabel('Taken out: it stands nowhere').check();
    await press(page, 'Take it out');
    await page.getByRole('alert').filter({ hasText: 'Probe p04 is taken out' }).waitFor();
    await press(page, 'No, leave it');
    await press(page, 'Take it out');
    await page.getByRole('alert').getByRole('button', { name: 'Take it out' }).click();
    await page.getByText(/its warmth is learned anew from then on/).waitFor();
    expect(complaints.filter((text) => !/40[04]|422/.test(text))).toEqual([]);
  });

  test('a person is added, told by a test, and what somebody else changed is not written over', async () => {
    const { http } = await season();
    const { page } = await openPage(`${http}/settings/people`, size);
    await looksRight(page, `settings-people-${size}`);
    await follow(page, 'Add a person');
    await field(page, 'Name (needed)').fill('Wanja');
    await field(page, 'Telephone number (needed)').fill('0970 000 001');
    await field(page, 'Your name (needed)').fill('Technician');
    await press(page, 'Add a person');
    await page
      .getByText(/expected a telephone number as "\+"/i)
      .first()
      .waitFor();
    expect(await field(page, 'Telephone number (needed)').inputValue()).toBe('0970 000 001');
    await field(page, 'Telephone number (needed)').fill('+260 97 000 0001');
    await press(page, 'Add a way');
    await page.getByLabel('Way 2').selectOption('Web address (webhook)');
    await field(page, 'Web address (needed)').fill(await receiver());
    await field(page, 'From').fill('20:00');
    await field(page, 'To').fill('06:00');
    await page.getByLabel('Pit A', { exact: true }).check();
    await looksRight(page, `settings-person-${size}`);
    await press(page, 'Add a person');
    await heading(page, 'Wanja');

    await follow(page, 'Try whether messages arrive');
    await page.getByLabel('As if it were about').selectOption('Pit A');
    await press(page, 'Send the test');
    await page.getByText('No message is on its way any more.').waitFor();
    const line = page.getByRole('listitem').filter({ hasText: 'Wanja' });
    expect(await line.filter({ hasText: 'Web address' }).textContent()).toMatch(/Handed over after \d+ s/);
    await looksRight(page, `settings-drill-${size}`);

    await page.goto(`${http}/settings/people/wanja`);
    await heading(page, 'Wanja');
    const mine = await fetch(`${http}${SITE}/people/wanja`);
    const person = { ...((await mine.json()) as object), name: 'Wanja K.' };
    await fetch(`${http}${SITE}/people/wanja`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json', 'if-match': mine.headers.get('etag') ?? '' },
      body: JSON.stringify({ by: 'Ana', person }),
    });
    await field(page, 'Name (needed)').fill('W. of the ridge');
    await press(page, 'Save');
    await page.getByText(/was changed meanwhile by Ana/).waitFor();
    expect(await field(page, 'Name (needed)').inputValue()).toBe('W. of the ridge');
    await press(page, 'Read it again');
    await heading(page, 'Wanja K.');
    await field(page, 'Name (needed)').fill('W. of the ridge');
    await press(page, 'Save');
    await page.getByText('Saved', { exact: true }).waitFor();
  });

  test('a group is made, keeps a bed, and alarms of the site are passed on', async () => {
    const { http } = await season();
    const { page } = await openPage(`${http}/settings/groups/new`, size);
    await field(page, 'Name of the group (needed)').fill('Diggers');
    await page.getByLabel('Joseph', { exact: true }).check();
    await field(page, 'Your name (needed)').fill('Technician');
    await looksRight(page, `settings-group-${size}`);
    await press(page, 'Add a group');
    await heading(page, 'Diggers');
    await page.goto(`${http}/settings/beds/box-b`);
    await page.getByLabel('Who keeps it').selectOption('Diggers (group)');
    await press(page, 'Save');
    await page.getByText('Saved', { exact: true }).waitFor();
    await follow(page, 'Back to the beds');
    await page.getByText('Kept by Diggers (group).').waitFor();
    await page.goto(`${http}/settings/site`);
    await press(page, 'Pass on to one more');
    await field(page, 'How long after the one before (number 1)').fill('2');
    await press(page, 'Save');
    await page.getByText('expected at least 5, got 2').first().waitFor();
    await looksRight(page, `settings-site-${size}`);
    await field(page, 'How long after the one before (number 1)').fill('60');
    await press(page, 'Save');
    await page.getByText('Saved', { exact: true }).waitFor();
  });

  test('a threshold is set and taken back; changes, access, language and look are there', async () => {
    const { http } = await season();
    const { page, complaints } = await openPage(`${http}/settings/thresholds?bed=pit-a`, size);
    await page.getByText('Damp', { exact: true }).click();
    await press(page, 'Set it otherwise: damp_check_RH');
    await field(page, 'New value of damp_check_RH').fill('120');
    await field(page, 'Your name (needed)').fill('Wanja');
    await press(page, 'Save');
    await page.getByText('Expected a number from 50 to 100, got “120”.').waitFor();
    await looksRight(page, `settings-threshold-${size}`);
    await field(page, 'New value of damp_check_RH').fill('94,5');
    await press(page, 'Save');
    await page.getByText(/In force: 94.5 %RH set for this bed/).waitFor();
    await page.getByText(/judged again from its beginning/).waitFor();
    await press(page, 'Set it otherwise: damp_check_RH');
    await page.getByLabel('Take it back: 95 %RH holds again').check();
    await press(page, 'Save');
    await page.getByText('Damp', { exact: true }).waitFor();

    await page.goto(`${http}/settings/changes`);
    await page.getByText('Wanja changed the bed pit-a.').first().waitFor();
    await looksRight(page, `settings-changes-${size}`);
    await page.goto(`${http}/settings/access`);
    await page.getByText('Nobody signs in here yet').waitFor();
    await looksRight(page, `settings-access-${size}`);
    await page.goto(`${http}/settings/device`);
    for (const [look, label] of [
      ['dark', 'Dark'],
      ['sunlight', 'For reading in full sun: black on white, larger'],
    ] as const) {
      await page.getByLabel(label).check();
      await expectNoSidewaysScroll(page);
      await picture(page, `settings-device-${look}-${size}`);
      if (look === 'dark') await expectAccessible(page);
    }
    await page.goto(`${http}/settings/beds/pit-a`);
    await page.getByRole('img', { name: 'The bed from above' }).waitFor();
    await looksRight(page, `settings-bed-sunlight-${size}`);
    expect(complaints).toEqual([]);
  });
});
