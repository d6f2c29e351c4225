import { afterEach, describe, expect, test } from 'vitest';
import { createEmail, EMAIL_LIMITS, type EmailOptions, messageIdOf } from '../../services/senders/email.js';
import { OutboxRunner } from '../../services/senders/outbox-runner.js';
import type { OutboxMessage } from '../../services/senders/ports.js';
import { wallTimer } from '../../services/senders/wall-timer.js';
import { aLetter, BODY, LINK, NOW, refusalBy, TO, wayTo } from './a-letter.js';
import { ArrayOutbox } from './array-outbox.js';
import { type Behaviour, decodeWords, MailServer, readLetter } from './mail-server.js';
import { ManualTimer } from './manual-timer.js';

let server: MailServer;
afterEach(() => server?.stop());

const start = async (behaviour: Behaviour = {}): Promise<void> => {
  server = await MailServer.start(behaviour);
};

const way = (scheme?: string, otherwise?: Partial<EmailOptions>) => wayTo(server, scheme, otherwise);
const refusalOf = (scheme?: string, otherwise?: Partial<EmailOptions>, message?: OutboxMessage) =>
  refusalBy(server, scheme, otherwise, message);

describe('a letter that is taken', () => {
  test('has what a reader and a robot need', async () => {
    await start();
    await way().send(aLetter());
    const [letter] = server.letters;
    expect(letter).toMatchObject({ from: 'alarms@store.example', to: [TO] });
    const { headers, text } = readLetter(letter?.raw ?? '');
    expect(Object.fromEntries(headers)).toMatchObject({
      from: ['Store alarms <alarms@store.example>'],
      to: [TO],
      subject: ['Pit A: unpack today'],
      date: ['Sun, 24 May 2026 15:00:00 +0000'],
      'message-id': [messageIdOf('k1', { name: '', address: 'alarms@store.example' })],
      'auto-submitted': ['auto-generated'],
      'content-language': ['en'],
      'content-type': ['text/plain; charset=utf-8'],
    });
    expect(text).toBe(`${BODY.longText.replace('\n', '\r\n')}\r\n\r\n${LINK}\r\n`);
  });

  test('has the same name at every attempt, and another for another key', async () => {
    await start();
    const email = way();
    for (const key of ['k1', 'k1', 'k2']) await email.send(aLetter(BODY, { key }));
    const [first, again, other] = server.letters.map(
      ({ raw }) => readLetter(raw).headers.get('message-id')?.[0],
    );
    expect(first).toMatch(/^<[0-9a-f]{40}@store\.example>$/);
    expect(again).toBe(first);
    expect(other).not.toBe(first);
  });

  test.each([
    ['the line', { line: 'Pit A: damp sand.' }, 'Pit A: damp sand.', 'Pit A: damp sand.'],
    ['the short text', { text: 'Three beds.' }, 'Three beds.', 'Three beds.'],
    ['a subject and the line', { subject: 'Hot', line: 'Pit A' }, 'Hot', 'Pit A'],
    ['a link that is none', { line: 'Pit A', answerUrl: 'javascript:alert(1)' }, 'Pit A', 'Pit A'],
    [
      'a link',
      { line: 'Pit A', answerUrl: 'https://x.example/a' },
      'Pit A',
      'Pit A\r\n\r\nhttps://x.example/a',
    ],
    [
      'a link in a sentence',
      { line: 'Pit A', answerUrl: 'https://x.example/a', answerText: 'To answer: https://x.example/a' },
      'Pit A',
      'Pit A\r\n\r\nTo answer: https://x.example/a',
    ],
    [
      'a sentence without its link',
      { line: 'Pit A', answerText: 'To answer: javascript:x' },
      'Pit A',
      'Pit A',
    ],
    ['a language that is none', { line: 'Pit A', language: 'x\r\nBcc: a@b' }, 'Pit A', 'Pit A'],
  ])('can be made of %s', async (_what, body, subject, text) => {
    await start();
    await way().send(aLetter(body));
    const letter = readLetter(server.letters[0]?.raw ?? '');
    expect(letter.headers.get('subject')).toEqual([subject]);
    expect(letter.text).toBe(`${text}\r\n`);
    expect(letter.headers.has('bcc')).toBe(false);
  });

  test('keeps letters of other alphabets', async () => {
    await start();
    const subject = 'Яма А: открыть сегодня, пожалуйста, и посмотреть, нет ли гнили \u{1f954}';
    await way().send(aLetter({ ...BODY, subject, longText: subject }));
    const { headers, text } = readLetter(server.letters[0]?.raw ?? '');
    expect(decodeWords(headers.get('subject')?.[0] ?? '')).toBe(subject);
    expect(text).toContain(subject);
  });

  test('has no header that its texts bring along, and ends where it ends', async () => {
    await start();
    const nasty =
      'Pit A\r\nBcc: other@store.example\r\n\r\n.\r\nMAIL FROM:<x@y.example>\u0000\u001b[31m\u2028x';
    await way().send(aLetter({ subject: nasty, longText: nasty, line: nasty }));
    expect(server.letters).toHaveLength(1);
    const { headers, text } = readLetter(server.letters[0]?.raw ?? '');
    expect(headers.has('bcc')).toBe(false);
    expect(headers.get('subject')).toHaveLength(1);
    expect(server.letters[0]?.to).toEqual([TO]);
    expect(text).toContain('\r\n.\r\nMAIL FROM:<x@y.example>');
    for (const control of '\u0000\u001b') expect(text).not.toContain(control);
  });

  test('has a subject of at most 200 characters', async () => {
    await start();
    await way().send(aLetter({ line: 'x'.repeat(1000) }));
    expect(
      readLetter(server.letters[0]?.raw ?? '')
        .headers.get('subject')?.[0]
        ?.replaceAll(' ', '').length,
    ).toBe(200);
  });
});

describe('what the server does not take', () => {
  test.each([
    [
      'recipient for good',
      { onRecipient: [550, `5.1.1 no such user ${TO}`] },
      true,
      /: recipient refused: .*550 5\.1\.1 no such user \[address\]$/,
    ],
    [
      'recipient for now',
      { onRecipient: [450, '4.2.0 greylisted, come again'] },
      false,
      /: recipient put off: .*450 4\.2\.0 greylisted/,
    ],
    ['message for good', { onMessage: [554, '5.7.1 spam'] }, true, /: message not taken: .*554 5\.7\.1 spam/],
    ['message for now', { onMessage: [452, '4.3.1 full'] }, false, /: message not taken: .*452 4\.3\.1 full/],
    ['sender', { onSender: [553, '5.7.1 not yours'] }, false, /: sender not taken: .*553/],
  ] as const)('the %s', async (_what, behaviour, permanent, reason) => {
    await start(behaviour);
    const error = await refusalOf();
    expect(error).toMatchObject({ permanent, code: permanent ? 'BAD_REQUEST' : 'RECEIVER_UNAVAILABLE' });
    expect(error.message).toMatch(reason);
    expect(server.letters).toEqual([]);
  });

  test('a connection that is dropped in the message may pass', async () => {
    await start({ dropInMessage: true });
    const error = await refusalOf('smtp://', {}, aLetter({ longText: 'x'.repeat(50_000) }));
    expect(error).toMatchObject({ permanent: false, code: 'RECEIVER_UNAVAILABLE' });
  });

  test('a port where nobody listens may pass', async () => {
    await start();
    const email = way();
    await server.stop();
    const error: unknown = await email.send(aLetter()).catch((reason) => reason);
    await start();
    expect(error).toMatchObject({ permanent: false });
    expect((error as Error).message).toMatch(/: no connection: .*ECONNREFUSED/);
  });

  test('a server that never greets may pass', async () => {
    await start({ silent: 'greeting' });
    const error = await refusalOf('smtp://', { limits: { connect_ms: 100 } });
    expect(error).toMatchObject({ permanent: false });
    expect(error.message).toMatch(/: no answer in time: /);
  });

  test('a server that falls silent may pass', async () => {
    await start({ silent: 'message' });
    const error = await refusalOf('smtp://', { limits: { silence_ms: 100 } });
    expect(error).toMatchObject({ permanent: false });
    expect(error.message).toMatch(/no answer in time/);
  });

  test('all of it has a time, however much is said meanwhile', async () => {
    await start({ silent: 'message' });
    const error = await refusalOf('smtp://', { timer: wallTimer, limits: { send_ms: 200 } });
    expect(error.message).toMatch(/: expected the message to be taken within 200 ms, it was not$/);
    expect(error.permanent).toBe(false);
  });
});

test('the whole of it ends before the outbox gives up waiting', () => {
  expect(EMAIL_LIMITS.send_ms).toBeLessThan(60_000);
});

describe('what cannot be sent is refused before anything is', () => {
  test.each([
    ['no address', BODY, { to: 'keeper' }, /expected an address such as/],
    ['two addresses', BODY, { to: 'a@b.example,c@d.example' }, /expected an address/],
    ['a name with an address', BODY, { to: 'Keeper <a@b.example>' }, /expected an address/],
    ['a line end', BODY, { to: 'a@b.example\r\nRCPT TO:<c@d.example>' }, /expected an address/],
    ['a parameter', BODY, { to: 'a@b.example> NOTIFY=NEVER' }, /expected an address/],
    ['other letters', BODY, { to: 'säljare@b.example' }, /in ASCII, got other letters/],
    ['no text', { subject: 'x' }, {}, /expected the body of a message with a line or a text/],
    ['no JSON', BODY, { body: 'text' }, /expected the body of a message/],
    ['a long body', { line: 'é'.repeat(40_000) }, {}, /at most 65536 bytes, got 800\d\d/],
  ])('%s', async (_what, body, otherwise, reason) => {
    await start();
    const error = await refusalOf('smtp://', {}, aLetter(body, otherwise));
    expect(error).toMatchObject({ code: 'BAD_REQUEST', permanent: true });
    expect(error.message).toMatch(reason);
    expect(server.letters).toEqual([]);
  });
});

test.each([
  '',
  'alarms',
  'Store <alarms>',
  '<a@b.example',
  'a@b.example\r\nBcc: c@d.example',
  'S\r\nx <a@b.example>',
])('the sender %j is refused at the start', (from) => {
  const options = { url: 'smtp://127.0.0.1', from, timer: wallTimer };
  expect(() => createEmail(options)).toThrow(/^e-mail: expected a sender such as/);
});

test('with the outbox: put off at first, then taken, under the same name', async () => {
  await start({ onRecipient: [450, 'come again'] });
  const { port } = server;
  const timer = new ManualTimer(NOW);
  const outbox = new ArrayOutbox();
  const ways = [way('smtp://', { timer })];
  const runner = new OutboxRunner({ outbox, ways, timer, random: () => 0 });
  outbox.add(aLetter());
  runner.kick();
  expect((await outbox.tried('k1', 1)).error).toContain('450 come again');
  expect(outbox.states).toEqual({ k1: 'waiting' });
  await server.stop();
  server = await MailServer.start({ port });
  await timer.advance(1000);
  expect(await outbox.tried('k1', 2)).toMatchObject({ state: 'delivered' });
  expect(server.letters).toHaveLength(1);
  await runner.close();
});
