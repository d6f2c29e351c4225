import { describe, expect, test } from 'vitest';
import { formatTime, HOUR_ms } from '../../services/core/model/time.js';
import { GOOD_SAND } from '../core/keeping/some-sand.js';
import { BENCH_AT } from '../support/bench-work.js';
import { keepingSite } from '../support/keeping-site.js';
import { placesOf, problemOfAnswer } from './answers.js';
import { stationApp } from './station-app.js';

const WEIGHING = { wet_g: 803.6, dry_g: 800, container_g: 300, resolution_g: 0.1, way: 'oven' };
const KEPT = { sieving: GOOD_SAND, by: 'A. Technician', note: 'heap by the road' };

async function open() {
  const app = await stationApp();
  app.load(keepingSite({ site: { sand_dry_enough_percent: 0.6 }, bed: { sand_dry_enough_percent: 1 } }));
  app.station.refresh();
  const rows = (): unknown => app.database.prepare('SELECT count(*) FROM sand_test').pluck().get();
  return { ...app, rows };
}

describe('POST /api/sand', () => {
  test('without a bed judges by the defaults and keeps nothing', async () => {
    const { post, rows } = await open();
    const answer = await post('/api/sand', { sieving: GOOD_SAND, weighing: WEIGHING });
    expect(answer.statusCode).toBe(200);
    expect(answer.json()).toMatchObject({ id: null, bed: null, at: null, by: null, measured: null });
    expect(answer.json().report.grains).toMatchObject({
      verdict: 'good',
      USCS: ['SP'],
      Cc: expect.closeTo(1.07, 2),
    });
    expect(answer.json().report.moisture).toMatchObject({
      dryEnough: 'not met',
      limits: [{ value: 0.5 }, {}, {}],
    });
    expect(rows()).toBe(0);
  });

  test('with a bed keeps what was measured, and judges by the limits of the bed', async () => {
    const { post, get } = await open();
    const answer = await post('/api/sand?bed=pit-k', { ...KEPT, weighing: WEIGHING });
    expect(answer.statusCode).toBe(201);
    const kept = answer.json();
    expect(kept).toMatchObject({
      ...{ bed: 'pit-k', by: 'A. Technician', at: formatTime(BENCH_AT), note: 'heap by the road' },
      measured: { sieving: GOOD_SAND, weighing: WEIGHING },
    });
    expect(kept.report.moisture).toMatchObject({
      dryEnough: 'met',
      limits: [{ name: 'sand_dry_enough_percent', value: 1, source: 'set here; the default is 0.5' }, {}, {}],
    });
    expect((await get('/api/beds/pit-k/sand')).json()).toEqual([kept]);
    expect((await get('/api/beds/box-k/sand')).json()).toEqual([]);
  });

  test('with an id of its own is kept once however often it is sent, and is never another', async () => {
    const { post, rows } = await open();
    const sent = { id: '0B3E4C1A-5D57-4F5C-9D3E-4C1A5D574F5C', ...KEPT };
    const first = await post('/api/beds/pit-k/sand', sent);
    expect(first.statusCode).toBe(201);
    expect(first.json().id).toBe(sent.id.toLowerCase());
    const again = await post('/api/beds/pit-k/sand', sent);
    expect([again.statusCode, again.json()]).toEqual([201, first.json()]);
    for (const [bed, other] of [
      ['pit-k', { by: 'Another' }],
      ['pit-k', { note: 'another heap' }],
      ['box-k', {}],
    ] as const)
      expect(problemOfAnswer(await post(`/api/beds/${bed}/sand`, { ...sent, ...other }), 409).detail).toMatch(
        /^id: expected a new UUID/,
      );
    expect(rows()).toBe(1);
    expect(placesOf(problemOfAnswer(await post('/api/beds/pit-k/sand', { ...sent, id: '7' }), 400))).toEqual([
      '#/id',
    ]);
  });

  test('in the path of the bed does the same; the newest is listed first, and none is written over', async () => {
    const { post, get } = await open();
    const at = (hours: number) => formatTime(BENCH_AT - hours * HOUR_ms);
    for (const hours of [5, 2, 9])
      expect((await post('/api/beds/pit-k/sand', { ...KEPT, at: at(hours) })).statusCode).toBe(201);
    const listed = (await get('/api/beds/pit-k/sand')).json() as { at: string }[];
    expect(listed.map((one) => one.at)).toEqual([at(2), at(5), at(9)]);
    expect((await get('/api/beds/pit-k/sand?limit=1')).json()).toHaveLength(1);
  });
});

describe('sand is refused', () => {
  test.each<[string, object, number, string[]]>([
    ['/api/sand', {}, 400, ['#']],
    ['/api/sand', { by: 'A. Technician' }, 400, ['#']],
    ['/api/sand', { driedBefore_g: [800], sieving: GOOD_SAND }, 400, ['#/driedBefore_g']],
    ['/api/sand', { weighing: { ...WEIGHING, driedBefore_g: [-1] } }, 400, ['#/weighing/driedBefore_g/0']],
    ['/api/sand', { weighing: { ...WEIGHING, way: 'sun' } }, 400, ['#/weighing/way']],
    ['/api/sand', { weighing: { ...WEIGHING, wet_g: null } }, 400, ['#/weighing/wet_g']],
    ['/api/sand', { sieving: { sieves: [], pan_g: 1 } }, 400, ['#/sieving/sieves']],
    [
      '/api/sand',
      { warmth: { sand_C: 30, shadeMean_C: 20, body: { shape: 'ball' } } },
      400,
      ['#/warmth/body/shape'],
    ],
    ['/api/sand', { sieving: GOOD_SAND, colour: 'red' }, 400, ['#/colour']],
    ['/api/sand?pit=pit-k', KEPT, 400, ['pit']],
    ['/api/sand?bed=Pit K', KEPT, 400, ['bed']],
    ['/api/beds/pit-k/sand', { ...KEPT, at: 'yesterday' }, 400, ['#/at']],
    ['/api/beds/pit-k/sand', { ...KEPT, by: ' ' }, 400, ['#/by']],
    ['/api/beds/pit-k/sand', { sieving: GOOD_SAND }, 400, []],
    ['/api/beds/pit-z/sand', KEPT, 404, []],
    ['/api/sand?bed=pit-z', KEPT, 404, []],
    ['/api/beds/pit-k/sand', { ...KEPT, at: formatTime(BENCH_AT + HOUR_ms) }, 409, []],
    ['/api/sand', { weighing: { ...WEIGHING, dry_g: 900 } }, 422, []],
    [
      '/api/beds/pit-k/sand',
      {
        ...KEPT,
        sieving: {
          sieves: [
            { opening_mm: 1, retained_g: 1 },
            { opening_mm: 2, retained_g: 1 },
          ],
          pan_g: 1,
        },
      },
      422,
      [],
    ],
  ])('%s %j with %i', async (url, body, status, places) => {
    const { post, rows } = await open();
    expect(placesOf(problemOfAnswer(await post(url, body), status))).toEqual(places);
    expect(rows()).toBe(0);
  });

  test('where a list asks for more than is given', async () => {
    const { get } = await open();
    expect(placesOf(problemOfAnswer(await get('/api/beds/pit-k/sand?limit=501'), 400))).toEqual(['limit']);
    problemOfAnswer(await get('/api/beds/pit-z/sand'), 404);
  });
});
