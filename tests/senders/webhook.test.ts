import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { DeliveryError } from '../../services/senders/delivery-error.js';
import { OutboxRunner } from '../../services/senders/outbox-runner.js';
import { SIGNATURE_HEADER, verifySignature } from '../../services/senders/signature.js';
import { createWebhook, WEBHOOK_LIMITS } from '../../services/senders/webhook.js';
import { ArrayOutbox, aMessage } from './array-outbox.js';
import { ManualTimer } from './manual-timer.js';
import { Receiver, withStatus } from './receiver.js';

const NOW = Date.parse('2026-05-24T15:00:00Z');

let receiver: Receiver;
let timer: ManualTimer;
beforeEach(async () => {
  receiver = await Receiver.start();
  timer = new ManualTimer(NOW);
});
afterEach(() => receiver.stop());

const toReceiver = (otherwise: Parameters<typeof aMessage>[0] = {}) =>
  aMessage({ to: `${receiver.origin}/hook?token=secret`, body: '{"a":"ä"}', createdAt: NOW, ...otherwise });

/** The error with which sending ends. */
async function refusalOf(message = toReceiver()): Promise<DeliveryError> {
  const error: unknown = await createWebhook(timer)
    .send(message)
    .then(() => undefined)
    .catch((reason) => reason);
  expect(error).toBeInstanceOf(DeliveryError);
  return error as DeliveryError;
}

test('the body is posted as JSON under its key', async () => {
  await createWebhook(timer).send(toReceiver({ key: 'ridge-station.pit-a/raised/webhook/site.0' }));
  expect(receiver.requests).toMatchObject([
    {
      method: 'POST',
      path: '/hook?token=secret',
      body: '{"a":"ä"}',
      headers: {
        'content-type': 'application/json',
        'idempotency-key': '"ridge-station.pit-a/raised/webhook/site.0"',
        'content-length': '10',
        'user-agent': 'sandlarder',
      },
    },
  ]);
  expect(timer.waits_ms).toEqual([]);
});

test('XML is posted as CAP, signed like all else', async () => {
  const secret = 's'.repeat(32);
  const body = '<?xml version="1.0" encoding="UTF-8"?>\n<alert/>\n';
  await createWebhook(timer, WEBHOOK_LIMITS, { secretOf: () => secret }).send(toReceiver({ body }));
  const [request] = receiver.requests;
  expect(request).toMatchObject({ body, headers: { 'content-type': 'application/cap+xml' } });
  const header = String(request?.headers[SIGNATURE_HEADER.toLowerCase()]);
  expect(verifySignature({ header, body, secret, now: NOW })).toBe(true);
  expect(verifySignature({ header, body: `${body} `, secret, now: NOW })).toBe(false);
});

// RFC 8941 section 3.3.3.
test('quotes and backslashes of a key are escaped', async () => {
  await createWebhook(timer).send(toReceiver({ key: 'a"b\\c' }));
  expect(receiver.requests[0]?.headers['idempotency-key']).toBe('"a\\"b\\\\c"');
});

test.each([200, 201, 202, 204])('status %d is delivered, whatever is in the answer', async (status) => {
  receiver.answers = [withStatus(status, status === 204 ? '' : '{"ok":false}')];
  await expect(createWebhook(timer).send(toReceiver())).resolves.toBeUndefined();
});

test('an answer without an end does not hold up a delivery', async () => {
  receiver.answers = [(response) => response.writeHead(200).write('begun')];
  await expect(createWebhook(timer).send(toReceiver())).resolves.toBeUndefined();
});

test.each([408, 425, 429, 500, 502, 503, 504, 599])('status %d may pass', async (status) => {
  receiver.answers = [withStatus(status)];
  expect(await refusalOf()).toMatchObject({
    code: 'RECEIVER_UNAVAILABLE',
    permanent: false,
    retryAfter_ms: undefined,
    message: `webhook ${receiver.origin}: expected status 2xx, got ${status}`,
  });
});

test.each([400, 401, 403, 404, 405, 410, 413, 422])('status %d is a refusal', async (status) => {
  receiver.answers = [withStatus(status, '', { 'retry-after': '5' })];
  expect(await refusalOf()).toMatchObject({ code: 'BAD_REQUEST', permanent: true, retryAfter_ms: undefined });
});

test.each([301, 302, 303, 307, 308])('redirect %d is not followed', async (status) => {
  receiver.answers = [withStatus(status, '', { location: `${receiver.origin}/elsewhere` })];
  const error = await refusalOf();
  expect(error.permanent).toBe(true);
  expect(error.message).toContain(`got ${status} (redirects are not followed)`);
  expect(receiver.requests.map(({ path }) => path)).toEqual(['/hook?token=secret']);
});

test.each([
  ['30', 30_000],
  ['86400', 3_600_000],
  ['Sun, 24 May 2026 15:00:07 GMT', 7000],
  ['whenever', undefined],
])('Retry-After "%s" is kept to', async (header, wait_ms) => {
  receiver.answers = [withStatus(429, '', { 'retry-after': header })];
  expect((await refusalOf()).retryAfter_ms).toBe(wait_ms);
});

test('what the receiver says is in the reason, on one line and no more than 1 KiB of it', async () => {
  receiver.answers = [withStatus(422, `no\r\nsuch \u001b[31mbed${'x'.repeat(5000)}`)];
  const { message } = await refusalOf();
  expect(message).toMatch(/got 422: no such +\[31mbedx+(\.\.\.)?$/);
  expect(message.length).toBeLessThan(1024 + 100);
});

test('of a long answer the beginning is read and the rest not waited for', async () => {
  receiver.answers = [(response) => response.writeHead(500).write('x'.repeat(2000))];
  expect((await refusalOf()).message).toContain('xxx...');
});

test('a refusal whose text never ends is a refusal all the same', async () => {
  receiver.answers = [(response) => response.writeHead(500).write('begun')];
  const refused = refusalOf();
  await receiver.taken();
  await timer.advance(WEBHOOK_LIMITS.answer_ms);
  expect(await refused).toMatchObject({ permanent: false });
});

test('no answer within ten seconds may pass', async () => {
  receiver.answers = [() => undefined];
  const refused = refusalOf();
  await receiver.taken();
  await timer.advance(9999);
  expect(timer.waits_ms).toEqual([1]);
  await timer.advance(1);
  expect(await refused).toMatchObject({
    permanent: false,
    message: `webhook ${receiver.origin}: expected an answer within 10000 ms, got none`,
  });
});

test('a connection that is closed may pass', async () => {
  receiver.answers = [(response) => response.socket?.destroy()];
  const error = await refusalOf();
  expect(error).toMatchObject({ code: 'RECEIVER_UNAVAILABLE', permanent: false });
  expect(error.message).toMatch(/no connection: \S+/);
});

test('an answer that is not HTTP may pass', async () => {
  receiver.answers = [(response) => response.socket?.end('hello\r\n\r\n')];
  expect(await refusalOf()).toMatchObject({ code: 'RECEIVER_UNAVAILABLE', permanent: false });
});

test('a port where nobody listens may pass', async () => {
  const message = toReceiver();
  await receiver.stop();
  expect((await refusalOf(message)).message).toContain('no connection: ECONNREFUSED');
  receiver = await Receiver.start();
});

test('no reason shows the path or the query, which may hold a secret', async () => {
  for (const answer of [withStatus(500), withStatus(404), withStatus(302, '', { location: '/x' })]) {
    receiver.answers = [answer];
    expect((await refusalOf()).message).not.toMatch(/token|secret|hook\?/);
  }
});

test.each(['', 'not a url', 'ftp://a.example/', 'https://u:p@a.example/', '//a.example'])(
  'the address "%s" is refused before anything is sent',
  async (to) => {
    expect(await refusalOf(aMessage({ to }))).toMatchObject({ code: 'BAD_REQUEST', permanent: true });
  },
);

test.each(['', 'ä', 'a\r\nx-other: 1', 'a'.repeat(501)])('the key %j is refused', async (key) => {
  expect(await refusalOf(toReceiver({ key }))).toMatchObject({ permanent: true });
  expect(receiver.requests).toEqual([]);
});

test('a body of more than 64 KiB is refused, counted in bytes', async () => {
  const most = WEBHOOK_LIMITS.body_bytes;
  const error = await refusalOf(toReceiver({ body: 'ä'.repeat(most / 2 + 1) }));
  expect(error.message).toBe(`webhook: expected a body of at most ${most} bytes, got ${most + 2}`);
  expect(receiver.requests).toEqual([]);
  await createWebhook(timer).send(toReceiver({ body: 'ä'.repeat(most / 2) }));
});

describe('with a shared secret', () => {
  const SECRET = 'made-up-secret-of-the-tests-0123';
  const signing = (secretOf: (to: string) => string | undefined) =>
    createWebhook(timer, WEBHOOK_LIMITS, { secretOf });

  const headerOf = (n: number) => receiver.requests[n]?.headers[SIGNATURE_HEADER] as string | undefined;

  test('the request is signed over the body that arrives, and keeps its key', async () => {
    await signing(() => SECRET).send(toReceiver());
    const { body = '', headers } = receiver.requests[0] ?? {};
    expect(headers?.['idempotency-key']).toBe('"k1"');
    expect(verifySignature({ header: headerOf(0), body, secret: SECRET, now: NOW })).toBe(true);
    expect(verifySignature({ header: headerOf(0), body: '{}', secret: SECRET, now: NOW })).toBe(false);
    expect(JSON.stringify(receiver.requests)).not.toContain(SECRET);
  });

  test('only the receiver that shares the secret is asked for by its URL', async () => {
    const asked: string[] = [];
    const way = signing((to) => {
      asked.push(to);
      return undefined;
    });
    await way.send(toReceiver());
    expect(asked).toEqual([`${receiver.origin}/hook?token=secret`]);
    expect(headerOf(0)).toBeUndefined();
  });

  test('tried again later, the time is new and the key is not', async () => {
    receiver.answers = [withStatus(503), withStatus(204)];
    const way = signing(() => SECRET);
    await way.send(toReceiver()).catch(() => undefined);
    timer.set(NOW + 600_000);
    await way.send(toReceiver());
    expect(headerOf(0)).toMatch(/^time=1779634800, /);
    expect(headerOf(1)).toMatch(/^time=1779635400, /);
    expect(receiver.requests.map(({ headers }) => headers['idempotency-key'])).toEqual(['"k1"', '"k1"']);
  });

  test('with a secret that is too short nothing is sent, and the secret is not repeated', async () => {
    const error: unknown = await signing(() => 'guessme')
      .send(toReceiver())
      .catch((reason) => reason);
    expect(error).toMatchObject({ code: 'BAD_REQUEST', permanent: true });
    expect((error as Error).message).toBe(
      `webhook ${receiver.origin}: expected a secret of at least 32 characters, got 7`,
    );
    expect(receiver.requests).toEqual([]);
  });
});

describe('with the outbox', () => {
  function aRunner() {
    const outbox = new ArrayOutbox();
    const runner = new OutboxRunner({ outbox, ways: [createWebhook(timer)], timer, random: () => 0 });
    return { outbox, runner };
  }

  test('500 at first, then 200: told once more with the same key', async () => {
    receiver.answers = [withStatus(500, 'restarting'), withStatus(200)];
    const { outbox, runner } = aRunner();
    outbox.add(toReceiver());
    runner.kick();
    expect((await outbox.tried('k1', 1)).error).toContain('got 500: restarting');
    await timer.advance(1000);
    expect(await outbox.tried('k1', 2)).toMatchObject({ state: 'delivered' });
    expect(receiver.requests.map(({ headers }) => headers['idempotency-key'])).toEqual(['"k1"', '"k1"']);
    await runner.close();
  });

  test('429 with Retry-After: nothing more until then', async () => {
    receiver.answers = [withStatus(429, '', { 'retry-after': '60' }), withStatus(200)];
    const { outbox, runner } = aRunner();
    outbox.add(toReceiver(), toReceiver({ key: 'k2' }));
    runner.kick();
    await outbox.tried('k1', 1);
    await timer.advance(59_999);
    expect(receiver.requests).toHaveLength(1);
    await timer.advance(1);
    await outbox.tried('k1', 2);
    await outbox.tried('k2', 1);
    expect(outbox.states).toEqual({ k1: 'delivered', k2: 'delivered' });
    await runner.close();
  });

  test('404 three times: given up', async () => {
    receiver.answers = [withStatus(404, 'gone')];
    const { outbox, runner } = aRunner();
    outbox.add(toReceiver());
    runner.kick();
    await outbox.tried('k1', 1);
    await timer.advance(1000);
    await outbox.tried('k1', 2);
    await timer.advance(2000);
    expect(await outbox.tried('k1', 3)).toMatchObject({
      state: 'given up',
      error: expect.stringMatching(/^refused 3 times, the last time: webhook .* got 404: gone$/),
    });
    await runner.close();
  });
});
