import { describe, expect, test } from 'vitest';
import { ERROR_CODES, SandlarderError } from '../../services/core/errors.js';
import { ERROR_STATUS } from '../../services/http/error-status.js';
import type { HttpPorts } from '../../services/http/ports.js';
import { appOver, placesOf, problemOfAnswer } from './answers.js';
import { PortsInMemory } from './ports.js';

const json = { 'content-type': 'application/json' };
const acknowledge = { method: 'POST', url: '/api/alarms/alarm-1/acknowledge', headers: json } as const;

/** Ports whose list of beds throws. */
function failing(error: unknown): HttpPorts {
  return Object.assign(new PortsInMemory(), {
    beds: () => {
      throw error;
    },
  });
}

describe('error codes', () => {
  test.each(ERROR_CODES)('%s has a status of an error', (code) => {
    expect(ERROR_STATUS[code]).toBeGreaterThanOrEqual(400);
    expect(ERROR_STATUS[code]).toBeLessThan(600);
  });

  test.each(ERROR_CODES)('%s is answered with its status and code', async (code) => {
    const app = await appOver(failing(new SandlarderError(code, 'expected this, got that')));
    const problem = problemOfAnswer(await app.inject('/api/beds?x=secret'), ERROR_STATUS[code]);
    expect(problem).toMatchObject({ code, instance: '/api/beds' });
    if (ERROR_STATUS[code] < 500) expect(problem.detail).toBe('expected this, got that');
    else expect(problem.detail).not.toContain('got that');
  });
});

describe('what is not the asker’s doing', () => {
  test.each([
    new Error('SELECT * FROM inside'),
    new TypeError('inside is undefined'),
    Object.assign(new Error('inside'), { statusCode: 200 }),
    Object.assign(new Error('inside'), { statusCode: 'inside' }),
    'inside',
    null,
  ])('%j is 500, says nothing of the inside, and is reported', async (error) => {
    const reported: unknown[] = [];
    const app = await appOver(failing(error), { report: (...what) => reported.push(what) });
    const answer = await app.inject('/api/beds?x=secret');
    problemOfAnswer(answer, 500);
    expect(answer.body).not.toContain('inside');
    expect(answer.body).not.toContain('secret');
    expect(reported).toEqual([[error, 'GET /api/beds']]);
  });

  test('an answer that is not as described is 500 too', async () => {
    const ports = new PortsInMemory();
    const [bed] = ports.beds();
    const reported: unknown[] = [];
    const wrong = Object.assign(ports, { beds: () => [{ ...bed, basis: Number.NaN }] as never });
    const app = await appOver(wrong, { report: (error) => reported.push(error) });
    problemOfAnswer(await app.inject('/api/beds'), 500);
    expect(reported).toHaveLength(1);
  });

  test('what the asker did wrong is not reported', async () => {
    const reported: unknown[] = [];
    const app = await appOver(new PortsInMemory(), { report: (error) => reported.push(error) });
    await app.inject('/api/beds/nope');
    await app.inject('/nope');
    await app.inject({ ...acknowledge, payload: '{' });
    expect(reported).toEqual([]);
  });
});

describe('an address', () => {
  test.each(['/nope', '/api/', '/API/beds', '/api/beds/pit-a/nope', '/api//beds', '/api/beds/a/b/../../..'])(
    '%s that is none is 404',
    async (url) => {
      const app = await appOver();
      problemOfAnswer(await app.inject(url), 404);
    },
  );

  test('404 comes before a look at the body', async () => {
    const app = await appOver();
    const answer = await app.inject({ method: 'POST', url: '/nope', headers: json, payload: '{' });
    expect(problemOfAnswer(answer, 404)).toMatchObject({ code: 'NOT_FOUND', instance: '/nope' });
  });

  test('that is badly encoded is 400', async () => {
    const app = await appOver();
    problemOfAnswer(await app.inject('/api/beds/%zz'), 400);
    problemOfAnswer(await app.inject('/api/beds/%ff'), 400);
  });

  test('with a part longer than any id is 414', async () => {
    const app = await appOver();
    problemOfAnswer(await app.inject(`/api/beds/${'a'.repeat(161)}`), 414);
  });
});

describe('a method', () => {
  test.each([
    ['POST', '/api/health', 'GET, HEAD'],
    ['DELETE', '/api/beds', 'GET, HEAD'],
    ['PUT', '/api/beds/pit-a', 'GET, HEAD'],
    ['PATCH', '/api/beds/pit-a/readings', 'GET, HEAD'],
    ['PUT', '/api/beds/pit-a/inspections', 'GET, HEAD, POST'],
    ['GET', '/api/beds/pit-a/records', 'POST'],
    ['GET', '/api/alarms/alarm-1/acknowledge', 'POST'],
    ['OPTIONS', '/api/alarms', 'GET, HEAD'],
    ['POST', '/metrics', 'GET, HEAD'],
    ['POST', '/api/openapi.json', 'GET, HEAD'],
    ['POST', '/', 'GET, HEAD'],
  ] as const)('%s %s is 405 and says which are taken', async (method, url, allow) => {
    const app = await appOver();
    const answer = await app.inject({ method, url });
    expect(problemOfAnswer(answer, 405).detail).toContain(method);
    expect(answer.headers.allow).toBe(allow);
  });

  test('that HTTP does not know here is 501', async () => {
    const app = await appOver();
    problemOfAnswer(await app.inject({ method: 'PROPFIND' as 'GET', url: '/api/beds' }), 501);
  });

  test('HEAD is answered as GET without a body', async () => {
    const app = await appOver();
    const answer = await app.inject({ method: 'HEAD', url: '/api/beds' });
    expect(answer).toMatchObject({ statusCode: 200, body: '' });
  });
});

describe('a body', () => {
  test.each(['{', '', '{"by":}', "{'by':'x'}", '{"by":"x"}}', '{"by":"x","__proto__":{"a":1}}', '\u0000'])(
    '%j that is not JSON is 400',
    async (payload) => {
      const app = await appOver();
      problemOfAnswer(await app.inject({ ...acknowledge, payload }), 400);
    },
  );

  test.each([
    ['[]', ['#']],
    ['null', ['#']],
    ['"by"', ['#']],
    ['{}', ['#/by']],
    ['{"by":""}', ['#/by']],
    ['{"by":"   "}', ['#/by']],
    ['{"by":7,"note":[]}', ['#/by', '#/note']],
    ['{"by":"x","who":1,"a/b~c d":2}', ['#/who', '#/a~1b~0c%20d']],
    ['{"by":"x","\\ud800":1}', ['#/%EF%BF%BD']],
  ])('%s is 400 and names the places', async (payload, places) => {
    const app = await appOver();
    const problem = problemOfAnswer(await app.inject({ ...acknowledge, payload }), 400);
    expect(placesOf(problem)).toEqual(places);
    expect(problem.code).toBe('BAD_REQUEST');
  });

  test('of thousands of wrong keys is told of the first few', async () => {
    const app = await appOver();
    const keys = Array.from({ length: 5000 }, (_, index) => [`key-${index}`, 1]);
    const problem = problemOfAnswer(
      await app.inject({ ...acknowledge, payload: Object.fromEntries(keys) }),
      400,
    );
    expect(problem.errors).toHaveLength(20);
  });

  test('longer than the limit is 413; just as long as the limit is read', async () => {
    const app = await appOver(new PortsInMemory(), { bodyLimit_bytes: 1000 });
    const ofLength = (bytes: number) => `{"by":"x"}`.padEnd(bytes, ' ');
    problemOfAnswer(await app.inject({ ...acknowledge, payload: ofLength(1001) }), 413);
    expect((await app.inject({ ...acknowledge, payload: ofLength(1000) })).statusCode).toBe(200);
  });

  test('is limited to 64 KiB where nothing else is said', async () => {
    const app = await appOver();
    problemOfAnswer(await app.inject({ ...acknowledge, payload: `{"by":"x"}`.padEnd(65_537, ' ') }), 413);
  });
});

test('no answer is stored on the way or read as another type', async () => {
  const app = await appOver();
  for (const url of ['/', '/api/beds', '/api/beds/nope', '/nope'])
    expect((await app.inject(url)).headers).toMatchObject({
      'cache-control': 'no-store',
      'x-content-type-options': 'nosniff',
    });
});
