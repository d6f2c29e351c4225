import { describe, expect, test } from 'vitest';
import { reading, SHIFTED_U_C } from '../support/calibrating.js';
import { placesOf, problemOfAnswer } from './answers.js';
import { type StationApp, stationApp } from './station-app.js';

/** As a program sends it: times are text. */
const POINTS = [
  { indicated: 10, reference: 9, referenceUncertainty: 0.05, source: 'instrument' },
  {
    at: '2026-05-05T08:00:00Z',
    indicated: 30,
    reference: 29,
    referenceUncertainty: 0.05,
    source: 'instrument',
  },
];
const timed = POINTS.map(({ at: _, ...point }) => point);

const BODY = {
  ...{ site: 'test-ridge', probe: 'p01', quantity: 'temperature', doneAt: '2026-05-05T08:00:00Z' },
  ...{ by: 'bench-hand', reference: { name: 'station thermometer' }, points: timed },
};

const { points: _points, ...SHARED } = BODY;
const PAIRS = { ...SHARED, csv: 'indicated,reference,uncertainty\n10,9,0.05\n30,29,0.05\n' };

const CALIBRATIONS = '/api/calibrations';

async function added(app: StationApp, change: object = {}): Promise<string> {
  const answer = await app.post(CALIBRATIONS, { ...BODY, ...change });
  expect(answer.statusCode).toBe(201);
  return answer.json().id;
}

describe('POST /api/calibrations', () => {
  test('fits the points, keeps the calibration, and has the past judged again', async () => {
    const app = await stationApp();
    app.commit([reading(0, 'p01', 20), reading(30, 'p01', 20)]);
    const answer = await app.post(CALIBRATIONS, BODY);
    expect(answer.statusCode).toBe(201);
    expect(answer.json()).toEqual({
      ...{ id: expect.any(String), site: 'test-ridge', probe: 'p01', quantity: 'temperature' },
      ...{ from: '2026-05-05T08:00:00Z', doneAt: '2026-05-05T08:00:00Z', by: 'bench-hand' },
      ...{ reference: { name: 'station thermometer' }, conditions: {}, points: timed },
      fit: expect.objectContaining({ form: 'offset', coefficients: [-1], range: [10, 30], leftOut: [] }),
      asFound: expect.objectContaining({ largest: 1, tolerance: 0.5, exceeds: true }),
      // k = 2, by hand: see SHIFTED_U_C; nothing is known of step and scatter.
      uncertainty: { indicated: 20, expanded: expect.closeTo(SHIFTED_U_C, 5) },
      cautions: [],
      ...{ before: null, supersedes: null, bench: null, inForce: true, supersededBy: null },
    });
    expect(app.followed).toEqual({ woken: 1, planned: 0, kicked: 1 });
    const bed = (
      await app.get('/api/beds/pit-t/readings?from=2026-05-04T00:00:00Z&to=2026-05-07T00:00:00Z')
    ).json();
    expect(bed.probes[0]).toMatchObject({
      ...{ temperature_C: [20, 19], temperatureUncertainty_C: [null, 0.122474] },
      temperatureDoubt: ['drifted', null],
    });
  });

  test('holds from another time where that is said', async () => {
    const app = await stationApp();
    const answer = await app.post(CALIBRATIONS, { ...BODY, from: '2026-05-04T12:00:00+02:00' });
    expect(answer.json()).toMatchObject({ from: '2026-05-04T10:00:00Z', doneAt: '2026-05-05T08:00:00Z' });
  });

  test('takes as many points as it says: a thousand', async () => {
    const app = await stationApp();
    const points = Array.from({ length: 1000 }, (_, at) => ({
      ...{
        indicated: 10 + at / 50,
        reference: 9 + at / 50,
        referenceUncertainty: 0.05,
        source: 'instrument',
      },
      ...{
        indicatedScatter: 0.0123456789,
        indicatedCount: 12,
        label: 'beside the thermometer in the stirred bath',
      },
    }));
    const answer = await app.post(CALIBRATIONS, { ...BODY, points });
    expect(answer.statusCode).toBe(201);
    expect(answer.json().points).toHaveLength(1000);
  });

  test.each<[string, object, string[]]>([
    ['a probe that is no id', { probe: 'P 01' }, ['#/probe']],
    ['another quantity', { quantity: 'rain' }, ['#/quantity']],
    ['a time that is none', { doneAt: 'yesterday' }, ['#/doneAt']],
    ['nobody', { by: ' ' }, ['#/by']],
    ['no points', { points: [] }, ['#/points']],
    ['too many points', { points: Array.from({ length: 1001 }, () => timed[0]) }, ['#/points']],
    [
      'a point without a reference',
      { points: [{ ...timed[0], reference: undefined }] },
      ['#/points/0/reference'],
    ],
    [
      'an uncertainty of nothing',
      { points: [{ ...timed[0], referenceUncertainty: 0 }] },
      ['#/points/0/referenceUncertainty'],
    ],
    ['a key that is not known', { offset: 3 }, ['#/offset']],
    ['a date that is none', { reference: { name: 'x', dueOn: '2026-02-30' } }, ['#/reference/dueOn']],
    ['a form that is none', { fit: { form: 'cubic' } }, ['#/fit/form']],
    ['an id that is set', { id: 'mine' }, ['#/id']],
  ])('refuses %s with where it is', async (_, change, places) => {
    const app = await stationApp();
    const problem = problemOfAnswer(await app.post(CALIBRATIONS, { ...BODY, ...change }), 400);
    expect(placesOf(problem)).toEqual(places);
    expect((await app.get(CALIBRATIONS)).json()).toEqual([]);
    expect(app.followed).toEqual({ woken: 0, planned: 0, kicked: 0 });
  });

  test('answers 404, 409 and 422 with a sentence', async () => {
    const app = await stationApp();
    const { detail } = problemOfAnswer(await app.post(CALIBRATIONS, { ...BODY, probe: 'p77' }), 404);
    expect(detail).toMatch(/"p77"$/);
    await added(app);
    expect(problemOfAnswer(await app.post(CALIBRATIONS, BODY), 409).detail).toMatch(
      /name it in "supersedes"/,
    );
    problemOfAnswer(await app.post(CALIBRATIONS, { ...BODY, from: '2026-01-01T00:00:00Z' }), 409);
    problemOfAnswer(await app.post(CALIBRATIONS, { ...BODY, doneAt: '2027-01-01T00:00:00Z' }), 409);
    const gain = {
      ...BODY,
      from: '2026-05-06T08:00:00Z',
      fit: { form: 'linear' },
      points: timed.slice(0, 1),
    };
    expect(problemOfAnswer(await app.post(CALIBRATIONS, gain), 422).detail).toMatch(/a gain needs points/);
    const kelvin = { ...gain, fit: {}, points: [{ ...timed[0], reference: 293 }] };
    problemOfAnswer(await app.post(CALIBRATIONS, kelvin), 422);
    expect(app.reported).toEqual([]);
  });
});

describe('GET /api/calibrations', () => {
  test('lists them newest first, by what is asked', async () => {
    const app = await stationApp();
    const a = await added(app);
    const b = await added(app, { probe: 'p02', from: '2026-05-06T08:00:00Z' });
    const c = await added(app, { supersedes: a, from: '2026-05-05T09:00:00Z' });
    const ids = async (query: string): Promise<string[]> =>
      (await app.get(`${CALIBRATIONS}${query}`)).json().map(({ id }: { id: string }) => id);
    expect(await ids('')).toEqual([b, c, a]);
    expect(await ids('?limit=1')).toEqual([b]);
    expect(await ids('?probe=p01')).toEqual([c, a]);
    expect(await ids('?probe=p01&inForce=true')).toEqual([c]);
    expect(await ids('?probe=p01&inForce=false')).toEqual([c, a]);
    expect(await ids('?site=test-ridge&quantity=humidity')).toEqual([]);
    expect((await app.get(`${CALIBRATIONS}/${a}`)).json()).toMatchObject({ inForce: false, supersededBy: c });
    expect((await app.get(`${CALIBRATIONS}/${c}`)).json()).toMatchObject({ inForce: true, supersedes: a });
  });

  test.each([
    ['limit=0', ['limit']],
    ['limit=1001', ['limit']],
    ['inForce=yes', ['inForce']],
    ['quantity=rain', ['quantity']],
    ['probe=', ['probe']],
    ['bed=pit-t', ['bed']],
  ])('refuses ?%s', async (query, places) => {
    const app = await stationApp();
    expect(placesOf(problemOfAnswer(await app.get(`${CALIBRATIONS}?${query}`), 400))).toEqual(places);
  });

  test('of a probe that nobody has heard of is 404; of one that was never calibrated there are none', async () => {
    const app = await stationApp();
    expect(problemOfAnswer(await app.get(`${CALIBRATIONS}?probe=zz`), 404).detail).toMatch(/"zz"$/);
    problemOfAnswer(await app.get(`${CALIBRATIONS}?probe=p01&site=other`), 404);
    expect((await app.get(`${CALIBRATIONS}?probe=p02&inForce=true`)).json()).toEqual([]);
    app.commit([reading(0, 'x01', 20)]);
    expect((await app.get(`${CALIBRATIONS}?probe=x01&site=test-ridge`)).json()).toEqual([]);
  });

  test('one that is none is 404, whatever it is called', async () => {
    const app = await stationApp();
    for (const id of ['nothing', '__proto__', '%27%20OR%201=1'])
      for (const part of ['', '/certificate', '/certificate.pdf'])
        problemOfAnswer(await app.get(`${CALIBRATIONS}/${id}${part}`), 404);
    expect(app.reported).toEqual([]);
  });
});

describe('a certificate', () => {
  test('is a page that runs nothing and loads nothing', async () => {
    const app = await stationApp();
    const id = await added(app, { by: '<script>alert(1)</script>' });
    const answer = await app.get(`${CALIBRATIONS}/${id}/certificate`);
    expect(answer.statusCode).toBe(200);
    expect(answer.headers).toMatchObject({
      'content-type': 'text/html; charset=utf-8',
      'content-security-policy': "default-src 'none'; style-src 'unsafe-inline'",
      'x-content-type-options': 'nosniff',
    });
    expect(answer.body).toMatch(/^<!doctype html>/i);
    expect(answer.body).toContain(id);
    expect(answer.body).not.toContain('<script');
    expect(answer.body).not.toMatch(/(src|href)="https?:/);
  });

  test('is a PDF with the name of its probe', async () => {
    const app = await stationApp();
    const answer = await app.get(`${CALIBRATIONS}/${await added(app)}/certificate.pdf`);
    expect(answer.statusCode).toBe(200);
    expect(answer.headers).toMatchObject({
      'content-type': 'application/pdf',
      'content-disposition': 'inline; filename="p01-temperature.pdf"',
    });
    expect(answer.rawPayload.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    expect(answer.rawPayload.subarray(-1024).toString('latin1')).toContain('%%EOF');
  });

  test('says that another has taken its place', async () => {
    const app = await stationApp();
    const first = await added(app);
    const second = await added(app, { supersedes: first });
    expect((await app.get(`${CALIBRATIONS}/${first}/certificate`)).body).toContain(
      `calibration ${second} stands`,
    );
    expect((await app.get(`${CALIBRATIONS}/${second}/certificate`)).body).not.toContain('Superseded:');
  });
});

describe('POST /api/calibrations/pairs', () => {
  const url = `${CALIBRATIONS}/pairs`;

  test('makes calibrations of a file', async () => {
    const app = await stationApp();
    const answer = await app.post(url, PAIRS);
    expect(answer.statusCode).toBe(200);
    expect(answer.json()).toMatchObject({
      ...{ badLines: [], kept: true },
      calibrations: [{ probe: 'p01', inForce: true, points: [{ source: 'file' }, { source: 'file' }] }],
    });
    expect(app.followed).toEqual({ woken: 1, planned: 0, kicked: 1 });
  });

  test('keeps nothing where it is only to show, nor of a file with a bad line', async () => {
    const app = await stationApp();
    const shown = (await app.post(url, { ...PAIRS, dryRun: true })).json();
    expect(shown).toMatchObject({ kept: false, calibrations: [{ inForce: false }] });
    const bad = (await app.post(url, { ...PAIRS, csv: `${PAIRS.csv}x,9,0.05\n` })).json();
    expect(bad).toMatchObject({ kept: false, calibrations: [] });
    expect(bad.badLines).toEqual([{ line: 4, message: expect.stringMatching(/^line 4: indicated: /) }]);
    expect((await app.get(CALIBRATIONS)).json()).toEqual([]);
  });

  test('takes a file far longer than any other body', async () => {
    const app = await stationApp();
    const lines = Array.from(
      { length: 9000 },
      (_, at) => `${(10 + at / 450).toFixed(4)},${(9 + at / 450).toFixed(4)},0.05`,
    );
    const answer = await app.post(url, {
      ...PAIRS,
      csv: `indicated,reference,uncertainty\n${lines.join('\n')}`,
      dryRun: true,
    });
    expect(answer.statusCode).toBe(200);
  });

  test.each<[string, object, number, string[]]>([
    ['no text', { csv: '' }, 400, ['#/csv']],
    ['a text that is too long', { csv: 'x'.repeat(1_000_001) }, 400, ['#/csv']],
    ['points beside the file', { points: timed }, 400, ['#/points']],
    ['an uncertainty of nothing', { uncertainty: 0 }, 400, ['#/uncertainty']],
    ['a line 0 left out', { leaveOut: [{ line: 0, reason: 'x' }] }, 400, ['#/leaveOut/0/line']],
    ['a line that is none left out', { leaveOut: [{ line: 9, reason: 'x' }] }, 400, []],
    ['the place of a calibration that is none', { supersedes: 'none' }, 409, []],
    ['a header that is none', { csv: 'a,b\n1,2' }, 400, []],
    ['a file of no lines', { csv: 'indicated,reference,uncertainty\n' }, 422, []],
    ['a probe that nobody knows', { probe: 'p77' }, 404, []],
  ])('refuses %s', async (_, change, status, places) => {
    const app = await stationApp();
    expect(placesOf(problemOfAnswer(await app.post(url, { ...PAIRS, ...change }), status))).toEqual(places);
    expect(app.reported).toEqual([]);
  });
});

test('GET /api/calibrations/due says when each probe is to be calibrated next', async () => {
  const app = await stationApp();
  const calibration = await added(app);
  const due = (await app.get(`${CALIBRATIONS}/due`)).json();
  expect(due[0]).toEqual({
    ...{ site: 'test-ridge', probe: 'p01', quantity: 'temperature', calibration },
    ...{ dueAt: '2027-05-05T08:00:00Z', isDue: false },
  });
  expect(due).toHaveLength(12);
  expect(due.at(-1)).toMatchObject({ calibration: null, dueAt: null, isDue: false });
});
