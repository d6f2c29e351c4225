import { expect, test } from 'vitest';
import { untilKept } from './support/kept.js';
import { expectAccessible, KEPT, openPage, picture, seasonToRead } from './support/page.js';
import { proxyTo } from './support/proxy.js';

test('a newer version of the page is told, taken when somebody says so, and told no more', async () => {
  const { http } = seasonToRead();
  const { url, state } = await proxyTo(http);
  const { page } = await openPage(`${url}/beds`, 'phone', KEPT);
  await page.getByRole('link', { name: 'Pit A' }).first().waitFor();
  await untilKept(page);
  const take = page.getByRole('button', { name: 'Take the newer version' });
  await page.reload();
  await page.getByRole('link', { name: 'Pit A' }).first().waitFor();
  expect(await take.count()).toBe(0);
  state.isNewer = true;
  await page.reload();
  await page.getByRole('status').filter({ hasText: 'A newer version of this page is there' }).waitFor();
  await expectAccessible(page);
  await picture(page, 'newer');
  await Promise.all([page.waitForEvent('load'), take.click()]);
  await page.getByRole('link', { name: 'Pit A' }).first().waitFor();
  await take.waitFor({ state: 'detached' });
  const waits = await page.evaluate(async () => (await navigator.serviceWorker.ready).waiting);
  expect(waits).toBeNull();
});

test('it can be kept as a program of its own', async () => {
  const { http } = seasonToRead();
  const { page, context } = await openPage(`${http}/beds`, 'phone', KEPT);
  await untilKept(page);
  const devtools = await context.newCDPSession(page);
  const { errors } = await devtools.send('Page.getAppManifest');
  expect(errors).toEqual([]);
  const { installabilityErrors } = await devtools.send('Page.getInstallabilityErrors');
  // A context of a test keeps nothing, and so can keep no program.
  expect(installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito')).toEqual([]);
  const manifest = await (await fetch(`${http}/app.webmanifest`)).json();
  for (const { src } of manifest.icons) expect((await fetch(`${http}${src}`)).status).toBe(200);
});
