import { describe, expect, test } from 'vitest';
import { appOver, placesOf, problemOfAnswer } from './answers.js';
import { alarm, PortsInMemory } from './ports.js';

const idsOf = (answer: { json: () => { id: string }[] }) => answer.json().map(({ id }) => id);
const acknowledge = (id: string, payload: object) =>
  ({ method: 'POST', url: `/api/alarms/${id}/acknowledge`, payload }) as const;

test('an alarm as CAP', async () => {
  const app = await appOver(new PortsInMemory({ alarms: [alarm(1)] }));
  const answer = await app.inject('/api/alarms/alarm-1/cap');
  expect(answer.headers['content-type']).toBe('application/cap+xml; charset=utf-8');
  expect(answer.body).toBe('<alert><identifier>alarm-1</identifier></alert>');
  expect((await app.inject('/api/alarms/none/cap')).statusCode).toBe(404);
});

describe('GET /api/alarms', () => {
  test('gives an alarm as the contract writes it', async () => {
    const app = await appOver(new PortsInMemory({ alarms: [alarm(1)] }));
    expect((await app.inject('/api/alarms')).json()).toEqual([
      {
        id: 'alarm-1',
        site: 'ridge-station',
        bed: 'pit-a',
        kind: 'heating',
        priority: 'high',
        state: 'unacknowledged',
        raisedAt: '2026-06-01T11:30:00Z',
        clearedAt: null,
        action: 'unpack',
        evidence: { probe: 'p01', excess_C: 1.8, rate_C_per_day: 0.6 },
        place: { x: 80, y: 35, depth: 40, radius: 15 },
        text: 'Pit A is heating: unpack today.',
        language: 'en',
        draft: false,
        acknowledgement: null,
        shelving: null,
        foundOut: null,
      },
    ]);
  });

  test('says what an inspection found out', async () => {
    const looked = alarm(1, { foundOut: { verdict: 'right', lookedAt: Date.UTC(2026, 5, 2) } });
    const app = await appOver(new PortsInMemory({ alarms: [looked] }));
    expect((await app.inject('/api/alarms')).json()[0].foundOut).toEqual({
      verdict: 'right',
      lookedAt: '2026-06-02T00:00:00Z',
    });
  });

  test('an alarm without a place, cleared and acknowledged', async () => {
    const acknowledgement = { by: 'keeper', note: '', at: Date.UTC(2026, 5, 2) };
    const cleared = alarm(1, {
      place: null,
      clearedAt: Date.UTC(2026, 5, 3),
      state: 'normal',
      acknowledgement,
    });
    const app = await appOver(new PortsInMemory({ alarms: [cleared] }));
    expect((await app.inject('/api/alarms')).json()[0]).toMatchObject({
      place: null,
      clearedAt: '2026-06-03T00:00:00Z',
      acknowledgement: { by: 'keeper', note: '', at: '2026-06-02T00:00:00Z' },
    });
  });

  test.each([
    ['', ['alarm-3', 'alarm-2', 'alarm-1']],
    ['bed=pit-a', ['alarm-3', 'alarm-2', 'alarm-1']],
    ['bed=box-b', []],
    ['state=unacknowledged', ['alarm-3', 'alarm-2', 'alarm-1']],
    ['state=normal', []],
    ['from=2026-06-01T12:30:00Z', ['alarm-3', 'alarm-2']],
    ['to=2026-06-01T12:30:00Z', ['alarm-1']],
    ['from=2026-06-01T12:00:00Z&to=2026-06-01T13:00:00Z', ['alarm-2']],
  ])('?%s', async (query, ids) => {
    const app = await appOver();
    expect(idsOf(await app.inject(`/api/alarms?${query}`))).toEqual(ids);
  });

  // The link is a relative reference to be resolved against the address asked for [V: RFC 8288 3.1].
  test('the Link headers lead through every alarm once, with the question kept', async () => {
    const alarms = Array.from({ length: 7 }, (_, index) => alarm(7 - index));
    const app = await appOver(new PortsInMemory({ alarms }));
    const seen: string[] = [];
    let next: string | undefined = '/api/alarms?bed=pit-a&limit=3';
    for (let pages = 0; next !== undefined; pages += 1) {
      expect(pages).toBeLessThan(3);
      const answer: Awaited<ReturnType<typeof app.inject>> = await app.inject(next);
      seen.push(...idsOf(answer));
      next = /^<([^>]+)>; rel="next"$/.exec(String(answer.headers.link ?? ''))?.[1];
      if (next) expect(next).toMatch(/^\/api\/alarms\?bed=pit-a&limit=3&after=alarm-\d$/);
    }
    expect(seen).toEqual(alarms.map(({ id }) => id));
  });

  test('a page holds 100 where nothing is said', async () => {
    const alarms = Array.from({ length: 101 }, (_, index) => alarm(101 - index));
    const answer = await (await appOver(new PortsInMemory({ alarms }))).inject('/api/alarms');
    expect(answer.json()).toHaveLength(100);
    expect(answer.headers.link).toBe('</api/alarms?after=alarm-2>; rel="next"');
  });
});

describe('GET /api/alarms refuses', () => {
  test.each([
    ['limit=0', ['limit']],
    ['limit=1001', ['limit']],
    ['limit=ten', ['limit']],
    ['state=open', ['state']],
    ['state=', ['state']],
    ['bed=PIT', ['bed']],
    ['kind=heating', ['kind']],
    ['after=', ['after']],
    ['from=2026-06-02T00:00:00Z&to=2026-06-01T00:00:00Z', ['to']],
    ['from=2026-06-02T00:00:00Z&to=2026-06-02T00:00:00Z', ['to']],
    ['state=normal&state=shelved', ['state']],
  ])('?%s', async (query, places) => {
    const app = await appOver();
    expect(placesOf(problemOfAnswer(await app.inject(`/api/alarms?${query}`), 400))).toEqual(places);
  });

  test('a bed that is not known: it must not look like a bed without alarms', async () => {
    const app = await appOver();
    problemOfAnswer(await app.inject('/api/alarms?bed=pit-z'), 404);
  });
});

describe('POST /api/alarms/{id}/acknowledge', () => {
  test('says that it was seen, by whom and when', async () => {
    const app = await appOver();
    const answer = await app.inject(acknowledge('alarm-1', { by: ' keeper ', note: 'will dig' }));
    expect(answer.statusCode).toBe(200);
    expect(answer.json()).toMatchObject({
      id: 'alarm-1',
      state: 'acknowledged',
      acknowledgement: { by: 'keeper', note: 'will dig', at: '2026-06-02T10:30:00Z' },
    });
  });

  test('a second time keeps the first', async () => {
    const app = await appOver();
    await app.inject(acknowledge('alarm-1', { by: 'keeper' }));
    const answer = await app.inject(acknowledge('alarm-1', { by: 'other' }));
    expect(answer.json().acknowledgement).toMatchObject({ by: 'keeper', note: '' });
  });

  test('an alarm that is not known is 404', async () => {
    const app = await appOver();
    problemOfAnswer(await app.inject(acknowledge('alarm-9', { by: 'keeper' })), 404);
    problemOfAnswer(await app.inject(acknowledge('__proto__', { by: 'keeper' })), 404);
  });

  test.each([
    [{ by: 'k'.repeat(101) }, ['#/by']],
    [{ by: 'keeper', note: 'n'.repeat(1001) }, ['#/note']],
    [{ by: null }, ['#/by']],
    [{ by: 'keeper', at: '2026-06-01T00:00:00Z' }, ['#/at']],
  ])('a body of %j is refused', async (body, places) => {
    const app = await appOver();
    expect(placesOf(problemOfAnswer(await app.inject(acknowledge('alarm-1', body)), 400))).toEqual(places);
  });
});
