import { describe, expect, test } from 'vitest';
import { REACH_OF, reachOf } from '../../../services/http/access/actions.js';
import { problemOfAnswer } from '../answers.js';
import { PASSWORD, signedApp } from './signed-app.js';

const ACKNOWLEDGE = '/api/alarms/alarm-1/acknowledge';
const BODY = { by: 'x' };

describe('the table of actions', () => {
  test('has every address that is served, and no other', async () => {
    const { app } = await signedApp();
    const served = [...REACH_OF.keys()].filter((address) => {
      const [method = '', url = ''] = address.split(' ');
      return app.hasRoute({ method: method as 'GET', url });
    });
    expect(served).toEqual([...REACH_OF.keys()]);
  });

  test('a route without an entry is not served: the service does not start', async () => {
    expect(reachOf('GET', '/api/new')).toBeUndefined();
    expect(reachOf('POST', '/beds')).toBeUndefined();
    expect(reachOf('HEAD', '/api/beds')).toBe('look');
    expect(reachOf('GET', '/assets/page.js')).toBe('page');
    expect(reachOf('GET', '/apis')).toBe('page');
  });
});

describe('once there is a steward', () => {
  test('nobody is let in who does not show who they are, but to what carries its own proof', async () => {
    const { ask, cookieOf } = await signedApp();
    expect((await ask('/api/beds')).statusCode).toBe(200);
    const headers = await cookieOf('wanja');
    for (const url of ['/api/beds', '/api', '/api/openapi.json', '/metrics', '/api/none', '/api/audit']) {
      const answer = await ask(url);
      expect(problemOfAnswer(answer, 401).detail).toMatch(/signed in, or the token/);
      expect(answer.headers['www-authenticate']).toBe('Bearer realm="sandlarder"');
    }
    for (const url of ['/api/beds', '/api', '/metrics', '/api/audit', '/api/accounts'])
      expect((await ask(url, headers)).statusCode).toBe(200);
    expect((await ask('/api/health')).json()).toMatchObject({ access: 'sign-in', watchLag: { byBed: [] } });
    expect((await ask('/api/health', headers)).json().watchLag.byBed).toHaveLength(2);
    expect((await ask('/api/me')).json()).toMatchObject({ access: 'sign-in', isIn: false, may: [] });
  });

  test.each([
    ['no cookie of ours', 'other=1; sandlarde=x'],
    ['a secret of another length', 'sandlarder=abc'],
    ['a secret that was not given', `sandlarder=${'A'.repeat(43)}`],
    ['that of a TLS answer', `__Host-sandlarder=${'A'.repeat(43)}`],
  ])('%s lets nobody in', async (_what, cookie) => {
    const { ask, steward } = await signedApp();
    await steward();
    problemOfAnswer(await ask('/api/beds', { cookie }), 401);
  });

  test('a cookie that was revoked and is sent again lets nobody in', async () => {
    const { ask, send, cookieOf } = await signedApp();
    const headers = await cookieOf('wanja');
    const out = await send('/api/sign-out', {}, headers);
    expect(out.statusCode).toBe(204);
    expect(out.headers['set-cookie']).toMatch(/^sandlarder=; Path=\/; Max-Age=0; HttpOnly; SameSite=Strict$/);
    problemOfAnswer(await ask('/api/beds', headers), 401);
  });

  test('roles may what the table says, a keeper at the own beds', async () => {
    const { ask, send, cookieOf } = await signedApp();
    await cookieOf('wanja');
    const keeper = await cookieOf('amina', { role: 'keeper', beds: ['pit-a'] });
    const other = await cookieOf('otieno', { role: 'keeper', beds: ['pit-b'] });
    const researcher = await cookieOf('joseph', { role: 'researcher' });
    expect((await send(ACKNOWLEDGE, BODY, keeper)).statusCode).toBe(200);
    expect(problemOfAnswer(await send(ACKNOWLEDGE, BODY, other), 403).detail).toMatch(
      /at pit-b only, not at "pit-a"/,
    );
    expect(problemOfAnswer(await send(ACKNOWLEDGE, BODY, researcher), 403).code).toBe('FORBIDDEN');
    problemOfAnswer(await send('/api/alarms/none/acknowledge', BODY, keeper), 404);
    for (const url of ['/api/trials', '/api/trials/sand-one/draw', '/api/trials/sand-one/assignment']) {
      problemOfAnswer(await send(url, {}, keeper), 403);
      problemOfAnswer(await send(url, {}, researcher), 400);
    }
    problemOfAnswer(await send('/api/trial-power', {}, keeper), 400);
    for (const url of ['/api/accounts', '/api/audit', '/api/tokens', '/api/sessions', '/metrics'])
      problemOfAnswer(await ask(url, keeper), 403);
    expect((await ask('/api/me', keeper)).json()).toMatchObject({
      ...{ role: 'keeper', beds: ['pit-a'], may: ['look', 'write-down', 'answer-alarms', 'own'] },
    });
  });
});

describe('a change from a page of another site', () => {
  test.each([
    [{ 'sec-fetch-site': 'cross-site' }],
    [{ 'sec-fetch-site': 'same-site' }],
    [{ origin: 'https://elsewhere.example' }],
    [{ origin: 'http://localhost:81' }],
    [{ origin: 'null' }],
    [{}],
  ])('%j with a session is refused, and noted', async (said) => {
    const { app, cookieOf, trail } = await signedApp();
    const headers = { ...(await cookieOf('wanja')), ...said };
    problemOfAnswer(await app.inject({ method: 'POST', url: ACKNOWLEDGE, payload: BODY, headers }), 403);
    expect(trail()[0]).toMatchObject({
      who: 'wanja',
      did: 'acknowledgeAlarm',
      result: expect.stringMatching(/page|Origin/),
    });
  });

  test.each([
    { 'sec-fetch-site': 'same-origin' },
    { 'sec-fetch-site': 'none' },
    { origin: 'http://localhost' },
  ])('%j is of this service', async (said) => {
    const { app, cookieOf } = await signedApp();
    const headers = { ...(await cookieOf('wanja')), host: 'localhost', ...said };
    const answer = await app.inject({ method: 'POST', url: ACKNOWLEDGE, payload: BODY, headers });
    expect(answer.statusCode).toBe(200);
  });

  test('signs nobody in, and changes nothing of an open service', async () => {
    const { send, steward } = await signedApp();
    const foreign = { 'sec-fetch-site': 'cross-site' };
    problemOfAnswer(await send(ACKNOWLEDGE, BODY, foreign), 403);
    await steward();
    problemOfAnswer(await send('/api/sign-in', { name: 'wanja', password: PASSWORD }, foreign), 403);
  });
});

describe('tokens of machines', () => {
  test('are sent as Bearer, or as the password of Basic, and do what their role may', async () => {
    const { app, ask, send, cookieOf } = await signedApp();
    const steward = await cookieOf('wanja');
    const made = await send('/api/tokens', { name: 'figures', role: 'monitor' }, steward);
    expect(made.statusCode).toBe(201);
    const { secret, token } = made.json();
    const bearer = { authorization: `Bearer ${secret}` };
    expect((await ask('/metrics', bearer)).statusCode).toBe(200);
    expect((await ask('/metrics', { authorization: `Basic ${btoa(`token:${secret}`)}` })).statusCode).toBe(
      200,
    );
    problemOfAnswer(await ask('/api/beds', bearer), 403);
    problemOfAnswer(await ask('/api/me/sessions', bearer), 403);
    problemOfAnswer(await app.inject({ url: '/metrics', headers: { cookie: `sandlarder=${secret}` } }), 401);
    expect((await ask('/api/tokens', steward)).body).not.toContain(secret);
    await send(`/api/tokens/${token.id}/revoke`, {}, steward);
    problemOfAnswer(await ask('/metrics', bearer), 401);
  });
});

describe('before there is a steward', () => {
  test('an open service lets nobody make sign-ins but by the link', async () => {
    const { ask, send } = await signedApp();
    problemOfAnswer(await ask('/api/accounts'), 403);
    problemOfAnswer(await send('/api/tokens', { name: 'x', role: 'steward' }), 403);
    expect((await ask('/api/me')).json()).toMatchObject({ access: 'open', isIn: true, kind: 'anyone' });
  });

  test('where other machines reach it, the link is all that there is', async () => {
    const { ask, send, access } = await signedApp({ plainPasswords: true }, { isOpenBefore: false });
    for (const url of ['/api/beds', '/metrics', '/api/access'])
      expect(problemOfAnswer(await ask(url, { host: 'shed.example' }), 401).detail).toMatch(/first steward/);
    const link = access.firstLink();
    expect((await send('/api/sign-in/look', { link })).json()).toMatchObject({ purpose: 'first-steward' });
    const made = await send('/api/sign-in/link', { link, name: 'wanja', password: PASSWORD });
    expect(made.json()).toMatchObject({ isIn: true, name: 'wanja', role: 'steward' });
    problemOfAnswer(await send('/api/sign-in/look', { link }), 404);
  });
});

describe('headers', () => {
  test('tell the browser what it may do, and the cookie is for no script', async () => {
    const { ask, send, steward } = await signedApp();
    await steward();
    const { headers } = await ask('/api/health');
    expect(headers['content-security-policy']).toMatch(/default-src 'self'.*frame-ancestors 'none'/);
    expect(headers).toMatchObject({ 'x-content-type-options': 'nosniff', 'x-frame-options': 'DENY' });
    expect(headers['strict-transport-security']).toBeUndefined();
    const credentials = { name: 'wanja', password: PASSWORD };
    const plain = await send('/api/sign-in', credentials);
    expect(plain.headers['set-cookie']).toMatch(
      /^sandlarder=[\w-]{43}; Path=\/; Max-Age=7776000; HttpOnly; SameSite=Strict$/,
    );
    const tls = await send('/api/sign-in', credentials, { 'x-forwarded-proto': 'https' });
    expect(tls.headers['set-cookie']).toMatch(/^__Host-sandlarder=.*; Secure$/);
  });

  test('too many sign-ins of one address are 429, with when to try again', async () => {
    const { send, steward } = await signedApp();
    await steward();
    const wrong = { name: 'wanja', password: 'wrong' };
    const answers = [];
    for (let index = 0; index < 6; index += 1)
      answers.push(await send('/api/sign-in', wrong, { 'x-forwarded-for': '203.0.113.9' }));
    expect(answers.map(({ statusCode }) => statusCode)).toEqual([401, 401, 401, 401, 401, 429]);
    expect(answers[5]?.headers['retry-after']).toBe('2');
    for (let index = 0; index < 25; index += 1)
      await send('/api/sign-in/look', { link: 'x' }, { 'x-forwarded-for': '203.0.113.9' });
    problemOfAnswer(
      await send('/api/sign-in/send-link', { name: 'wanja' }, { 'x-forwarded-for': '203.0.113.9' }),
      429,
    );
  });
});

describe('the audit trail', () => {
  test('has each change with who, from where and what became of it; what is asked is not in it', async () => {
    const { ask, send, cookieOf, trail } = await signedApp();
    const headers = await cookieOf('wanja');
    await ask('/api/beds', headers);
    await send(ACKNOWLEDGE, BODY, headers);
    await send('/api/alarms/none/acknowledge', BODY, headers);
    await send(ACKNOWLEDGE, { by: '' }, headers);
    expect(trail().map(({ did, what, result }) => [did, what, result])).toEqual([
      ['acknowledgeAlarm', 'POST /api/alarms/none/acknowledge', 'not done: 404'],
      ['acknowledgeAlarm', `POST ${ACKNOWLEDGE}`, 'done: 200'],
      ['sign-in', 'wanja', 'done'],
    ]);
    expect((await ask('/api/audit?limit=1', headers)).json()).toMatchObject([
      { who: 'wanja', how: 'session', address: '127.0.0.1' },
    ]);
  });

  test('a change that cannot be noted is not made', async () => {
    const { send, database, ports } = await signedApp();
    database.exec("CREATE TRIGGER full BEFORE INSERT ON audit BEGIN SELECT RAISE(ABORT, 'disk full'); END");
    expect((await send(ACKNOWLEDGE, BODY)).statusCode).toBe(500);
    expect(ports.alarms({ state: 'acknowledged', limit: 9 }).alarms).toEqual([]);
  });
});
