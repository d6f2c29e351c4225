import { once } from 'node:events';
import { type AddressInfo, createServer } from 'node:net';
import { describe, expect, onTestFinished, test, vi } from 'vitest';
import { parseInfluxUrl } from '../../../services/archive/influx/address.js';
import { InfluxConnection } from '../../../services/archive/influx/connection.js';
import { failureOf } from '../../../services/archive/influx/failure.js';
import { aServer, says, yes } from './a-server.js';

const LINE = 'reading,probe=p01,site=ridge-station temperature_C=21.5 1780272000000';

test('a write goes to the database with times in ms, and with user and password where there are any', async () => {
  const server = await aServer();
  await server.connect().write(LINE);
  await server.connect(5_000, { user: 'u', password: 'p:q' }).write(LINE);
  expect(server.asked).toEqual([
    { authorization: undefined, url: '/write?db=sand&precision=ms', lines: LINE },
    {
      authorization: `Basic ${Buffer.from('u:p:q').toString('base64')}`,
      url: '/write?db=sand&precision=ms',
      lines: LINE,
    },
  ]);
});

test('what answers by another protocol is no InfluxDB, and stays none until somebody sees to it', async () => {
  const server = createServer((socket) => socket.end('SSH-2.0-rubbish\r\n')).listen(0, '127.0.0.1');
  await once(server, 'listening');
  onTestFinished(() => void server.close());
  const { port } = server.address() as AddressInfo;
  const connection = new InfluxConnection(parseInfluxUrl(`http://127.0.0.1:${port}/sand`));
  onTestFinished(() => connection.close());
  const error = await connection.write(LINE).catch((thrown: unknown) => thrown);
  expect(failureOf(error)).toMatchObject({
    ...{ kind: 'trouble', standing: true },
    reason: expect.stringMatching(/^what answers there is no InfluxDB: Parse Error/),
  });
});

describe('what an answer means', () => {
  test('what is no answer is told in one line, and of TLS in words', () => {
    const failed = (code: string) =>
      failureOf(Object.assign(new Error(`write ${code} 80CC:error:0A00010B:SSL routines:\n`), { code }));
    expect(failed('EPROTO').reason).toBe(
      'expected a server that speaks TLS at an address with https, got one that does not',
    );
    expect(failed('ECONNRESET').reason).toBe('write ECONNRESET 80CC:error:0A00010B:SSL routines:');
  });

  test.each([
    [400, { error: 'partial write: field type conflict: x dropped=1' }, 'refused', true],
    [400, { error: "unable to parse 'x': bad timestamp" }, 'refused', true],
    [
      422,
      { code: 'unprocessable entity', message: 'partial write: points beyond retention' },
      'refused',
      true,
    ],
    [400, { error: 'database is required' }, 'trouble', true],
    [400, '<html>Bad Request</html>', 'trouble', true],
    [401, { error: 'authorization failed' }, 'trouble', true],
    [403, { error: 'user not authorized' }, 'trouble', true],
    [404, { error: 'database not found: "sand"' }, 'trouble', true],
    [413, { error: 'request entity too large' }, 'too-large', true],
    [429, { error: 'slow down' }, 'trouble', true],
    [302, '', 'trouble', true],
    [500, { error: 'partial write: timeout' }, 'trouble', false],
    [503, { error: 'unavailable' }, 'trouble', false],
    [200, '<html>Pay for the network</html>', 'trouble', false],
  ])('%d %j is %s', async (status, body, kind, standing) => {
    const server = await aServer(says(status, body));
    const error = await server
      .connect()
      .write(LINE)
      .catch((thrown: unknown) => thrown);
    expect(failureOf(error)).toMatchObject({ kind, standing });
  });

  test('a missing database names the command that makes it', async () => {
    const server = await aServer(says(404, { error: 'database not found: "sand"' }));
    await expect(
      server
        .connect()
        .write(LINE)
        .catch((error) => failureOf(error).reason),
    ).resolves.toMatch(/archive setup/);
  });
});

describe('every request has an end', () => {
  const hanging = [
    ['no answer', () => undefined],
    [
      'an answer that stops half-way',
      (
        _: string,
        response: { writeHead: (status: number, headers: object) => { write: (text: string) => void } },
      ) => response.writeHead(200, { 'content-length': 100 }).write('{"results":['),
    ],
  ] as const;
  test.each(hanging)('%s', async (_, answer) => {
    const server = await aServer(answer as never);
    const connection = server.connect(50);
    await expect(connection.query('SHOW DATABASES')).rejects.toThrow('expected an answer within 0.05 s');
    server.answers(says(200, { results: [{}] }));
    await vi.waitFor(async () => expect(await connection.query('SHOW DATABASES')).toEqual([]));
  });

  test('closing ends what is under way, and what comes after', async () => {
    const server = await aServer(() => undefined);
    const connection = server.connect();
    const writing = connection.write(LINE);
    connection.close();
    await expect(writing).rejects.toThrow('stopped');
    server.answers(yes);
    await expect(connection.write(LINE)).rejects.toThrow();
    expect(server.kept).toEqual([]);
  });
});

test('a question that is refused says why; an answer of something else is no answer', async () => {
  const server = await aServer(says(200, { results: [{ error: 'no such policy' }] }));
  const connection = server.connect();
  await expect(connection.query('x')).rejects.toThrow('no such policy');
  server.answers(says(200, {}));
  await expect(connection.query('x')).rejects.toThrow('expected the answer of an InfluxDB');
  server.answers(says(200, '<html>'));
  await expect(connection.query('x')).rejects.toThrow();
});
