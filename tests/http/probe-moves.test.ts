/** Probes taken to a place, into the shade and out over the HTTP edge; unknown ones adopted; all of them listed. */
import { describe, expect, test } from 'vitest';
import { SHORT_SEASON, siteOf } from '../support/season.js';
import { SITE, SITE_NOW, siteApp } from './a-site.js';
import { placesOf, problemOfAnswer } from './answers.js';

const FILLED = '2026-05-04T08:00:00Z';
const LATER = '2026-05-20T08:00:00Z';
const PLACE = { bed: 'pit-t', x: 75, y: 50, depth: 20 };

const reading = (probe: string, at: string, v = 21) => ({
  topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
  payload: JSON.stringify([{ n: 'temperature', u: 'Cel', v, bt: Date.parse(at) / 1000 }]),
});

describe('a probe is moved', () => {
  test('to another place from a time on; where it stood before is kept', async () => {
    const { move } = await siteApp();
    const answer = await move('p01', { ...PLACE, from: LATER }, { 'if-match': '"1"' });
    expect([answer.statusCode, answer.headers['etag']]).toEqual([200, '"2"']);
    expect(answer.json().entry.placements).toEqual([
      { bed: 'pit-t', x: 75, y: 40, depth: 30, from: FILLED },
      { ...PLACE, from: LATER },
    ]);
    expect(answer.json().follows).toEqual([expect.stringMatching(/^Pit T: .* learned anew from then on/)]);
  });

  test('into the shade, and out; each is where it stands then', async () => {
    const { move, get } = await siteApp();
    await move('p02', { ambient: true, from: LATER });
    await move('p03', { out: true, from: LATER });
    const probes = (await get('/api/probes')).json();
    expect(probes.map(({ id, stands, since }: Record<string, unknown>) => [id, stands, since])).toEqual([
      ['p01', { bed: 'pit-t', x: 75, y: 40, depth: 30 }, FILLED],
      ['p02', { ambient: true }, LATER],
      ['p03', null, LATER],
      ['p09', { ambient: true }, FILLED],
    ]);
    const back = await move('p03', { ...PLACE, from: '2026-05-21T08:00:00Z' });
    expect(back.json().entry.placements).toEqual([
      { bed: 'pit-t', x: 120, y: 50, depth: 35, from: FILLED, to: LATER },
      { ...PLACE, from: '2026-05-21T08:00:00Z' },
    ]);
  });

  test('at the time of its last move corrects that place', async () => {
    const { move } = await siteApp();
    const { entry } = (await move('p01', { ...PLACE, from: FILLED })).json();
    expect(entry.placements).toEqual([{ ...PLACE, from: FILLED }]);
  });

  test.each([
    [{ ...PLACE, from: '2026-05-01T08:00:00Z' }, 409, /at or after the last change of its place, 2026-05-04/],
    [{ ...PLACE, from: '2026-07-01T08:00:00Z' }, 409, /expected a time that has come/],
    [{ out: true, from: FILLED }, 409, /expected a probe that stood somewhere before/],
    [{ ...PLACE, bed: 'pit-z', from: LATER }, 422, /placements\[1\]\.bed: expected the id of one of beds/],
    [
      { ...PLACE, depth: 60, from: LATER },
      422,
      /expected a point inside bed "pit-t", got x 75, y 50, depth 60/,
    ],
    [{ ...PLACE, depth: -1, from: LATER }, 422, /expected a point inside bed/],
  ])('%j is refused, and it stays', async (body, status, words) => {
    const { move, read } = await siteApp();
    expect(problemOfAnswer(await move('p01', body), status).detail).toMatch(words);
    expect((await read('probes/p01')).tag).toBe('"1"');
  });

  test.each([
    [{ from: LATER }, ['#']],
    [{ from: LATER, bed: 'pit-t', ambient: true, x: 1, y: 1, depth: 1 }, ['#']],
    [{ from: LATER, bed: 'pit-t', x: 75, y: 50 }, ['#/depth']],
    [{ from: LATER, ambient: true, x: 75 }, ['#/x']],
    [{ from: LATER, ...PLACE, x: '75' }, ['#/x']],
    [{ from: '20 May', ...PLACE }, ['#/from']],
    [{ ...PLACE }, ['#/from']],
    [{ from: LATER, out: false }, ['#/out']],
    [{ from: LATER, ...PLACE, z: 3 }, ['#/z']],
  ])('%j is no move', async (body, places) => {
    const { move } = await siteApp();
    expect(placesOf(problemOfAnswer(await move('p01', body), 400))).toEqual(places);
  });

  test('by two at once is moved by the first', async () => {
    const { move } = await siteApp();
    await move('p01', { ...PLACE, from: LATER }, { 'if-match': '"1"' });
    const second = await move('p01', { ...PLACE, x: 60, from: LATER }, { 'if-match': '"1"' });
    expect(problemOfAnswer(second, 412).detail).toMatch(/probe "p01" was changed meanwhile by Wanja/);
    problemOfAnswer(await move('p01', { ...PLACE, from: LATER }, {}), 428);
    problemOfAnswer(await move('p77', { ...PLACE, from: LATER }, { 'if-match': '*' }), 412);
  });

  test('within a day of the filling that buried it is refused: the filling stands', async () => {
    const { post, move, read } = await siteApp();
    const at = '2026-05-19T08:00:00Z';
    const filling = {
      ...{ id: '0b9f1f9c-3b77-4f0e-9a52-5a3f7f3a0001', at, by: 'Wanja', courses: [{ roots: 100 }] },
      probes: [{ probe: 'p01', x: 70, y: 45, depth: 20 }],
    };
    expect((await post('/api/beds/pit-t/fillings', filling)).statusCode).toBe(201);
    const before = await read('probes/p01');
    const refused = problemOfAnswer(await move('p01', { ...PLACE, from: '2026-05-19T20:00:00Z' }), 409);
    expect(refused.detail).toMatch(/replace the filling by a corrected one/);
    expect(await read('probes/p01')).toEqual(before);
    expect((await move('p01', { ...PLACE, from: '2026-05-20T09:00:00Z' })).statusCode).toBe(200);
  });

  test('that lies on a bench is refused until the bench is over', async () => {
    const { post, move } = await siteApp({
      ...(siteOf(SHORT_SEASON) as object),
      probes: [{ id: 'k01', placements: [] }],
    });
    const bench = {
      ...{ site: 'test-ridge', probes: ['k01'], quantity: 'temperature', by: 'Wanja' },
      ...{ reference: { name: 'station thermometer' }, conditions: {} },
    };
    const { id } = (await post('/api/bench', bench)).json();
    expect(problemOfAnswer(await move('k01', { ...PLACE, from: LATER }), 409).detail).toMatch(
      /on a bench since/,
    );
    await post(`/api/bench/${id}/give-up`, { reason: 'rain' });
    expect((await move('k01', { ...PLACE, from: LATER })).statusCode).toBe(200);
  });
});

describe('a probe that nobody described', () => {
  test('is adopted by its first move, and what it sent is taken in', async () => {
    const { commit, move, get, settle } = await siteApp();
    commit([
      reading('p77', '2026-05-19T08:00:00Z'),
      reading('p77', LATER),
      reading('p77', '2026-05-21T08:00:00Z'),
    ]);
    expect((await get('/api/probes/unknown')).json()).toMatchObject([{ probe: 'p77', readings: 3 }]);
    const answer = await move('p77', { ...PLACE, from: LATER }, { 'if-none-match': '*' });
    expect(answer.statusCode).toBe(201);
    expect(answer.json().follows).toEqual([
      expect.stringMatching(/^Pit T: with other probes/),
      'p77: 3 readings that were kept apart since 2026-05-19T08:00:00Z are taken in.',
      'p77: those from before 2026-05-20T08:00:00Z are set aside, as nobody said where it stood then.',
    ]);
    settle();
    expect((await get('/api/probes/unknown')).json()).toEqual([]);
    expect((await get('/api/quarantine')).json()).toMatchObject([{ reason: 'before-placement', count: 1 }]);
    const [probe] = (await get('/api/probes?site=test-ridge&after=test-ridge/p09')).json();
    expect(probe).toMatchObject({ id: 'p77', lastHeardAt: '2026-05-21T08:00:00Z', stands: PLACE });
  });

  test('cannot be taken out, and is not adopted as one that is known', async () => {
    const { move } = await siteApp();
    problemOfAnswer(await move('p77', { out: true, from: LATER }, { 'if-none-match': '*' }), 409);
    problemOfAnswer(await move('p01', { ...PLACE, from: LATER }, { 'if-none-match': '*' }), 412);
    problemOfAnswer(await move('P77', { ...PLACE, from: LATER }, { 'if-none-match': '*' }), 400);
  });
});

describe('described probes', () => {
  test('are listed with connection, battery, bench and calibrations', async () => {
    const { archive, station, get, commit, database } = await siteApp();
    const key = station.directory.find('test-ridge', 'p01')?.key ?? 0;
    database.transaction(() => archive.status.set(key, false, SITE_NOW))();
    commit([reading('p01', LATER)]);
    const [first] = (await get('/api/probes?bed=pit-t&limit=1')).json();
    expect(first).toEqual({
      ...{ site: 'test-ridge', id: 'p01', model: null, version: 1, placements: 1 },
      ...{ stands: { bed: 'pit-t', x: 75, y: 40, depth: 30 }, since: FILLED },
      ...{ online: false, lastHeardAt: LATER, battery_V: null, charge_EL: null, onBenchSince: null },
      calibrations: [
        { quantity: 'temperature', calibration: null, dueAt: null, isDue: false },
        { quantity: 'humidity', calibration: null, dueAt: null, isDue: false },
      ],
    });
  });

  test('come a page at a time', async () => {
    const { get } = await siteApp();
    const ids: string[] = [];
    let url: string | undefined = '/api/probes?limit=3';
    while (url !== undefined) {
      const answer = await get(url);
      ids.push(...answer.json().map(({ id }: { id: string }) => id));
      url = /<(.*)>/.exec(String(answer.headers['link'] ?? ''))?.[1];
    }
    expect(ids).toEqual(['p01', 'p02', 'p03', 'p09']);
  });

  test.each(['site=nowhere', 'bed=pit-z'])('of %s there are none to ask for', async (query) => {
    const { get } = await siteApp();
    problemOfAnswer(await get(`/api/probes?${query}`), 404);
  });

  test.each(['limit=0', 'limit=2001', 'bed=Pit', 'colour=red'])('%s is no question', async (query) => {
    const { get } = await siteApp();
    problemOfAnswer(await get(`/api/probes?${query}`), 400);
  });

  test('of no placement at all lie on the shelf', async () => {
    const { add, get } = await siteApp();
    expect((await add('probe', 'probes/k01', { id: 'k01', model: 'digital' })).statusCode).toBe(201);
    const [shelf] = (await get('/api/probes')).json();
    expect(shelf).toMatchObject({ id: 'k01', model: 'digital', stands: null, since: null, placements: 0 });
    expect((await get(SITE)).json().probes[0]).toEqual({ id: 'k01', model: 'digital', placements: [] });
  });
});

describe('on the page of its bed', () => {
  const there = async (get: (url: string) => Promise<{ json(): unknown }>) => {
    const { probes, formerProbes } = (await get('/api/beds/pit-t')).json() as {
      probes: { id: string }[];
      formerProbes: object[];
    };
    return [probes.map(({ id }) => id), formerProbes];
  };

  test('a probe that was taken out or elsewhere no longer stands; until when it did is told', async () => {
    const { move, get } = await siteApp();
    expect(await there(get)).toEqual([['p01', 'p02', 'p03'], []]);
    await move('p02', { ambient: true, from: LATER });
    await move('p03', { out: true, from: LATER });
    await move('p01', { ...PLACE, from: LATER });
    expect(await there(get)).toEqual([
      ['p01'],
      [
        expect.objectContaining({ id: 'p02', until: LATER }),
        { id: 'p03', x: 120, y: 50, depth: 35, until: LATER },
      ],
    ]);
    await move('p03', { ...PLACE, from: '2026-05-21T08:00:00Z' });
    expect((await there(get))[0]).toEqual(['p01', 'p03']);
  });

  test('one that is to be taken out later still stands, as does one that is described ahead', async () => {
    const site = siteOf(SHORT_SEASON) as { probes: { id: string; placements: { to?: string }[] }[] };
    const ahead = '2026-09-01T08:00:00Z';
    const probes = site.probes.map((probe) =>
      probe.id === 'p03'
        ? { ...probe, placements: probe.placements.map((one) => ({ ...one, to: ahead })) }
        : probe,
    );
    const { get } = await siteApp({
      ...site,
      probes: [...probes, { id: 'p08', placements: [{ ...PLACE, from: ahead }] }],
    });
    expect(await there(get)).toEqual([['p01', 'p02', 'p03', 'p08'], []]);
  });
});
