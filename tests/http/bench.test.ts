import { describe, expect, test } from 'vitest';
import { approaching } from '../support/bench-work.js';
import { BATH, BENCH, opened, resting } from './a-bench.js';
import { placesOf, problemOfAnswer } from './answers.js';
import { stationApp } from './station-app.js';

describe('a bench', () => {
  test('is opened, and shown as it stands', async () => {
    const app = await stationApp();
    const answer = await app.post('/api/bench', BENCH);
    expect(answer.statusCode).toBe(201);
    const bench = answer.json();
    expect(bench).toEqual({
      ...{ id: expect.any(String), site: 'test-ridge', quantity: 'temperature', probes: ['k01', 'k02'] },
      ...{ by: 'bench-hand', startedAt: '2026-11-02T08:00:00Z', state: 'open', endedAt: null, reason: null },
      ...{ points: [], settling: [], cautions: [], warnings: [], calibrations: [] },
      finishedProbes: [],
    });
    expect((await app.get(`/api/bench/${bench.id}`)).json()).toEqual(bench);
    expect((await app.get('/api/bench')).json()).toEqual([bench]);
  });

  test('goes from a bath to its calibrations', async () => {
    const app = await stationApp();
    const id = await resting(app);
    const shown = (await app.get(`/api/bench/${id}`)).json();
    expect(shown.points).toMatchObject([
      { number: 1, startedAt: '2026-11-02T08:00:00Z', source: 'instrument', reference: 25, captured: [] },
    ]);
    expect(shown.settling[0]).toMatchObject({
      ...{ probe: 'k01', captured: false, settled: true, words: 'settled', remaining_s: null },
      ...{ mean: expect.closeTo(26, 1), readings: 61 },
      ...{ latest: expect.closeTo(26, 1), latestAt: '2026-11-02T08:10:00Z' },
    });
    expect(shown.settling[0].trace).toHaveLength(61);
    expect(shown.settling[0].trace.at(-1)).toEqual({
      ...{ at: '2026-11-02T08:10:00Z', value: shown.settling[0].latest },
    });
    expect(shown.cautions.length).toBeGreaterThan(0);
    const after = (await app.post(`/api/bench/${id}/capture`, {})).json();
    expect(after.points[0].captured.map((one: { probe: string }) => one.probe)).toEqual(['k01', 'k02']);
    expect(after.points[0].captured[0]).toMatchObject({
      at: '2026-11-02T08:10:00Z',
      to: '2026-11-02T08:10:00Z',
    });
    const tried = await app.post(`/api/bench/${id}/fits`, {});
    expect(tried.json()).toMatchObject([
      { probe: 'k01', problem: null, calibration: { inForce: false, fit: { form: 'offset' } } },
      { probe: 'k02', problem: null },
    ]);
    expect(app.followed).toEqual({ woken: 0, planned: 0, kicked: 0 });
    const done = await app.post(`/api/bench/${id}/finish`, {});
    expect(done.statusCode).toBe(200);
    const { bench, calibrations } = done.json();
    expect(bench).toMatchObject({ state: 'finished', endedAt: '2026-11-02T08:10:00Z', settling: [] });
    expect(calibrations).toMatchObject([
      { probe: 'k01', bench: id, inForce: true, from: '2026-11-02T08:10:00Z' },
      { probe: 'k02', bench: id, inForce: true },
    ]);
    expect(bench.calibrations).toEqual(calibrations.map((record: { id: string }) => record.id));
    expect(app.followed).toEqual({ woken: 1, planned: 0, kicked: 1 });
  });

  test('leaves a probe out where that is asked, and a point with its reason', async () => {
    const app = await stationApp();
    const id = await resting(app);
    await app.post(`/api/bench/${id}/capture`, { probes: ['k01'] });
    const body = { probes: ['k01'], from: '2026-11-02T08:10:00Z', fit: { form: 'offset', resolution: 0.01 } };
    const { calibrations } = (await app.post(`/api/bench/${id}/finish`, body)).json();
    expect(calibrations).toMatchObject([{ probe: 'k01', fit: { resolution: 0.01 } }]);
  });

  test('is given up with its reason', async () => {
    const app = await stationApp();
    const id = await opened(app);
    const answer = await app.post(`/api/bench/${id}/give-up`, { reason: ' the bath leaks ' });
    expect(answer.json()).toMatchObject({ state: 'given-up', reason: 'the bath leaks' });
  });

  test('for humidity takes salts, and warns of what they do', async () => {
    const app = await stationApp();
    const id = await opened(app, { quantity: 'humidity' });
    const jar = { source: 'salt', salt: 'sodium-chloride', temperature_C: 22, temperatureUncertainty_C: 0.2 };
    const bench = (await app.post(`/api/bench/${id}/points`, jar)).json();
    expect(bench.points[0]).toMatchObject({ source: 'salt', temperature_C: 22 });
    expect(bench.settling[0]).toMatchObject({ settled: false, mean: null, readings: 0 });
    const salts = (await app.get('/api/bench/salts')).json();
    const [salt] = salts.filter(({ id: of }: { id: string }) => of === 'sodium-chloride');
    expect(salt).toMatchObject({ name: expect.any(String), formula: 'NaCl' });
    expect(salt.cautions.length).toBeGreaterThan(0);
  });

  test('is listed by state and site', async () => {
    const app = await stationApp();
    const id = await opened(app, { probes: ['k01'] });
    await app.post(`/api/bench/${id}/give-up`, { reason: 'wrong' });
    app.goTo(1);
    const other = await opened(app);
    const ids = async (query: string): Promise<string[]> =>
      (await app.get(`/api/bench${query}`)).json().map((one: { id: string }) => one.id);
    expect(await ids('')).toEqual([other, id]);
    expect(await ids('?state=open')).toEqual([other]);
    expect(await ids('?state=given-up&site=test-ridge')).toEqual([id]);
    expect(await ids('?site=other')).toEqual([]);
    expect(await ids('?limit=1')).toEqual([other]);
  });
});

describe('refused with where it is', () => {
  test.each<[string, object, string[]]>([
    ['no probes', { probes: [] }, ['#/probes']],
    ['a probe twice', { probes: ['k01', 'k01'] }, ['#/probes']],
    ['a probe that is no id', { probes: ['K 01'] }, ['#/probes/0']],
    ['too many probes', { probes: Array.from({ length: 61 }, (_, at) => `x${at}`) }, ['#/probes']],
    ['no reference', { reference: {} }, ['#/reference/name']],
    ['a quantity that is none', { quantity: 'rain' }, ['#/quantity']],
    ['a start that is set', { startedAt: '2026-11-02T08:00:00Z' }, ['#/startedAt']],
  ])('to open a bench with %s', async (_, change, places) => {
    const app = await stationApp();
    expect(placesOf(problemOfAnswer(await app.post('/api/bench', { ...BENCH, ...change }), 400))).toEqual(
      places,
    );
  });

  test.each<[string, string, object, string[]]>([
    ['a point of no source', 'points', {}, ['#/source']],
    [
      'a point of a salt that is none',
      'points',
      { source: 'salt', salt: 'sugar', temperature_C: 20, temperatureUncertainty_C: 0.1 },
      ['#/salt'],
    ],
    ['a bath known to nothing', 'points', { ...BATH, uncertainty: 0 }, ['#/uncertainty']],
    ['a bath with a pressure', 'points', { ...BATH, pressure_hPa: 900 }, ['#/pressure_hPa']],
    ['a capture of nothing', 'capture', { probes: [] }, ['#/probes']],
    ['a capture of something else', 'capture', { all: true }, ['#/all']],
    ['a finish from a time that is none', 'finish', { from: 'now' }, ['#/from']],
    [
      'a point 0 left out',
      'finish',
      { fit: { leaveOut: [{ probe: 'k01', point: 0, reason: 'x' }] } },
      ['#/fit/leaveOut/0/point'],
    ],
    ['a form that is none', 'fits', { fit: { form: 'cubic' } }, ['#/fit/form']],
    ['a giving up without a reason', 'give-up', { reason: ' ' }, ['#/reason']],
  ])('%s', async (_, step, body, places) => {
    const app = await stationApp();
    const id = await opened(app);
    expect(placesOf(problemOfAnswer(await app.post(`/api/bench/${id}/${step}`, body), 400))).toEqual(places);
    expect(app.reported).toEqual([]);
  });

  test.each(['state=done', 'limit=0', 'site=', 'probe=k01'])('a list with ?%s', async (query) => {
    const app = await stationApp();
    expect(placesOf(problemOfAnswer(await app.get(`/api/bench?${query}`), 400))).toEqual([
      query.split('=')[0],
    ]);
  });
});

describe('refused in a sentence', () => {
  test('404 for a bench and a probe that are none', async () => {
    const app = await stationApp();
    problemOfAnswer(await app.get('/api/bench/none'), 404);
    for (const [step, body] of [
      ['points', BATH],
      ['capture', {}],
      ['fits', {}],
      ['finish', {}],
      ['give-up', { reason: 'why' }],
    ] as const)
      problemOfAnswer(await app.post(`/api/bench/none/${step}`, body), 404);
    expect(problemOfAnswer(await app.post('/api/bench', { ...BENCH, probes: ['x9'] }), 404).detail).toMatch(
      /"x9"$/,
    );
  });

  test('409 for what contradicts what is known', async () => {
    const app = await stationApp();
    const detail = async (url: string, body: object): Promise<string | undefined> =>
      problemOfAnswer(await app.post(url, body), 409).detail;
    expect(await detail('/api/bench', { ...BENCH, probes: ['p01'] })).toMatch(/is in bed "pit-t"/);
    const id = await opened(app);
    expect(await detail('/api/bench', BENCH)).toMatch(/it is on bench/);
    expect(await detail(`/api/bench/${id}/capture`, {})).toMatch(/expected a point to have begun/);
    await app.post(`/api/bench/${id}/points`, BATH);
    app.commit(approaching({ probe: 'k01', from: 0, to: 8, start: 20, end: 25, constant_s: 200 }));
    app.goTo(8);
    expect(await detail(`/api/bench/${id}/capture`, { probes: ['k01'] })).toMatch(
      /still drifting .* min more$/,
    );
    await app.post(`/api/bench/${id}/give-up`, { reason: 'power cut' });
    expect(await detail(`/api/bench/${id}/points`, BATH)).toMatch(/it is given up$/);
    expect(await detail(`/api/bench/${id}/finish`, {})).toMatch(/it is given up$/);
  });

  test('400 and 422 for points of the wrong quantity, beyond their range, and for too few', async () => {
    const app = await stationApp();
    const id = await opened(app);
    const points = `/api/bench/${id}/points`;
    const salt = {
      source: 'salt',
      salt: 'sodium-chloride',
      temperature_C: 22,
      temperatureUncertainty_C: 0.2,
    };
    expect(problemOfAnswer(await app.post(points, salt), 400).detail).toMatch(
      /expected a bench for humidity/,
    );
    problemOfAnswer(await app.post(points, { ...BATH, unit: '%RH' }), 400);
    problemOfAnswer(await app.post(points, { ...BATH, reference: 293 }), 422);
    const thin = { source: 'boiling-point', pressure_hPa: 88, pressureUncertainty_hPa: 1 };
    problemOfAnswer(await app.post(points, thin), 422);
    expect(problemOfAnswer(await app.post(`/api/bench/${id}/finish`, {}), 422).detail).toMatch(
      /^probe k01: /,
    );
    expect(
      problemOfAnswer(await app.post(`/api/bench/${id}/capture`, { probes: ['p01'] }), 409).detail,
    ).toBeTruthy();
    expect(app.reported).toEqual([]);
  });
});
