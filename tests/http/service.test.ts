import { describe, expect, test } from 'vitest';
import { createMetrics } from '../../services/http/metrics.js';
import { appOver, placesOf, problemOfAnswer } from './answers.js';
import { HEALTH, PortsInMemory } from './ports.js';

describe('health', () => {
  test('is 200 while readings are being accepted, degraded or not', async () => {
    const problems = ['the outbox has waited for 3 h'];
    const app = await appOver(new PortsInMemory({ health: { ...HEALTH, status: 'degraded', problems } }));
    const answer = await app.inject('/api/health');
    expect(answer.statusCode).toBe(200);
    expect(answer.json()).toEqual({
      status: 'degraded',
      problems,
      access: 'open',
      accepting: true,
      version: '0.1.0',
      startedAt: '2026-05-04T08:00:00Z',
      broker: { kind: 'built-in', connected: true, refused: { connect: 0, publish: 0, subscribe: 0 } },
      newestReadingAt: '2026-06-01T11:30:00Z',
      watchLag: {
        beds: 1,
        hours: 3,
        byBed: [
          { bed: 'pit-a', hours: 3 },
          { bed: 'box-b', hours: 0 },
        ],
      },
      outboxWaiting: 0,
      longArchive: null,
      olderReadings: null,
    });
  });

  test('is 503 with the same body while they are not', async () => {
    const health = { ...HEALTH, status: 'degraded', accepting: false, newestReadingAt: null } as const;
    const answer = await (await appOver(new PortsInMemory({ health }))).inject('/api/health');
    expect(answer.statusCode).toBe(503);
    expect(answer.json()).toMatchObject({ status: 'degraded', accepting: false, newestReadingAt: null });
  });
});

test('probes that no site describes are listed', async () => {
  const app = await appOver();
  expect((await app.inject('/api/probes/unknown')).json()).toEqual([
    {
      site: 'ridge-station',
      probe: 'p77',
      readings: 12,
      firstAt: '2026-06-01T09:30:00Z',
      lastAt: '2026-06-01T10:30:00Z',
    },
  ]);
});

describe('quarantine', () => {
  test.each([
    ['', 50],
    ['?limit=7', 7],
    ['?limit=200', 60],
  ])('/api/quarantine%s gives no more than it is asked for', async (query, count) => {
    const entries = (await (await appOver()).inject(`/api/quarantine${query}`)).json();
    expect(entries).toHaveLength(count);
    expect(entries[0]).toMatchObject({
      reason: 'not-json',
      payload: 'ew==',
      firstAt: '2026-06-01T10:30:00Z',
    });
  });

  test.each(['limit=0', 'limit=201', 'limit=', 'limit=all'])('refuses ?%s', async (query) => {
    const app = await appOver();
    expect(placesOf(problemOfAnswer(await app.inject(`/api/quarantine?${query}`), 400))).toEqual(['limit']);
  });
});

describe('metrics', () => {
  test('are given as they come, with their own media type', async () => {
    const metrics = createMetrics('0.1.0');
    const app = await appOver(Object.assign(new PortsInMemory(), { metrics: () => metrics.text() }));
    const answer = await app.inject('/metrics');
    expect(answer.headers['content-type']).toBe('application/openmetrics-text; version=1.0.0; charset=utf-8');
    expect(answer.body).toMatch(/# EOF\n$/);
  });

  test('that cannot be gathered are 500', async () => {
    const failing = { metrics: () => Promise.reject(new Error('inside')) };
    const app = await appOver(Object.assign(new PortsInMemory(), failing));
    expect(problemOfAnswer(await app.inject('/metrics'), 500).detail).toBe('internal error');
  });
});

test('the root lists, in plain text, every address that the document describes', async () => {
  const app = await appOver();
  const answer = await app.inject('/');
  expect(answer.headers['content-type']).toBe('text/plain; charset=utf-8');
  const { paths } = (await app.inject('/api/openapi.json')).json();
  for (const [path, operations] of Object.entries<object>(paths))
    for (const method of Object.keys(operations))
      expect(answer.body).toMatch(
        new RegExp(`^${method.toUpperCase()} +${path.replace(/[{}]/g, '\\$&')} `, 'm'),
      );
});
