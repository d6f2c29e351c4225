import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { DeliveryError } from '../../services/senders/delivery-error.js';
import { createGateway, GATEWAY_LIMITS } from '../../services/senders/gateway.js';
import { OutboxRunner } from '../../services/senders/outbox-runner.js';
import { ArrayOutbox, aMessage } from './array-outbox.js';
import { ManualTimer } from './manual-timer.js';
import { Receiver, withStatus } from './receiver.js';

const NOW = Date.parse('2026-05-24T15:00:00Z');
const TO = '+260970000000';
const TEXT = 'Pit A: sand 1.8 C too warm & "wet" é?';
const SECRET = 's3cret-t0ken';

let receiver: Receiver;
let timer: ManualTimer;
beforeEach(async () => {
  receiver = await Receiver.start();
  timer = new ManualTimer(NOW);
});
afterEach(() => receiver.stop());

const aText = (otherwise: Parameters<typeof aMessage>[0] = {}) =>
  aMessage({
    via: 'sms',
    to: TO,
    body: JSON.stringify({ text: TEXT, line: 'other' }),
    createdAt: NOW,
    ...otherwise,
  });

const settings = (otherwise: Record<string, unknown> = {}) => ({
  url: `${receiver.origin}/send?token=${SECRET}`,
  headers: { authorization: `Bearer ${SECRET}` },
  contentType: 'json',
  body: { to: '<<to>>', text: '<<text>>', key: '<<key>>', parts: '<<parts>>' },
  ...otherwise,
});

const send = (otherwise: Record<string, unknown> = {}, message = aText()) =>
  createGateway(settings(otherwise), timer).send(message);

async function refusalOf(otherwise: Record<string, unknown> = {}, message = aText()): Promise<DeliveryError> {
  const error: unknown = await send(otherwise, message).then(
    () => undefined,
    (reason) => reason,
  );
  expect(error).toBeInstanceOf(DeliveryError);
  expect((error as DeliveryError).message).not.toContain(SECRET);
  expect((error as DeliveryError).message).not.toContain(TO.slice(1));
  return error as DeliveryError;
}

test('the way is called sms', () => {
  expect(createGateway(settings(), timer).name).toBe('sms');
});

test('JSON: the fields are filled, the headers are sent', async () => {
  await send();
  const [request] = receiver.requests;
  expect(request).toMatchObject({
    method: 'POST',
    path: `/send?token=${SECRET}`,
    headers: {
      'content-type': 'application/json',
      authorization: `Bearer ${SECRET}`,
      'user-agent': 'sandlarder',
    },
  });
  // é is in the alphabet of short messages: one message.
  expect(JSON.parse(request?.body ?? '')).toEqual({ to: TO, text: TEXT, key: 'k1', parts: 1 });
  expect(timer.waits_ms).toEqual([]);
});

test('form: each value is one value, whatever is in it', async () => {
  await send({ contentType: 'form', body: { To: '<<to>>', 'msg[0]': '<<text>>' }, method: 'PUT' });
  const [request] = receiver.requests;
  expect(request?.method).toBe('PUT');
  expect(request?.headers['content-type']).toBe('application/x-www-form-urlencoded');
  expect([...new URLSearchParams(request?.body)]).toEqual([
    ['To', TO],
    ['msg[0]', TEXT],
  ]);
});

test('text: as it is; another content type can be given', async () => {
  await send({ contentType: 'text', body: '<<digits>>;<<text>>', headers: { 'Content-Type': 'text/csv' } });
  expect(receiver.requests).toMatchObject([
    { body: `260970000000;${TEXT}`, headers: { 'content-type': 'text/csv' } },
  ]);
});

test('GET: everything in the URL, with no body', async () => {
  const url = `${receiver.origin}/<<digits>>?m=<<text>>&from=<<from>>`;
  await send({ method: 'GET', url, contentType: undefined, body: undefined, from: 'Store 2' });
  const [request] = receiver.requests;
  expect(request).toMatchObject({ method: 'GET', body: '' });
  const sent = new URL(request?.path ?? '', receiver.origin);
  expect(sent.pathname).toBe('/260970000000');
  expect([...sent.searchParams]).toEqual([
    ['m', TEXT],
    ['from', 'Store 2'],
  ]);
});

test('a text that is made to break out stays one value', async () => {
  const text = '", "to": "+1" , "<<key>>&to=+1#\r\nx: y';
  const url = `${receiver.origin}/?m=<<text>>`;
  await send(
    { url, contentType: 'form', body: { to: '<<to>>', m: '<<text>>' } },
    aText({ body: JSON.stringify({ text }) }),
  );
  await send({}, aText({ body: JSON.stringify({ text }) }));
  const [form, json] = receiver.requests;
  expect([...new URL(form?.path ?? '', receiver.origin).searchParams]).toEqual([['m', text]]);
  expect([...new URLSearchParams(form?.body)]).toEqual([
    ['to', TO],
    ['m', text],
  ]);
  expect(JSON.parse(json?.body ?? '')).toMatchObject({ to: TO, text });
});

test('without a text the line is sent', async () => {
  await send({}, aText({ body: '{"line":"Pit A"}' }));
  expect(JSON.parse(receiver.requests[0]?.body ?? '')).toMatchObject({ text: 'Pit A' });
});

test('half of a surrogate pair does not keep the rest from being sent', async () => {
  await send({ url: `${receiver.origin}/?m=<<text>>` }, aText({ body: '{"text":"a\\ud800b"}' }));
  expect(new URL(receiver.requests[0]?.path ?? '', receiver.origin).searchParams.get('m')).toBe('a\ufffdb');
});

test('the parts are counted as the network splits them', async () => {
  for (const text of ['a'.repeat(160), 'a'.repeat(161), 'я'.repeat(70), 'я'.repeat(71)])
    await send({}, aText({ body: JSON.stringify({ text }) }));
  expect(receiver.requests.map(({ body }) => JSON.parse(body).parts)).toEqual([1, 2, 1, 2]);
});

describe('the answer', () => {
  const BY_PATH = { success: { path: 'messages.0.status', equals: 'queued' } };

  test.each([200, 201, 202, 204])('status %d is a success where nothing else is asked', async (status) => {
    receiver.answers = [withStatus(status)];
    await expect(send()).resolves.toBeUndefined();
  });

  test('a success in the body is one', async () => {
    receiver.answers = [withStatus(200, '{"messages":[{"status":"queued"}]}')];
    await expect(send(BY_PATH)).resolves.toBeUndefined();
  });

  test('200 with the error inside is a refusal, and says what the gateway said', async () => {
    receiver.answers = [withStatus(200, '{"messages":[{"status":"no credit"}]}')];
    expect(await refusalOf(BY_PATH)).toMatchObject({
      code: 'BAD_REQUEST',
      permanent: true,
      message: `sms ${receiver.origin}: expected messages.0.status to be "queued", got "no credit": {"messages":[{"status":"no credit"}]}`,
    });
  });

  test('where the settings say so, it may pass', async () => {
    receiver.answers = [withStatus(200, '{"messages":[{"status":"busy"}]}')];
    const error = await refusalOf({ ...BY_PATH, tryAgainIf: 'busy|throttled' });
    expect(error).toMatchObject({ code: 'RECEIVER_UNAVAILABLE', permanent: false });
  });

  test('so may a refusal by status', async () => {
    receiver.answers = [withStatus(400, 'throttled', { 'retry-after': '7' })];
    expect(await refusalOf({ tryAgainIf: 'throttled' })).toMatchObject({
      permanent: false,
      retryAfter_ms: 7000,
    });
    expect(await refusalOf()).toMatchObject({ permanent: true, retryAfter_ms: undefined });
  });

  test('a status that is not listed is a refusal, though it is 2xx', async () => {
    receiver.answers = [withStatus(200)];
    const error = await refusalOf({ success: { status: [201, 202] } });
    expect(error).toMatchObject({ permanent: true });
    expect(error.message).toContain('expected status 201 or 202, got 200');
  });

  test('an answer that is no JSON where JSON is expected is a refusal', async () => {
    receiver.answers = [withStatus(200, '<html>')];
    expect((await refusalOf(BY_PATH)).message).toContain('got none: <html>');
  });

  test('of a longer answer no more than 64 KiB is read', async () => {
    const rest = `"${'x'.repeat(300_000)}","status":"queued"}`;
    receiver.answers = [withStatus(200, `{"a":${rest}`)];
    const error = await refusalOf({ success: { path: 'status', equals: 'queued' } });
    expect(error.message.length).toBeLessThan(500);
  });

  test.each([408, 425, 429, 500, 502, 503])('status %d may pass', async (status) => {
    receiver.answers = [withStatus(status, 'no', { 'retry-after': '30' })];
    expect(await refusalOf()).toMatchObject({
      code: 'RECEIVER_UNAVAILABLE',
      permanent: false,
      retryAfter_ms: 30_000,
    });
  });

  test.each([400, 401, 402, 403, 404, 422])('status %d is a refusal', async (status) => {
    receiver.answers = [withStatus(status, '', { 'retry-after': '30' })];
    expect(await refusalOf()).toMatchObject({ permanent: true, retryAfter_ms: undefined });
  });

  test.each([301, 302, 307, 308])('redirect %d is not followed', async (status) => {
    receiver.answers = [withStatus(status, '', { location: `${receiver.origin}/elsewhere` })];
    const error = await refusalOf();
    expect(error.permanent).toBe(true);
    expect(error.message).toContain(`got ${status} (redirects are not followed)`);
    expect(receiver.requests).toHaveLength(1);
  });

  test('what the gateway repeats of secrets, number and text is hidden', async () => {
    const said = { auth: `Bearer ${SECRET}`, url: `/send?token=${SECRET}`, to: TO, text: TEXT };
    receiver.answers = [withStatus(400, `${said.auth} ${said.url} ${said.to} ${said.text}`)];
    expect((await refusalOf()).message).toBe(
      `sms ${receiver.origin}: expected status 2xx, got 400: [hidden] /send?token=[hidden] +[hidden] [hidden]`,
    );
  });

  test('a secret that stands in the value looked at is hidden too', async () => {
    receiver.answers = [withStatus(200, JSON.stringify({ status: `bad token ${SECRET}` }))];
    const error = await refusalOf({ success: { path: 'status', equals: 'ok' } });
    expect(error.message).toContain('got "bad token [hidden]"');
  });

  test('no answer in time may pass', async () => {
    receiver.answers = [() => undefined];
    const refused = refusalOf();
    await receiver.taken();
    await timer.advance(GATEWAY_LIMITS.answer_ms);
    expect(await refused).toMatchObject({
      permanent: false,
      message: `sms ${receiver.origin}: expected an answer within 30000 ms, got none`,
    });
  });

  test('an answer whose body never ends may pass', async () => {
    receiver.answers = [(response) => response.writeHead(200).write('{"messages":')];
    const refused = refusalOf(BY_PATH);
    await receiver.taken();
    await timer.advance(GATEWAY_LIMITS.answer_ms);
    expect(await refused).toMatchObject({ permanent: false });
  });

  test('a connection that is closed may pass', async () => {
    receiver.answers = [(response) => response.socket?.destroy()];
    const error = await refusalOf();
    expect(error).toMatchObject({ code: 'RECEIVER_UNAVAILABLE', permanent: false });
    expect(error.message).toMatch(/no connection: \S+/);
  });
});

describe('what cannot be sent is refused before anything is', () => {
  test.each([
    ['no number', { to: 'keeper' }, /expected a number/],
    ['a number without a plus', { to: '260970000000' }, /got one without \+/],
    ['a number with a line end', { to: `${TO}\n` }, /expected a number/],
    ['no JSON', { body: 'text' }, /expected the body of a message, got another/],
    ['another body', { body: '{"text":3}' }, /expected the body of a message, got another/],
    ['no text', { body: '{"alarm":{}}' }, /expected a body with a text or a line, got neither/],
    ['a long body', { body: JSON.stringify({ text: 'é'.repeat(40_000) }) }, /at most 65536 bytes, got 80011/],
    [
      'a text of 256 parts',
      { body: JSON.stringify({ text: 'a'.repeat(153 * 255 + 1) }) },
      /at most 255 short messages/,
    ],
    ['a key that no header holds', { key: 'a\r\nb: c' }, /expected a key/],
  ])('%s', async (_what, otherwise, reason) => {
    const error = await refusalOf({}, aText(otherwise));
    expect(error).toMatchObject({ code: 'BAD_REQUEST', permanent: true });
    expect(error.message).toMatch(reason);
    expect(receiver.requests).toEqual([]);
  });
});

test('settings that cannot be used are refused at the start', () => {
  expect(() => createGateway(settings({ body: '<<phone>>' }), timer)).toThrow('got "<<phone>>"');
});

test('with the outbox: an error inside 200 is tried three times, each with the same key', async () => {
  receiver.answers = [withStatus(200, '{"status":"failed"}')];
  const outbox = new ArrayOutbox();
  const ways = [createGateway(settings({ success: { path: 'status', equals: 'ok' } }), timer)];
  const runner = new OutboxRunner({ outbox, ways, timer, random: () => 0 });
  outbox.add(aText());
  runner.kick();
  await outbox.tried('k1', 1);
  await timer.advance(1000);
  await outbox.tried('k1', 2);
  await timer.advance(2000);
  expect(await outbox.tried('k1', 3)).toMatchObject({ state: 'given up' });
  expect(receiver.requests.map(({ body }) => JSON.parse(body).key)).toEqual(['k1', 'k1', 'k1']);
  await runner.close();
});
