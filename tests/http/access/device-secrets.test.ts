import { describe, expect, test } from 'vitest';
import { checkSiteFile } from '../../../services/core/model/site-file.js';
import { SHORT_SEASON, siteOf } from '../../support/season.js';
import { problemOfAnswer } from '../answers.js';
import { signedApp } from './signed-app.js';

const P01 = '/api/sites/test-ridge/probes/p01/secret';
const LIST = '/api/sites/test-ridge/secrets';

async function anApp() {
  const opened = await signedApp();
  opened.registry.sites.load(checkSiteFile('site.json', siteOf(SHORT_SEASON)), 0);
  return { ...opened, headers: await opened.cookieOf('wanja') };
}

test('a steward makes, renews and revokes a secret; it is shown once, and stands in no list and no trail', async () => {
  const { ask, send, headers, trail, registry } = await anApp();
  const made = await send(P01, {}, headers);
  expect(made.statusCode).toBe(201);
  expect(made.headers['cache-control']).toBe('no-store');
  const { secret, ...rest } = made.json();
  const shown = { user: 'test-ridge.p01', kind: 'probe', id: 'p01', madeAt: expect.any(String) };
  expect(rest).toEqual({ ...shown, isRenewal: false, isDescribed: true });
  expect((await ask(LIST, headers)).json()).toEqual([shown]);
  const renewed = (await send(P01, {}, headers)).json();
  expect(renewed).toMatchObject({ isRenewal: true });
  expect(renewed.secret).not.toBe(secret);
  const lamp = await send('/api/sites/test-ridge/lamps/hut/secret', {}, headers);
  expect(lamp.json()).toMatchObject({ user: 'test-ridge.lamp.hut', kind: 'lamp' });
  expect((await ask(LIST, headers)).body).not.toContain(renewed.secret);
  expect((await send(`${P01}/revoke`, {}, headers)).statusCode).toBe(204);
  problemOfAnswer(await send(`${P01}/revoke`, {}, headers), 404);
  expect((await send('/api/sites/test-ridge/lamps/hut/secret/revoke', {}, headers)).statusCode).toBe(204);
  expect(registry.access.secrets.count()).toBe(0);
  const rows = trail().map(({ who, did, what, result }) => [who, did, what, result]);
  expect(rows).toContainEqual(['wanja', 'makeProbeSecret', `POST ${P01}`, 'done: 201']);
  expect(rows).toContainEqual(['wanja', 'revokeProbeSecret', `POST ${P01}/revoke`, 'done: 204']);
  expect(rows).toContainEqual(['wanja', 'revokeProbeSecret', `POST ${P01}/revoke`, 'not done: 404']);
  expect(JSON.stringify(trail())).not.toMatch(new RegExp(`${secret}|${renewed.secret}`));
});

describe('who may not', () => {
  test.each(['technician', 'researcher', 'keeper'])('a %s', async (role) => {
    const { ask, send, cookieOf, registry } = await anApp();
    const headers = await cookieOf('joseph', { role, beds: role === 'keeper' ? ['pit-a'] : [] });
    problemOfAnswer(await send(P01, {}, headers), 403);
    problemOfAnswer(await send(`${P01}/revoke`, {}, headers), 403);
    problemOfAnswer(await ask(LIST, headers), 403);
    expect(registry.access.secrets.count()).toBe(0);
  });

  test('whoever is not signed in, and whoever asks an open service', async () => {
    const { send } = await anApp();
    problemOfAnswer(await send(P01, {}), 401);
    problemOfAnswer(await (await signedApp()).send(P01, {}), 403);
  });
});

test.each([
  ['/api/sites/nowhere/probes/p01/secret', 404],
  ['/api/sites/test-ridge/probes/P01/secret', 400],
  ['/api/sites/test-ridge/probes/p01.x/secret', 400],
  ['/api/sites/test-ridge/lamps/..%2fp01/secret', 400],
])('%s is %i', async (url, status) => {
  const { send, headers, registry } = await anApp();
  problemOfAnswer(await send(url, {}, headers), status);
  expect(registry.access.secrets.count()).toBe(0);
});
