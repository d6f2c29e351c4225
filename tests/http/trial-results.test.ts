import { describe, expect, test } from 'vitest';
import { BOXES, drawing, putExcess, trialApp, trialBody } from '../support/a-trial.js';
import { day, look, uuid } from '../support/ledger.js';

const one = '/api/trials/sand-one';

async function drawn() {
  const app = await trialApp();
  expect((await app.post(`${one}/assignment`, drawing(901))).statusCode).toBe(201);
  return app;
}

describe('what a trial comes to', () => {
  test('each bed with one number, compared in its blocks', async () => {
    const { get, reported } = await drawn();
    const result = (await get(`${one}/result`)).json();
    expect(result.rows.map(({ value }: { value: number }) => Number(value.toFixed(6)))).toEqual([
      10, 18, 12, 22, 8, 16,
    ]);
    expect(result.rows.every(({ day: on }: { day: number }) => on === 60)).toBe(true);
    expect(result.comparison).toMatchObject({
      design: 'blocks',
      beds: 6,
      blocks: 3,
      tests: [{ df: [1, 2] }, { name: "Friedman's test" }],
    });
    expect(result.survival).toMatchObject({
      clustered: true,
      roots: expect.closeTo(300, 6),
      byBed: { ways: 8 },
    });
    expect(result.words.meaning.length).toBeGreaterThan(0);
    expect(result.missing).toEqual([]);
    expect(reported).toEqual([]);
  });

  test('beds without a look about that day are left out, and it is said why', async () => {
    const { get, post, goTo } = await drawn();
    goTo(130);
    const stands = (await get(one)).json();
    const change = {
      outcome: { kind: 'loss', day: 120 },
      supersedes: stands.version,
      reason: 'longer',
      beds: stands.beds,
    };
    await post('/api/trials', trialBody(5, change));
    await post(
      '/api/beds/box-1/inspections',
      look(300, { at: day(118), found: ['rot'], looked: 50, rotten: 9 }),
    );
    const result = (await get(`${one}/result`)).json();
    expect(result.rows[0]).toMatchObject({ value: expect.closeTo(18, 9), day: 118, missing: null });
    expect(result.rows[1]).toMatchObject({
      value: null,
      missing: 'expected a look at which lost roots were counted from day 108 to 132, got none',
    });
    expect(result.comparison).toBeNull();
    expect(result.missing[0]).toMatch(/^beds: treatments: expected two or more to compare/);
  });

  test.each<[string, number, unknown[]]>([
    ['sprouted', 60, [0, 4, 8, 12, 16, 20]],
    ['first-rot', 60, [14, 14, 28, 14, 14, 14]],
  ])('%s', async (kind, on, values) => {
    const { get, post } = await drawn();
    const stands = (await get(one)).json();
    await post(
      '/api/trials',
      trialBody(5, {
        outcome: { kind, day: on },
        supersedes: stands.version,
        reason: 'other',
        beds: stands.beds,
      }),
    );
    const result = (await get(`${one}/result`)).json();
    expect(result.rows.map(({ value }: { value: number }) => value)).toEqual(values);
    if (kind === 'first-rot')
      expect(result).toMatchObject({
        comparison: null,
        survival: { clustered: false, byBed: null, roots: 6 },
      });
  });

  test('sound mass: the roots not lost, by what roots weigh then', async () => {
    const { get, post } = await drawn();
    const stands = (await get(one)).json();
    for (const [at, bed] of BOXES.entries())
      await post(`/api/beds/${bed}/stock`, {
        id: uuid(400 + at),
        at: day(59),
        by: 'W',
        kind: 'out',
        reason: 'eaten',
        roots: 10,
        mass_kg: 2.7,
      });
    await post(
      '/api/trials',
      trialBody(5, {
        outcome: { kind: 'sound-mass', day: 60 },
        supersedes: stands.version,
        reason: 'mass',
        beds: stands.beds,
      }),
    );
    // 0.27 of 0.3 kg a root, and 10, 18, ... % lost.
    const result = (await get(`${one}/result`)).json();
    expect(result.rows.map(({ value }: { value: number }) => Number(value.toFixed(6)))).toEqual([
      81, 73.8, 79.2, 70.2, 82.8, 75.6,
    ]);
  });

  test('highest excess, and curves of it by filling and by calendar', async () => {
    const app = await drawn();
    const { get, post } = app;
    const stands = (await get(one)).json();
    for (const at of BOXES.keys()) if (at < 5) putExcess(app, at, (on) => 0.01 * on + at, 61);
    await post(
      '/api/trials',
      trialBody(5, {
        outcome: { kind: 'highest-excess', day: 60 },
        supersedes: stands.version,
        reason: 'excess',
        beds: stands.beds,
      }),
    );
    const { rows } = (await get(`${one}/result`)).json();
    expect(rows[2].value).toBeGreaterThan(2.5);
    expect(rows[5].missing).toMatch(/expected its excess of at least 30 of the 60 days, got 0/);
    const curves = (await get(`${one}/curves?of=excess`)).json();
    expect(curves).toMatchObject({ of: 'excess', by: 'filling', unit: '°C' });
    expect(curves.treatments[0].points[0]).toMatchObject({ time: 0 });
    const calendar = (await get(`${one}/curves?of=excess&by=calendar`)).json();
    expect(calendar.treatments[0].points[0].time % 86_400_000).toBe(0);
  });

  test('curves of loss count each bed once, week by week', async () => {
    const { get } = await drawn();
    const { treatments } = (await get(`${one}/curves`)).json();
    expect(
      treatments.map(({ points }: { points: { time: number }[] }) => points.map(({ time }) => time)),
    ).toEqual([
      [0, 7, 14, 21, 28, 35, 42, 49, 56, 63],
      [0, 7, 14, 21, 28, 35, 42, 49, 56, 63],
    ]);
    expect(treatments[0].points[2]).toMatchObject({ beds: 3, low: expect.any(Number) });
    const calendar = (await get(`${one}/curves?by=calendar`)).json();
    expect(calendar.treatments[0].points.every(({ beds }: { beds: number }) => beds === 3)).toBe(true);
  });
});
