import { once } from 'node:events';
import { describe, expect, test } from 'vitest';
import type { HttpOptions } from '../../services/http/app.js';
import { HTTP_LIMITS } from '../../services/http/limits.js';
import { listen } from '../../services/http/listen.js';
import type { LiveEvent } from '../../services/http/ports.js';
import { appOver, problemOfAnswer } from './answers.js';
import { read } from './live.js';
import { PortsInMemory } from './ports.js';

const ALARM: LiveEvent = { event: 'alarms', data: { beds: ['pit-a'], ids: ['alarm-1'], more: false } };
const READINGS: LiveEvent = { event: 'readings', data: { beds: ['pit-a', 'box-b'] } };

async function streaming(options: HttpOptions = {}) {
  const ports = new PortsInMemory();
  const app = await appOver(ports, options);
  const url = await listen(app, { host: '127.0.0.1', port: 0 });
  return { app, url, live: ports.live, asks: (path: string) => fetch(`${url}${path}`) };
}

/** Events as they stand in the text of a stream, comments left out. */
const eventsIn = (text: string) =>
  [...text.matchAll(/id: (\S+)\nevent: (\S+)\ndata: (.*)\n\n/g)].map(([, id, event, data = '']) => ({
    id,
    event,
    data: JSON.parse(data),
  }));

describe('a stream', () => {
  test('says what changes as it changes, with ids and the time after which to ask again', async () => {
    const { url, live } = await streaming();
    const reader = read(url);
    await reader.came(/retry: 3000\n\n/);
    expect(reader.text()).toMatch(/^HTTP\/1\.1 200 OK\r\n/);
    for (const header of [
      'content-type: text/event-stream; charset=utf-8',
      'cache-control: no-store',
      'x-content-type-options: nosniff',
      'connection: close',
    ])
      expect(reader.text().toLowerCase()).toContain(`\r\n${header}\r\n`);
    live.tell(ALARM, READINGS);
    await reader.came(/event: readings\n/);
    live.tell({ event: 'health', data: { status: 'degraded' } });
    await reader.came(/event: health\n.*\n\n/);
    const events = eventsIn(reader.text());
    expect(events).toMatchObject([ALARM, READINGS, { event: 'health' }]);
    expect(new Set(events.map(({ id }) => id)).size).toBe(3);
  });

  test('gives a sign of life while nothing changes', async () => {
    const { url } = await streaming({ streams: { heartbeat_ms: 5 } });
    await read(url).came(/(:\n\n.*){3}/s);
  });

  test('outlives the time that an answer may take and the silence after which a socket is closed', () => {
    expect(HTTP_LIMITS.streams.heartbeat_ms * 2).toBeLessThanOrEqual(HTTP_LIMITS.connectionTimeout_ms);
    expect(HTTP_LIMITS.streams.life_ms).toBeGreaterThan(HTTP_LIMITS.handlerTimeout_ms);
    expect(HTTP_LIMITS.streams.open).toBeLessThan(HTTP_LIMITS.connections / 2);
  });

  test('ends after its longest life, and is counted so', async () => {
    const { url, live } = await streaming({ streams: { heartbeat_ms: 5, life_ms: 20 } });
    const reader = read(url);
    await reader.closed;
    expect(reader.text()).toMatch(/^HTTP\/1\.1 200 /);
    expect(live.counted).toMatchObject({ opened: 1, ended: ['old'] });
  });

  test('that is left makes room', async () => {
    const { url, live } = await streaming({ streams: { open: 1 } });
    const reader = read(url);
    await reader.came(/retry/);
    reader.socket.destroy();
    await expect.poll(() => live.counted.ended).toEqual(['left']);
    await read(url).came(/retry/);
  });
});

describe('a reader who comes back', () => {
  const idOf = async (url: string, live: PortsInMemory['live']): Promise<string> => {
    const reader = read(url);
    await reader.came(/retry/);
    live.tell(READINGS);
    const [, id = ''] = await reader.came(/id: (\S+)\nevent: readings\n/);
    reader.socket.destroy();
    return id;
  };

  test('hears what it missed, once', async () => {
    const { url, live } = await streaming();
    const id = await idOf(url, live);
    live.tell(ALARM);
    live.tell(READINGS);
    const reader = read(url, [`Last-Event-ID: ${id}`]);
    await reader.came(/event: readings\ndata.*\n\n/);
    expect(eventsIn(reader.text())).toMatchObject([ALARM, READINGS]);
  });

  test('hears nothing where it missed nothing', async () => {
    const { url, live } = await streaming();
    const reader = read(url, [`Last-Event-ID: ${await idOf(url, live)}`]);
    await reader.came(/retry: .*\n\n/);
    live.tell(ALARM);
    await reader.came(/event: alarms\ndata.*\n\n/);
    expect(eventsIn(reader.text())).toMatchObject([ALARM]);
  });

  test('after more than is kept is told to ask for everything', async () => {
    const { url, live } = await streaming({ streams: { kept: 2 } });
    const id = await idOf(url, live);
    for (let count = 0; count < 4; count += 1) live.tell(ALARM);
    const reader = read(url, [`Last-Event-ID: ${id}`]);
    await reader.came(/event: missed\ndata: \{\}\n\n/);
    expect(eventsIn(reader.text())).toHaveLength(1);
  });

  test.each(['0', '-', 'x-1', 'an id of another run-3', '%00', `${'9'.repeat(400)}`, 'a-1e3', 'b--1'])(
    'with the id %j, which is none of ours, too',
    async (id) => {
      const { url, live } = await streaming();
      live.tell(ALARM);
      await read(url, [`Last-Event-ID: ${id}`]).came(/event: missed\n/);
    },
  );

  test('with an id that is still to come, too', async () => {
    const { url, live } = await streaming();
    const id = await idOf(url, live);
    await read(url, [`Last-Event-ID: ${id}0`]).came(/event: missed\n/);
  });
});

describe('misused', () => {
  test('more streams than there is room for are refused, and others go on', async () => {
    const { url, live, asks } = await streaming({ streams: { open: 2 } });
    const readers = [read(url), read(url)];
    for (const reader of readers) await reader.came(/retry/);
    const answer = await asks('/api/stream');
    expect(answer.headers.get('retry-after')).toBe('3');
    const { status, headers } = answer;
    const asked = {
      ...{ statusCode: status, body: await answer.text() },
      headers: Object.fromEntries(headers),
    };
    expect(problemOfAnswer(asked, 503)).toMatchObject({
      code: 'LIMIT_EXCEEDED',
      detail: 'streams: expected at most 2 open at a time, got one more',
    });
    expect((await asks('/api/beds')).status).toBe(200);
    live.tell(ALARM);
    for (const reader of readers) await reader.came(/event: alarms/);
    expect(live.counted).toEqual({ opened: 2, refused: 1, ended: [] });
  });

  test('a reader that does not read is sent away, and does not slow the others', async () => {
    const { url, live } = await streaming({ streams: { backlog_bytes: 200_000 } });
    const lazy = read(url);
    await lazy.came(/retry/);
    lazy.socket.pause();
    const other = read(url);
    await other.came(/retry/);
    const wide: LiveEvent = { event: 'beds', data: { beds: ['x'.repeat(100_000)] } };
    // Until what the machine itself holds for the socket is full, too.
    for (let count = 1; live.counted.ended.length === 0 && count < 1_000; count += 1) {
      live.tell(wide);
      while (other.socket.bytesRead < count * 100_000) await once(other.socket, 'came');
    }
    expect(live.counted.ended).toEqual(['slow']);
    live.tell(ALARM);
    await other.came(/event: alarms/);
    lazy.socket.resume();
    await lazy.closed;
    expect(lazy.text()).not.toContain('event: alarms');
  });

  test('a stop ends open streams, those that are not read too, and frees every listener', async () => {
    const { app, url, live } = await streaming({ streams: { grace_ms: 20 } });
    const reader = read(url);
    await reader.came(/retry/);
    const lazy = read(url);
    await lazy.came(/retry/);
    lazy.socket.pause();
    live.tell({ event: 'beds', data: { beds: ['x'.repeat(200_000)] } });
    await app.close();
    await reader.closed;
    expect(live.counted.ended).toEqual(['stopped', 'stopped']);
    expect(live.listeners).toBe(0);
  });

  test.each(['POST', 'PUT', 'DELETE', 'HEAD'] as const)(
    '%s is refused with what is allowed',
    async (method) => {
      const app = await appOver();
      const answer = await app.inject({ method, url: '/api/stream' });
      expect(answer.statusCode).toBe(405);
      expect(answer.headers['allow']).toBe('GET');
    },
  );

  test('nobody listens without the right password, or under the name of another machine', async () => {
    const credentials = { user: 'keeper', password: 'sand and roots' };
    const closed = await streaming({ credentials });
    expect((await closed.asks('/api/stream')).status).toBe(401);
    const authorization = `Authorization: Basic ${btoa('keeper:sand and roots')}`;
    await read(closed.url, [authorization]).came(/retry/);
    const app = await appOver();
    problemOfAnswer(await app.inject({ url: '/api/stream', headers: { host: 'evil.example' } }), 421);
    expect(closed.live.counted.opened).toBe(1);
  });
});
