import { describe, expect, test } from 'vitest';
import { HTTP_LIMITS } from '../../services/http/limits.js';
import { appOver, problemOfAnswer } from './answers.js';
import { PortsInMemory } from './ports.js';

const credentials = { user: 'keeper', password: 'sand and roots' };
const authorization = `Basic ${Buffer.from('keeper:sand and roots').toString('base64')}`;
const ADDRESSES = [
  '/',
  '/metrics',
  '/api/beds',
  '/api/beds/pit-a',
  '/api/beds/pit-a/readings',
  '/api/alarms',
  '/api/probes/unknown',
  '/api/quarantine',
  '/api/openapi.json',
];

describe('with credentials', () => {
  test.each([...ADDRESSES, '/api/no-such', '/API/HEALTH', '/api/health/', '//api/health'])(
    '%s asks who is asking',
    async (url) => {
      const app = await appOver(new PortsInMemory(), { credentials });
      const answer = await app.inject(url);
      expect(problemOfAnswer(answer, 401).code).toBe('UNAUTHORISED');
      expect(answer.headers['www-authenticate']).toBe('Basic realm="sandlarder", charset="UTF-8"');
    },
  );

  test.each(ADDRESSES)('%s answers the right ones', async (url) => {
    const app = await appOver(new PortsInMemory(), { credentials });
    expect((await app.inject({ url, headers: { authorization } })).statusCode).toBe(200);
  });

  test('nothing is done for the wrong ones', async () => {
    const ports = new PortsInMemory();
    const app = await appOver(ports, { credentials });
    const answer = await app.inject({
      method: 'POST',
      url: '/api/beds/pit-a/inspections',
      headers: { authorization: `Basic ${Buffer.from('keeper:sand').toString('base64')}` },
      payload: { at: '2026-06-01T08:00:00Z', by: 'x', opened: true, repacked: true, found: ['nothing'] },
    });
    problemOfAnswer(answer, 401);
    expect(ports.inspections).toEqual([]);
  });

  test('the health address asks nobody', async () => {
    const app = await appOver(new PortsInMemory(), { credentials });
    expect((await app.inject('/api/health?x=1')).statusCode).toBe(200);
    expect((await app.inject({ method: 'HEAD', url: '/api/health' })).statusCode).toBe(200);
  });

  test('a name of another machine is served, as other machines ask', async () => {
    const app = await appOver(new PortsInMemory(), { credentials });
    const answer = await app.inject({ url: '/api/beds', headers: { authorization, host: 'shed.example' } });
    expect(answer.statusCode).toBe(200);
  });

  test('useless ones are refused before anything is built', async () => {
    await expect(appOver(new PortsInMemory(), { credentials: { user: '', password: '' } })).rejects.toThrow(
      expect.objectContaining({ code: 'WRONG_USAGE' }),
    );
  });
});

describe('without credentials', () => {
  test.each(['evil.example', 'evil.example:8080', 'localhost.evil.example', '10.0.0.7', '0.0.0.0:8080'])(
    'Host %j is refused: a page elsewhere must not read the answers',
    async (host) => {
      const app = await appOver();
      for (const url of [...ADDRESSES, '/api/health'])
        problemOfAnswer(await app.inject({ url, headers: { host } }), 421);
    },
  );

  test.each(['localhost', 'localhost:9000', '127.0.0.1:8080', '[::1]:8080'])(
    'Host %s is served',
    async (host) => {
      const app = await appOver();
      expect((await app.inject({ url: '/api/beds', headers: { host } })).statusCode).toBe(200);
    },
  );
});

describe('a body', () => {
  const url = '/api/alarms/alarm-1/acknowledge';

  test.each([
    undefined,
    'text/plain',
    'application/x-www-form-urlencoded',
    'multipart/form-data; boundary=x',
    'text/plain; application/json',
    'application/jsonp',
    'application/ld+json',
    ', application/json',
  ])('of type %j is refused, as a form of another page could send it', async (type) => {
    const app = await appOver();
    const headers = type === undefined ? {} : { 'content-type': type };
    problemOfAnswer(await app.inject({ method: 'POST', url, headers, payload: '{"by":"x"}' }), 415);
    const [alarm] = (await app.inject('/api/alarms?state=acknowledged')).json();
    expect(alarm).toBeUndefined();
  });

  test('without length and type is refused the same way', async () => {
    const app = await appOver();
    problemOfAnswer(await app.inject({ method: 'POST', url }), 415);
  });

  test('that is compressed is refused', async () => {
    const app = await appOver();
    const headers = { 'content-type': 'application/json', 'content-encoding': 'gzip' };
    problemOfAnswer(await app.inject({ method: 'POST', url, headers, payload: '{"by":"x"}' }), 415);
  });

  test('of JSON is taken with any charset parameter and case', async () => {
    const app = await appOver();
    const headers = { 'content-type': 'Application/JSON; charset=utf-8' };
    expect((await app.inject({ method: 'POST', url, headers, payload: '{"by":"x"}' })).statusCode).toBe(200);
  });
});

describe('an address', () => {
  test('longer than the limit is 414, known or not', async () => {
    const app = await appOver();
    const longest = `/api/alarms?${'x'.repeat(HTTP_LIMITS.url_bytes - '/api/alarms?'.length)}`;
    problemOfAnswer(await app.inject(longest), 400);
    problemOfAnswer(await app.inject(`${longest}x`), 414);
    problemOfAnswer(await app.inject(`/${'x'.repeat(HTTP_LIMITS.url_bytes)}`), 414);
  });
});
