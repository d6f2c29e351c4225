/** Steps of a bench over HTTP: captures, points taken back, probes finished one by one. */
import { describe, expect, test } from 'vitest';
import { approaching } from '../support/bench-work.js';
import { BATH, opened, resting } from './a-bench.js';
import { placesOf, problemOfAnswer } from './answers.js';
import { stationApp } from './station-app.js';

describe('steps of a bench', () => {
  test('a capture that names no probe takes those that have settled, and says who waits', async () => {
    const app = await stationApp();
    const id = await opened(app);
    await app.post(`/api/bench/${id}/points`, BATH);
    app.commit(approaching({ probe: 'k01', from: 0, to: 10, start: 25, end: 25 }));
    app.goTo(10);
    const answer = await app.post(`/api/bench/${id}/capture`, {});
    expect(answer.statusCode).toBe(200);
    const { points, waiting } = answer.json();
    expect(points[0].captured).toMatchObject([{ probe: 'k01', step: 0.01, stepFrom: 'seen' }]);
    expect(waiting).toEqual([{ probe: 'k02', reason: expect.stringMatching(/^too few readings yet/) }]);
    const both = { probes: ['k01', 'k02'] };
    problemOfAnswer(await app.post(`/api/bench/${id}/capture`, both), 409);
    expect((await app.get(`/api/bench/${id}`)).json()).not.toHaveProperty('waiting');
  });

  test('a point is dropped, one after the other', async () => {
    const app = await stationApp();
    const id = await opened(app);
    const drop = `/api/bench/${id}/drop-point`;
    for (const _ of [1, 2]) {
      await app.post(`/api/bench/${id}/points`, BATH);
      const answer = await app.post(drop, {});
      expect(answer.statusCode).toBe(200);
      expect(answer.json()).toMatchObject({ state: 'open', points: [] });
    }
    expect(problemOfAnswer(await app.post(drop, {}), 409).detail).toMatch(/expected a point to have begun/);
    expect(placesOf(problemOfAnswer(await app.post(drop, { point: 1 }), 400))).toEqual(['#/point']);
    problemOfAnswer(await app.post('/api/bench/none/drop-point', {}), 404);
  });

  test('a finish of one probe leaves the bench open, one that closes it ends it', async () => {
    const app = await stationApp();
    const id = await resting(app);
    await app.post(`/api/bench/${id}/capture`, {});
    const finish = `/api/bench/${id}/finish`;
    const first = (await app.post(finish, { probes: ['k01'] })).json();
    expect(first.bench).toMatchObject({ state: 'open', finishedProbes: ['k01'] });
    expect(problemOfAnswer(await app.post(finish, { probes: ['k01'] }), 409).detail).toMatch(
      /k01 is finished already$/,
    );
    const supersedes = [{ probe: 'k02', calibration: first.calibrations[0].id }];
    problemOfAnswer(await app.post(finish, { supersedes }), 409);
    const closed = (await app.post(finish, { close: true })).json();
    expect(closed.bench).toMatchObject({ state: 'finished', finishedProbes: ['k01', 'k02'] });
    expect(closed.calibrations).toMatchObject([{ probe: 'k02', fit: { resolutionFrom: 'seen' } }]);
  });

  test('what is wrong with a body is said in words, with what was there', async () => {
    const app = await stationApp();
    const id = await opened(app);
    const said = async (step: string, body: object) =>
      problemOfAnswer(await app.post(`/api/bench/${id}/${step}`, body), 400).errors?.map(
        ({ detail }) => detail,
      );
    expect(await said('points', { ...BATH, uncertainty: 0 })).toEqual(['expected more than 0, got 0']);
    expect(await said('points', {})).toEqual([
      'expected "instrument" or "ice-point" or "boiling-point" or "salt", got nothing',
    ]);
    expect(await said('finish', { fit: { form: 'cubic' } })).toEqual([
      'expected "offset" or "linear" or "quadratic", got "cubic"',
    ]);
    expect(await said('capture', { probes: ['K 1'] })).toEqual([
      expect.stringMatching(/^expected .*got "K 1"/),
    ]);
    expect(await said('give-up', { why: 'x', reason: 'y' })).toEqual(['unknown key']);
  });

  test('salts are listed with their humidity at 25 °C', async () => {
    const app = await stationApp();
    const salts = (await app.get('/api/bench/salts')).json() as { id: string; at25_C: object }[];
    // Greenspan 1977, table: 75.29 %RH over sodium chloride at 25 °C, his polynomial 0.01 more; 0.12 %RH, k = 2.
    expect(salts.find(({ id }) => id === 'sodium-chloride')?.at25_C).toEqual({
      humidity_RH: expect.closeTo(75.29, 1),
      standardUncertainty_RH: expect.closeTo(0.06, 3),
    });
    expect(salts.every(({ at25_C }) => Object.values(at25_C).every(Number.isFinite))).toBe(true);
  });
});
