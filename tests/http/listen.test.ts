import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { connect, createServer } from 'node:net';
import { text } from 'node:stream/consumers';
import { describe, expect, onTestFinished, test } from 'vitest';
import { HTTP_LIMITS } from '../../services/http/limits.js';
import { listen, requirePermitted } from '../../services/http/listen.js';
import { problemSchema } from '../../services/http/schemas/problem.js';
import { selfSigned } from '../services/certificate.js';
import { appOver } from './answers.js';
import { PortsInMemory } from './ports.js';

const credentials = { user: 'keeper', password: 'sand and roots' };

/** What a server on the loopback answers to bytes. */
async function answerTo(url: string, bytes: string): Promise<string> {
  const socket = connect(Number(new URL(url).port), '127.0.0.1');
  socket.write(bytes);
  return text(socket);
}

/** Status and problem details of a raw answer. */
function readRaw(answer: string) {
  const [head = '', body = ''] = answer.split('\r\n\r\n');
  return { status: Number(head.split(' ')[1]), head, problem: problemSchema.parse(JSON.parse(body)) };
}

describe('where passwords would travel in the clear', () => {
  test.each(['0.0.0.0', '::', '10.0.0.7', 'shed.example', '128.0.0.1'])(
    'listening on %s is refused in one sentence',
    (host) => {
      expect(() => requirePermitted({ host, port: 8080 }, false)).toThrow(
        expect.objectContaining({
          code: 'LISTEN_REFUSED',
          message: expect.stringMatching(
            /^refused to listen on .*8080, .*--tls-cert and --tls-key.*--behind-proxy.*--plain-passwords/,
          ),
        }),
      );
    },
  );

  test('the application itself never gets as far as a socket', async () => {
    const app = await appOver();
    await expect(listen(app, { host: '0.0.0.0', port: 0 })).rejects.toMatchObject({ code: 'LISTEN_REFUSED' });
    expect(app.server.listening).toBe(false);
  });

  test.each(['127.0.0.1', '::1', 'localhost'])('%s is permitted', (host) => {
    expect(() => requirePermitted({ host, port: 8080 }, false)).not.toThrow();
  });
});

test.each([
  ['by TLS', 'https'],
  ['behind a proxy', 'http'],
])('%s it listens wider', async (how, scheme) => {
  const certificate = await selfSigned();
  onTestFinished(() => certificate.dispose());
  const tls = { cert: certificate.pem, key: readFileSync(certificate.key, 'utf8') };
  const options = how === 'by TLS' ? { tls } : { behindProxy: true };
  const url = await listen(await appOver(new PortsInMemory(), options), { host: '0.0.0.0', port: 0 });
  expect(url).toMatch(new RegExp(`^${scheme}://0\\.0\\.0\\.0:\\d+$`));
});

test('by choice it listens wider, and asks', async () => {
  const app = await appOver(new PortsInMemory(), { credentials, plainPasswords: true });
  const url = await listen(app, { host: '0.0.0.0', port: 0 });
  const { port } = new URL(url);
  expect((await fetch(`http://127.0.0.1:${port}/api/beds`)).status).toBe(401);
  const headers = { authorization: `Basic ${btoa('keeper:sand and roots')}` };
  expect((await fetch(`http://127.0.0.1:${port}/api/beds`, { headers })).status).toBe(200);
});

test('a port that is taken is said in one sentence', async () => {
  const holder = createServer().listen(0, '127.0.0.1');
  onTestFinished(() => void holder.close());
  await once(holder, 'listening');
  const { port } = holder.address() as { port: number };
  await expect(listen(await appOver(), { host: '127.0.0.1', port })).rejects.toMatchObject({
    code: 'LISTEN_REFUSED',
    message: expect.stringMatching(new RegExp(`^cannot listen on 127\\.0\\.0\\.1:${port}: .*EADDRINUSE`)),
  });
});

describe('over a real socket', () => {
  test('beds are read and an alarm is acknowledged', async () => {
    const url = await listen(await appOver(), { host: '127.0.0.1', port: 0 });
    const beds = await (await fetch(`${url}/api/beds`)).json();
    expect(beds).toHaveLength(2);
    const acknowledged = await fetch(`${url}/api/alarms/alarm-1/acknowledge`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ by: 'keeper', note: '' }),
    });
    expect(await acknowledged.json()).toMatchObject({ id: 'alarm-1', state: 'acknowledged' });
  });

  test.each([
    ['bytes that are no HTTP', 'sand\r\n\r\n', 400],
    [
      'two lengths',
      'POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\nx',
      400,
    ],
    ['headers over the limit', `GET / HTTP/1.1\r\nX: ${'x'.repeat(HTTP_LIMITS.headers_bytes)}\r\n\r\n`, 431],
  ])('%s: answered, and the connection closed', async (_what, bytes, status) => {
    const url = await listen(await appOver(), { host: '127.0.0.1', port: 0 });
    const answer = readRaw(await answerTo(url, bytes));
    expect(answer).toMatchObject({ status, problem: { status } });
    expect(answer.head).toMatch(/^connection: close$/im);
  });

  // [V: RFC 9112 3.2]
  test('a request without Host is 400', async () => {
    const url = await listen(await appOver(), { host: '127.0.0.1', port: 0 });
    expect(await answerTo(url, 'GET /api/beds HTTP/1.1\r\n\r\n')).toMatch(/^HTTP\/1\.1 400 /);
  });

  test('an old request without Host is not taken for one to this machine', async () => {
    const url = await listen(await appOver(), { host: '127.0.0.1', port: 0 });
    expect(readRaw(await answerTo(url, 'GET /api/beds HTTP/1.0\r\n\r\n')).status).toBe(421);
    expect(readRaw(await answerTo(url, 'GET /api/beds HTTP/1.0\r\nHost:\r\n\r\n')).status).toBe(421);
  });

  test('nobody can hold a socket for ever', async () => {
    const { server } = await appOver();
    expect(server).toMatchObject({
      requestTimeout: HTTP_LIMITS.requestTimeout_ms,
      headersTimeout: HTTP_LIMITS.headersTimeout_ms,
      timeout: HTTP_LIMITS.connectionTimeout_ms,
      keepAliveTimeout: HTTP_LIMITS.keepAliveTimeout_ms,
      maxRequestsPerSocket: HTTP_LIMITS.requestsPerConnection,
      maxConnections: HTTP_LIMITS.connections,
    });
  });
});
