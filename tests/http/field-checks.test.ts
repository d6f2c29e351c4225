/** `/api/field-checks` over a real station. */
import { describe, expect, test } from 'vitest';
import { beside, bodyOf, reading, START } from '../support/calibrating.js';
import { placesOf, problemOfAnswer } from './answers.js';
import { type StationApp, stationApp } from './station-app.js';

/** The travelling reference has its calibration. */
async function calibrated(app: StationApp): Promise<void> {
  const time = new Date(START).toISOString();
  const points = [beside(10, 9), beside(30, 29)];
  const answer = await app.post('/api/calibrations', { ...bodyOf({ points }), doneAt: time });
  expect(answer.statusCode).toBe(201);
}

describe('/api/field-checks', () => {
  const CHECK = {
    ...{ site: 'test-ridge', probe: 'p02', reference: 'p01', quantity: 'temperature', by: 'bench-hand' },
    ...{ from: '2026-05-04T08:00:00Z', to: '2026-05-05T08:00:00Z' },
  };
  const url = '/api/field-checks';

  test('hold a probe against a reference, keep what came of it, and list it', async () => {
    const app = await stationApp();
    for (let half = 0; half < 50; half += 1)
      app.commit([reading(half / 2, 'p01', 20), reading(half / 2, 'p02', 19.1)]);
    await calibrated(app);
    const answer = await app.post(url, CHECK);
    expect(answer.statusCode).toBe(201);
    expect(answer.json()).toMatchObject({
      ...CHECK,
      ...{ id: expect.any(String), verdict: 'agrees', bound: 0.5, placeUncertainty: 0 },
      difference: expect.closeTo(0.1, 6),
    });
    expect((await app.get(url)).json()).toEqual([answer.json()]);
    expect((await app.get(`${url}?site=test-ridge&probe=p01`)).json()).toEqual([]);
  });

  test('refuse what cannot be held against each other', async () => {
    const app = await stationApp();
    problemOfAnswer(await app.post(url, CHECK), 409);
    problemOfAnswer(await app.post(url, { ...CHECK, reference: 'p77' }), 404);
    await calibrated(app);
    problemOfAnswer(await app.post(url, CHECK), 422);
    const placed = async (change: object) =>
      placesOf(problemOfAnswer(await app.post(url, { ...CHECK, ...change }), 400));
    expect(await placed({ reference: 'p02' })).toEqual(['#/reference']);
    expect(await placed({ to: CHECK.from })).toEqual(['#/to']);
    expect(await placed({ bound: 0 })).toEqual(['#/bound']);
    expect(app.reported).toEqual([]);
  });
});
