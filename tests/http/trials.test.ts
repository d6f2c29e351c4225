import { describe, expect, test } from 'vitest';
import { treatmentsIn } from '../../services/joining/export-trials.js';
import { BOXES, drawing, trialBody, trialSite } from '../support/a-trial.js';
import { day, FILLED_AT, ledgerApp, uuid } from '../support/ledger.js';
import { placesOf, problemOfAnswer } from './answers.js';

const one = '/api/trials/sand-one';

const open = () => ledgerApp({ site: trialSite() });

describe('a trial', () => {
  test('is written down, drawn once with its seed, and the same draw can be made again', async () => {
    const { get, post } = await open();
    const written = await post('/api/trials', trialBody(1));
    expect(written.statusCode).toBe(201);
    expect(written.json()).toMatchObject({
      trial: 'sand-one',
      version: uuid(1),
      assigned: null,
      supersedes: null,
    });
    const first = (await post(`${one}/assignment`, drawing(2))).json();
    expect(first.assigned).toEqual({ how: 'chance', seed: 7, at: day(0), by: 'Wanja' });
    for (const row of ['row 1', 'row 2', 'row 3'])
      expect(
        new Set(
          first.beds
            .filter(({ block }: { block: string }) => block === row)
            .map(({ treatment }: { treatment: string }) => treatment),
        ),
      ).toEqual(new Set(['fine', 'coarse']));
    const other = await open();
    await other.post('/api/trials', trialBody(1, { beds: [...trialBody(1).beds].reverse() }));
    expect((await other.post(`${one}/assignment`, drawing(2))).json().beds).toEqual(first.beds);
    expect((await get(one)).json()).toEqual(first);
    expect((await get('/api/trials')).json()).toEqual([first]);
    expect((await get(`${one}/versions`)).json().map(({ version }: { version: string }) => version)).toEqual([
      uuid(2),
      uuid(1),
    ]);
  });

  test('a seed is chosen where none is given, and kept', async () => {
    const { post } = await open();
    await post('/api/trials', trialBody(1));
    const { assigned } = (await post(`${one}/assignment`, drawing(2, { seed: undefined }))).json();
    expect(assigned.seed).toBeGreaterThanOrEqual(0);
  });

  test('that is sent twice is kept once', async () => {
    const { get, post } = await open();
    await post('/api/trials', trialBody(1));
    expect((await post('/api/trials', trialBody(1))).statusCode).toBe(200);
    await post(`${one}/assignment`, drawing(2));
    expect((await post(`${one}/assignment`, drawing(2))).statusCode).toBe(200);
    expect((await post('/api/trials', trialBody(1))).statusCode).toBe(200);
    expect((await get(`${one}/versions`)).json()).toHaveLength(2);
  });

  test('is corrected by a version that supersedes it; what was drawn stays drawn', async () => {
    const { get, post } = await open();
    await post('/api/trials', trialBody(1));
    const { beds, assigned } = (await post(`${one}/assignment`, drawing(2))).json();
    const change = { name: 'Sand, fine or coarse', supersedes: uuid(2), reason: 'better name', beds };
    expect((await post('/api/trials', trialBody(3, change))).json()).toMatchObject({
      name: change.name,
      assigned,
    });
    const swapped = beds.map((each: { treatment: string }) => ({
      ...each,
      treatment: each.treatment === 'fine' ? 'coarse' : 'fine',
    }));
    const other = trialBody(4, { beds: swapped, supersedes: uuid(3), reason: 'sand was mixed up' });
    expect((await post('/api/trials', other)).json().assigned).toMatchObject({ how: 'hand', seed: null });
    expect((await get(`${one}/versions`)).json()).toHaveLength(4);
  });

  test('says which treatment a bed had at a time', async () => {
    const { post, registry } = await open();
    const of = (bed: string, at: number) => treatmentsIn(registry, undefined).treatmentOf(bed, at);
    await post('/api/trials', trialBody(1, { to: day(90) }));
    expect(of('box-1', FILLED_AT)).toBeNull();
    const { beds } = (await post(`${one}/assignment`, drawing(2))).json();
    expect(of('box-1', FILLED_AT)).toBe(beds[0].treatment);
    expect(of('box-1', FILLED_AT - 1)).toBeNull();
    expect(of('box-1', Date.parse(day(90)))).toBeNull();
    expect(of('box-9', FILLED_AT)).toBeNull();
  });
});

describe('a trial is refused', () => {
  const beds = trialBody(1).beds;
  const MISTAKES: readonly [object, string[]][] = [
    [{ trial: 'Sand One' }, ['#/trial']],
    [{ name: ' ' }, ['#/name']],
    [{ treatments: ['fine'] }, ['#/treatments']],
    [{ treatments: ['fine', 'fine'] }, ['#/treatments/1']],
    [{ beds: [...beds.slice(0, 5), beds[0]] }, ['#/beds/5/bed']],
    [{ beds: beds.map(({ bed }) => ({ bed })) }, BOXES.map((_, at) => `#/beds/${at}/block`)],
    [{ design: 'complete' }, BOXES.map((_, at) => `#/beds/${at}/block`)],
    [
      { beds: beds.map((bed, at) => ({ ...bed, ...(at === 0 && { treatment: 'fine' }) })) },
      BOXES.slice(1).map((_, at) => `#/beds/${at + 1}/treatment`),
    ],
    [
      { beds: beds.map((bed) => ({ ...bed, treatment: 'mixed' })) },
      BOXES.map((_, at) => `#/beds/${at}/treatment`),
    ],
    [{ outcome: { kind: 'taste', day: 60 } }, ['#/outcome/kind']],
    [{ outcome: { kind: 'loss', day: 0 } }, ['#/outcome/day']],
    [{ to: day(0) }, ['#/to']],
    [{ supersedes: uuid(9) }, ['#/reason']],
    [{ reason: 'because' }, ['#/supersedes']],
    [{ from: 'May' }, ['#/from']],
    [{ seed: 4 }, ['#/seed']],
    [{ beds: [] }, ['#/beds']],
  ];

  test('by the names of what is wrong, and nothing of it is kept', async () => {
    const { post, get } = await open();
    for (const [change, places] of MISTAKES) {
      const answer = await post('/api/trials', trialBody(1, change));
      expect(placesOf(problemOfAnswer(answer, 400)), JSON.stringify(change)).toEqual(places);
    }
    expect((await get('/api/trials')).json()).toEqual([]);
  });

  test.each<[object, number, RegExp]>([
    [
      {
        beds: [
          { bed: 'box-9', block: 'a' },
          { bed: 'box-1', block: 'a' },
        ],
      },
      404,
      /no bed has the id "box-9"/,
    ],
    [{ at: day(100) }, 409, /expected a time that has come/],
    [{ supersedes: uuid(9), reason: 'wrong' }, 409, /which is none/],
  ])('%j', async (change, status, sentence) => {
    const { post } = await open();
    expect(problemOfAnswer(await post('/api/trials', trialBody(1, change)), status).detail).toMatch(sentence);
  });

  test('where one is there, under its id, its version, or with its beds', async () => {
    const { post } = await open();
    await post('/api/trials', trialBody(1));
    const detail = async (change: object, id = 2) =>
      problemOfAnswer(await post('/api/trials', trialBody(id, change)), 409).detail;
    expect(await detail({})).toMatch(/expected an id that is not in use.*"sand-one"/);
    expect(await detail({ name: 'Another' }, 1)).toMatch(/another one under/);
    expect(await detail({ supersedes: uuid(9), reason: 'old' })).toMatch(
      /expected the version of trial "sand-one" that stands/,
    );
    expect(await detail({ trial: 'sand-two' })).toMatch(
      /bed "box-1": expected it in one trial at a time, got it in trial "sand-one"/,
    );
    expect(
      (await post('/api/trials', trialBody(3, { trial: 'sand-two', from: day(-400), to: day(-300) })))
        .statusCode,
    ).toBe(201);
  });

  test('a second draw: who draws until it pleases does not draw by chance', async () => {
    const { post, get } = await open();
    await post('/api/trials', trialBody(1));
    await post(`${one}/assignment`, drawing(2));
    expect(problemOfAnswer(await post(`${one}/assignment`, drawing(3, { seed: 8 })), 409).detail).toMatch(
      /drawn with seed 7/,
    );
    expect(problemOfAnswer(await post(`${one}/assignment`, drawing(2, { seed: 8 })), 409).detail).toMatch(
      /another one under/,
    );
    const again = trialBody(4, { supersedes: uuid(2), reason: 'again' });
    expect(problemOfAnswer(await post('/api/trials', again), 409).detail).toMatch(
      /treatments are not drawn again/,
    );
    expect((await get(`${one}/versions`)).json()).toHaveLength(2);
  });

  test('a draw of beds that cannot be shared out evenly', async () => {
    const { post, get } = await open();
    await post('/api/trials', trialBody(1, { beds: beds.slice(0, 5) }));
    expect(problemOfAnswer(await post(`${one}/assignment`, drawing(2)), 422).detail).toMatch(
      /block "row 3": expected a multiple of the 2/,
    );
    expect((await get(one)).json().assigned).toBeNull();
  });

  test('one that is none', async () => {
    const { get } = await open();
    for (const part of ['', '/versions', '/result', '/curves'])
      expect(problemOfAnswer(await get(`/api/trials/none${part}`), 404).detail).toMatch(
        /no trial has the id "none"/,
      );
  });

  test('a result before treatments, a curve of nothing', async () => {
    const { post, get } = await open();
    await post('/api/trials', trialBody(1));
    expect(problemOfAnswer(await get(`${one}/result`), 409).detail).toMatch(/draw them first/);
    expect(placesOf(problemOfAnswer(await get(`${one}/curves?of=taste`), 400))).toEqual(['of']);
    expect((await get(`${one}/curves`)).json().treatments).toEqual([]);
  });
});
