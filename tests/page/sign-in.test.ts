/** Signing in by clicking, and what each role is offered on the page: one service a size, begun without a steward. */
import mqtt from 'mqtt';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import {
  expectAccessible,
  expectNoSidewaysScroll,
  type OpenPage,
  openPage,
  picture,
  SIZES_TRIED,
  type Size,
} from './support/page.js';
import { sharedByThese, sharedService } from './support/shared.js';

const PASSWORD = 'sand over sand over roots';

async function looksRight(page: Page, name: string): Promise<void> {
  await expectAccessible(page);
  await expectNoSidewaysScroll(page);
  await picture(page, name);
}

const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });
const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();
const offered = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).count();
const heading = (page: Page, name: string) => page.getByRole('heading', { name, exact: true }).waitFor();
const said = (page: Page, text: string | RegExp) => page.getByText(text).first().waitFor();

async function signIn(page: Page, name: string, password = PASSWORD): Promise<void> {
  await field(page, 'Name to sign in by').fill(name);
  await field(page, 'Password').fill(password);
  await press(page, 'Enter');
}

// At one size: each password takes tenths of a second of a core by design.
describe.each(SIZES_TRIED.slice(0, 1))('signing in on a %s', (size: Size) => {
  const begun = sharedByThese(async (undo) => {
    const served = await sharedService(undo);
    const [link = ''] = await served.service.said(/http\S+\/sign-in#\S+/);
    return { ...served, link };
  });

  let steward: Promise<Awaited<ReturnType<OpenPage['context']['storageState']>>> | undefined;

  /** The first steward, made by the link that the service printed. */
  async function firstSteward() {
    const { link } = await begun();
    const { page, context } = await openPage(link, size);
    await heading(page, 'The first steward');
    await field(page, 'Name to sign in by').fill('Wanja K.');
    await field(page, 'Choose a password').fill('short');
    await press(page, 'Enter');
    await said(page, /Expected 1 to 32 small letters/);
    await looksRight(page, `sign-in-first-${size}`);
    await field(page, 'Name to sign in by').fill('wanja');
    await press(page, 'Enter');
    await said(page, /Expected 12 to 128 characters, got 5/);
    expect(await field(page, 'Name to sign in by').inputValue()).toBe('wanja');
    await field(page, 'Choose a password').fill(PASSWORD);
    await press(page, 'Enter');
    await said(page, 'Signed in as wanja (Steward).');
    await heading(page, 'Beds');
    return context.storageState();
  }

  async function asSteward(path: string): Promise<OpenPage> {
    steward ??= firstSteward();
    const storageState = await steward;
    return openPage(`${(await begun()).http}${path}`, size, { storageState });
  }

  test('the link that is printed makes the first steward, once; then everybody signs in', async () => {
    const { http, link } = await begun();
    const open = await openPage(`${http}/settings/sign-ins`, size);
    await said(open.page, 'Nobody signs in here yet: whoever works at this machine may do all.');
    await asSteward('/settings');
    // The page that was open hears of it.
    await heading(open.page, 'Sign in');
    const again = await openPage(link, size);
    await said(again.page, 'This link was used, is over, or is none. Ask a steward for another.');
    await looksRight(again.page, `sign-in-link-over-${size}`);
    expect([...open.complaints, ...again.complaints]).toEqual([]);
  });

  test('a wrong password says so and in the end makes wait; the right one lets in; out again', async () => {
    const { http } = await begun();
    await asSteward('/settings');
    const { page, complaints } = await openPage(`${http}/beds/pit-a`, size);
    await heading(page, 'Sign in');
    await signIn(page, 'wanja', 'sand under sand under roots');
    await said(page, /^That does not let anybody in: the name, the password or the link is not right/);
    expect(await field(page, 'Name to sign in by').inputValue()).toBe('wanja');
    await looksRight(page, `sign-in-wrong-${size}`);
    await field(page, 'Name to sign in by').fill('nobody');
    // A wait that was over before the next press is followed by one twice as long.
    let status = 0;
    while (status !== 429) {
      const answered = page.waitForResponse((answer) => answer.url() === `${http}/api/sign-in`);
      await press(page, 'Enter');
      status = (await answered).status();
    }
    await said(page, /^Too many attempts\. Try again in \d+ s\.$/);
    await signIn(page, 'wanja');
    await said(page, 'Signed in as wanja (Steward).');
    await press(page, 'Sign out');
    await heading(page, 'Sign in');
    await page.goto(`${http}/beds`);
    await heading(page, 'Sign in');
    expect(await page.getByText('Pit A').count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  test('a keeper is offered what a keeper may do; another role, and an end, follow at once', async () => {
    const { http } = await begun();
    const { page: stewards, complaints } = await asSteward('/settings/sign-ins');
    await field(stewards, 'Name to sign in by').fill('joseph');
    await press(stewards, 'Let in');
    await said(stewards, /expected the beds that are kept, got none/i);
    await stewards.getByLabel('Pit A', { exact: true }).check();
    await press(stewards, 'Let in');
    await said(stewards, 'Hand this link to joseph. It is shown this once and holds three days:');
    const link = (await stewards.locator('.once code').textContent()) ?? '';
    await looksRight(stewards, `sign-ins-${size}`);
    await press(stewards, 'I have it');
    expect(await stewards.getByText(link).count()).toBe(0);

    const keeper = await openPage(link, size);
    const { page } = keeper;
    await field(page, 'Choose a password').fill(PASSWORD);
    await looksRight(page, `sign-in-choose-${size}`);
    await press(page, 'Enter');
    await said(page, 'Signed in as joseph (Keeper of beds).');
    await page.goto(`${http}/jobs`);
    const looks = page.getByRole('list', { name: 'Look by hand: at which bed' });
    await looks.getByRole('link', { name: 'Pit A' }).waitFor();
    expect(await looks.getByRole('link', { name: 'Box B in the hut' }).count()).toBe(0);
    await looksRight(page, `keeper-work-${size}`);

    const alarms = (await (await page.request.get(`${http}/api/alarms`)).json()) as {
      id: string;
      bed: string;
    }[];
    const own = alarms.find(({ bed }) => bed === 'pit-a')?.id ?? '';
    await page.goto(`${http}/alarms/${own}`);
    await page.getByRole('button', { name: 'I have seen it', exact: true }).waitFor();
    await page.goto(`${http}/jobs/inspect/box-b`);
    await said(page, 'You do this at your own beds alone: pit-a. A steward can give you others.');
    await looksRight(page, `keeper-not-own-${size}`);
    await page.goto(`${http}/bench`);
    await said(page, /^Your role is: Keeper of beds\. This is done by: Technician, Steward\./);
    expect(await offered(page, 'Begin')).toBe(0);
    await looksRight(page, `keeper-bench-${size}`);
    await page.goto(`${http}/settings`);
    await page.getByRole('link', { name: 'Who may do what' }).waitFor();
    expect(await page.getByRole('link', { name: 'The site', exact: true }).count()).toBe(0);
    await looksRight(page, `keeper-settings-${size}`);

    await page.goto(`${http}/jobs/inspect/pit-a`);
    await page.getByRole('heading', { level: 1, name: /Pit A/ }).waitFor();
    await press(stewards, 'Another role: joseph');
    await stewards.getByLabel('Role', { exact: true }).first().selectOption('Researcher');
    await looksRight(stewards, `sign-ins-role-${size}`);
    await press(stewards, 'Give this role');
    await stewards.getByText('joseph: Researcher').waitFor();
    await said(page, /^Your role is: Researcher\. This is done by: Keeper of beds, Technician, Steward\./);
    await page.goto(`${http}/trials`);
    await page.getByRole('link', { name: 'New trial' }).waitFor();

    await press(stewards, 'End it: joseph, 127.0.0.1');
    await heading(page, 'Sign in');
    await press(stewards, 'Sign-ins of joseph end');
    await said(stewards, /^joseph is signed out everywhere at once/);
    await stewards.getByRole('alert').getByRole('button', { name: 'Sign-ins of joseph end' }).click();
    await stewards.getByText('joseph: Researcher').waitFor({ state: 'detached' });
    await signIn(page, 'joseph');
    await said(page, /^That does not let anybody in/);
    expect([...complaints, ...keeper.complaints]).toEqual([]);
  });

  test('a probe and a lamp get a secret that is shown once, another one, and none', async () => {
    const { mqtt: broker } = await begun();
    const { page, context, complaints } = await asSteward('/settings/probes');
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    await page.getByText('It has no secret of its own.').first().waitFor();
    await field(page, 'Name of the lamp or buzzer').fill('In the hut');
    await press(page, 'Make a secret');
    await said(page, /^Expected 1 to 32 of the letters a to z/);
    await field(page, 'Name of the lamp or buzzer').fill('hut');
    await press(page, 'Make a secret');
    await said(page, 'ridge-station.lamp.hut');
    await looksRight(page, `secret-lamp-${size}`);
    await press(page, 'I have it');
    await press(page, 'Take the secret away: hut');
    await page.getByRole('alert').getByRole('button', { name: 'Take the secret away' }).click();
    await said(page, 'None has a secret.');

    await page.getByRole('link', { name: 'p01', exact: true }).click();
    await press(page, 'Make a secret: p01');
    await said(page, /The password is shown this once/);
    await looksRight(page, `secret-probe-${size}`);
    const [username = '', password = ''] = await page.locator('.once code').allTextContents();
    await press(page, 'Copy it');
    await said(page, 'Copied');
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(password);
    const probe = await mqtt.connectAsync(broker, { username, password, reconnectPeriod: 0 });
    const cutOff = new Promise((resolve) => probe.once('close', () => resolve('cut off')));
    await press(page, 'I have it');
    await said(page, /^It has a secret of its own since/);

    await press(page, 'Make another secret: p01');
    await page.getByRole('alert').filter({ hasText: 'that p01 has now holds no more' }).waitFor();
    await looksRight(page, `secret-renew-${size}`);
    await page.getByRole('alert').getByRole('button', { name: 'Make another secret' }).click();
    await said(page, /The password is shown this once/);
    const [, other = ''] = await page.locator('.once code').allTextContents();
    expect(other).not.toBe(password);
    expect(await cutOff).toBe('cut off');
    await press(page, 'Take the secret away: p01');
    await page.getByRole('alert').getByRole('button', { name: 'Take the secret away' }).click();
    await said(page, 'It has no secret of its own.');
    expect(await page.getByText(other).count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  test('what each role may do is said in words', async () => {
    const { page } = await asSteward('/settings/access');
    const role = (name: string) =>
      page.getByRole('listitem').filter({ has: page.getByRole('heading', { name, exact: true }) });
    await role('Steward').getByText('Your role').waitFor();
    await role('Keeper of beds')
      .getByText(/say that an alarm was seen.* \(at the beds that are named with the role\)/)
      .waitFor();
    expect(await role('Researcher').getByText('calibrate probes').count()).toBe(0);
    await looksRight(page, `access-roles-${size}`);
  });
});
