/** What happened to a bed, over a real station. */
import { describe, expect, test } from 'vitest';
import { formatTime, HOUR_ms } from '../../services/core/model/time.js';
import { day, entry, FILLED_AT, filling, ledgerApp, ledgerSite, look, uuid } from '../support/ledger.js';
import { pointingWatch } from '../support/pointing-watch.js';
import { type Message, SHORT_SEASON, siteOf } from '../support/season.js';
import { NOW, openStation } from '../support/station.js';
import { placesOf, problemOfAnswer } from './answers.js';
import { appOnStation } from './app-on-station.js';

const URL = '/api/beds/pit-t/events';

interface Event {
  readonly id: string;
  readonly at: string;
  readonly kind: string;
  readonly text: string;
  readonly about: Record<string, string>;
}

const PLACED = [
  { bed: 'pit-t', x: 75, y: 50, depth: 30, from: day(0), to: day(20) },
  { bed: 'pit-t', x: 60, y: 50, depth: 20, from: day(20), to: day(30) },
];

/** Filled, looked into, eaten from; p01 was moved, and taken out. */
async function keptBed() {
  const app = await ledgerApp({ site: ledgerSite({ filled: day(0) }, PLACED) });
  app.goTo(40);
  const took = async (where: string, body: unknown) =>
    expect((await app.post(`/api/beds/pit-t/${where}`, body)).statusCode).toBe(201);
  await took('fillings', filling(1, { mass_kg: 105 }));
  await took(
    'inspections',
    look(2, { at: day(14), repacked: true, found: ['rot'], looked: 50, rotten: 2, weevil: 0 }),
  );
  await took('stock', entry(3, { at: day(15), roots: 1, reason: 'sold', mass_kg: 0.3 }));
  return app;
}

const page = async (app: Pick<Awaited<ReturnType<typeof ledgerApp>>, 'get'>, query = '') => {
  const answer = await app.get(`${URL}${query}`);
  expect(answer.statusCode).toBe(200);
  return { events: answer.json() as Event[], next: String(answer.headers['link'] ?? '') };
};

describe('what happened to a bed', () => {
  test('comes newest first, each in a sentence with what it is about', async () => {
    const { events, next } = await page(await keptBed());
    expect(next).toBe('');
    expect(events.map(({ at, kind, text, about }) => [at, kind, text, about])).toEqual([
      [day(30), 'probe-taken-out', 'p01 taken out of the bed.', { probe: 'p01' }],
      [
        ...[day(20), 'probe-moved'],
        'p01 moved: 20 cm deep, 60 cm along and 50 cm across from the north-west corner.',
        { probe: 'p01' },
      ],
      [
        ...[day(15), 'stock-out'],
        '1 root (0.3 kg) taken out and sold, written down by Wanja.',
        { stock: uuid(3) },
      ],
      [
        ...[day(14), 'inspection'],
        'Opened and packed anew by Wanja: rot found. Of 50 roots looked at, 2 rotten.',
        { inspection: uuid(2) },
      ],
      [
        ...[day(0), 'probe-placed'],
        'p01 put in: 30 cm deep, 75 cm along and 50 cm across from the north-west corner.',
        { probe: 'p01' },
      ],
      [...[day(0), 'filling'], 'Filled with 350 roots (105 kg) in 2 courses by Wanja.', { filling: uuid(1) }],
    ]);
  });

  test('comes in pages of any size, each once and none left out, also of one instant', async () => {
    const app = await keptBed();
    const many = Array.from({ length: 7 }, (_, n) => entry(10 + n, { at: day(20), roots: 2 }));
    expect((await app.post('/api/beds/pit-t/stock', many)).statusCode).toBe(201);
    const { events: all } = await page(app);
    expect(all).toHaveLength(13);
    for (const limit of [1, 2, 5, 12]) {
      const seen: string[] = [];
      let next = `?limit=${limit}`;
      while (next !== '') {
        const given = await page(app, next);
        expect(given.events.length).toBeLessThanOrEqual(limit);
        seen.push(...given.events.map(({ id }) => id));
        next = /<[^?]*(\?[^>]*)>; rel="next"/.exec(given.next)?.[1] ?? '';
      }
      expect(seen).toEqual(all.map(({ id }) => id));
    }
  });

  test('of a span holds its start and not its end', async () => {
    const { events } = await page(await keptBed(), `?from=${day(14)}&to=${day(20)}`);
    expect(events.map(({ kind }) => kind)).toEqual(['stock-out', 'inspection']);
  });

  test('is not that of another bed', async () => {
    const app = await keptBed();
    expect((await app.get('/api/beds/box-t/events')).json()).toEqual([]);
  });

  test('tells of a calibration of its probes', async () => {
    const app = await keptBed();
    const point = (indicated: number) => ({
      ...{ indicated, reference: indicated - 0.3, referenceUncertainty: 0.02 },
      source: 'instrument',
    });
    const body = {
      ...{ site: 'test-ridge', probe: 'p01', quantity: 'temperature', doneAt: day(31), by: 'Bench hand' },
      ...{ reference: { name: 'Station thermometer' }, points: [point(10), point(20), point(30)] },
    };
    const answer = await app.post('/api/calibrations', body);
    expect(answer.statusCode).toBe(201);
    const [calibrated] = (await page(app)).events;
    expect(calibrated).toMatchObject({ kind: 'calibration', at: day(31), about: { probe: 'p01' } });
    expect(calibrated?.text).toBe(
      'p01: temperature calibrated by Bench hand. It had shown up to 0.3 °C too much.',
    );
  });

  test('tells of a bed that was filled though it was not ready', async () => {
    const app = await ledgerApp();
    app.goTo(2);
    const judged = await app.post('/api/beds/pit-t/readiness', { at: day(1), by: 'Wanja', answers: {} });
    const { id } = judged.json();
    const override = { by: 'Wanja', at: day(1.5), reason: 'Rain is coming and the roots cannot wait' };
    expect((await app.post(`/api/beds/pit-t/readiness/${id}/override`, override)).statusCode).toBeLessThan(
      300,
    );
    const { events } = await page(app);
    expect(events).toMatchObject([{ kind: 'readiness-override', at: day(1.5), about: { readiness: id } }]);
    expect(events[0]?.text).toMatch(/^Wanja had the bed filled though it was not .*: Rain is coming and the/);
  });
});

const reading = (hour: number, probe: string, temperature: number): Message => ({
  topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
  payload: JSON.stringify([
    {
      n: 'temperature',
      u: 'Cel',
      v: temperature,
      bt: (SHORT_SEASON.startAt + (hour + 0.2) * HOUR_ms) / 1000,
    },
  ]),
});

/** Of the watch that points: warm from the first hour on. */
async function warmBed() {
  const station = openStation({ watch: pointingWatch });
  station.load(siteOf(SHORT_SEASON));
  const feed = (...messages: Message[]) => {
    station.commit(messages);
    station.settle();
  };
  const hour = (at: number, warm: number, x: number, radius = 60) =>
    feed(reading(at, 'p02', x), reading(at, 'p03', radius), reading(at, 'p01', warm));
  hour(0, 35, 80);
  hour(1, 35, 80);
  return { ...(await appOnStation(station, { now: () => NOW, startedAt: NOW })), hour, feed };
}

const ofAlarms = async (app: Awaited<ReturnType<typeof warmBed>>) =>
  (await page(app)).events.filter(({ kind }) => kind.startsWith('alarm-'));

describe('alarms among what happened', () => {
  test('are raised, seen and over', async () => {
    const app = await warmBed();
    const [raised] = await ofAlarms(app);
    const id = raised?.about['alarm'] ?? '';
    expect(raised).toMatchObject({ kind: 'alarm-raised', at: formatTime(SHORT_SEASON.startAt + HOUR_ms) });
    expect(raised?.text).toMatch(/^Pit T: .*unpack today/i);
    await app.post(`/api/alarms/${id}/acknowledge`, { by: 'Wanja', note: 'on my way' });
    app.hour(2, 20, 80);
    app.hour(3, 20, 80);
    const events = await ofAlarms(app);
    expect(events.map(({ kind }) => kind).sort()).toEqual([
      'alarm-acknowledged',
      'alarm-cleared',
      'alarm-raised',
    ]);
    const seen = events.find(({ kind }) => kind === 'alarm-acknowledged');
    expect(seen?.text).toMatch(/^Pit T: Wanja has seen this: .* \(on my way\)\.$/);
    expect(seen?.at).toBe(formatTime(NOW));
    expect(new Set(events.map(({ about }) => about['alarm']))).toEqual(new Set([id]));
  });

  test('that moved say where to dig instead', async () => {
    const app = await warmBed();
    app.hour(2, 36, 20, 15);
    app.hour(3, 36, 20, 15);
    const moved = (await ofAlarms(app)).find(({ kind }) => kind === 'alarm-moved');
    expect(moved?.text).toMatch(/^Pit T: dig here instead: /);
  });

  test('that were withdrawn are told as that and no longer as raised', async () => {
    const app = await warmBed();
    app.feed(reading(0.1, 'p01', 1), reading(0.2, 'p01', 2), reading(1.1, 'p01', 1), reading(1.2, 'p01', 2));
    const events = await ofAlarms(app);
    expect(events.map(({ kind }) => kind)).toEqual(['alarm-withdrawn']);
    expect(events[0]?.text).toMatch(/taken back/);
  });
});

describe('events are refused', () => {
  test.each([
    ['limit=0', ['limit']],
    ['limit=1001', ['limit']],
    ['limit=1.5', ['limit']],
    ['from=yesterday', ['from']],
    [`from=${day(2)}&to=${day(1)}`, ['to']],
    ['after=', ['after']],
    [`after=${'9'.repeat(201)}`, ['after']],
    ['kind=filling', ['kind']],
  ])('for %s, by name', async (query, places) => {
    const app = await ledgerApp();
    expect(placesOf(problemOfAnswer(await app.get(`${URL}?${query}`), 400))).toEqual(places);
  });

  test.each([
    'x',
    '1.filling.a',
    `${FILLED_AT}.party.${uuid(1)}`,
    `${FILLED_AT}.filling.`,
    `-${FILLED_AT}.filling.a`,
    `${FILLED_AT}.filling.a b`,
  ])('going on after %j', async (after) => {
    const app = await ledgerApp();
    const problem = problemOfAnswer(await app.get(`${URL}?after=${encodeURIComponent(after)}`), 400);
    expect(problem.detail).toMatch(/^after: expected the id of an event, got/);
  });

  test('for a bed that is not known', async () => {
    problemOfAnswer(await (await ledgerApp()).get('/api/beds/pit-z/events'), 404);
  });
});
