/** A draw that is shown before it is in force, and what is done to beds in words. */
import { describe, expect, test } from 'vitest';
import { drawing, trialBody, trialSite } from '../support/a-trial.js';
import { day, ledgerApp, uuid } from '../support/ledger.js';
import { placesOf, problemOfAnswer } from './answers.js';

const one = '/api/trials/sand-one';

const shown = (last: number, change: object = {}) => ({
  ...{ id: uuid(last), at: day(0), by: 'Amina' },
  ...change,
});

async function written() {
  const app = await ledgerApp({ site: trialSite() });
  await app.post('/api/trials', trialBody(1));
  const draw = (last: number, change: object = {}) => app.post(`${one}/draw`, shown(last, change));
  const assign = (last: number, change: object = {}) => app.post(`${one}/assignment`, drawing(last, change));
  const correct = (last: number, change: object) =>
    app.post('/api/trials', trialBody(last, { reason: 'mistake', ...change }));
  return { ...app, draw, assign, correct };
}

describe('a draw', () => {
  test('is shown with its seed before any bed has its treatment, and what was shown comes in force', async () => {
    const { get, draw, assign } = await written();
    const first = await draw(2);
    expect(first.statusCode).toBe(201);
    const { drawn, assigned, beds } = first.json();
    expect([assigned, drawn.by, drawn.at]).toEqual([null, 'Amina', day(0)]);
    expect(beds.map(({ treatment }: { treatment: null }) => treatment)).toEqual(Array(6).fill(null));
    const inForce = (await assign(3, { seed: undefined })).json();
    expect(inForce).toMatchObject({
      assigned: { how: 'chance', seed: drawn.seed, by: 'Wanja' },
      ...{ beds: drawn.beds, drawn: null },
    });
    const other = await written();
    expect((await other.assign(4, { seed: drawn.seed })).json().beds).toEqual(drawn.beds);
    expect((await get(`${one}/versions`)).json()).toHaveLength(3);
  });

  test('stays the only one: asked again the same is shown, also where only words were corrected', async () => {
    const { draw, correct, assign } = await written();
    const { drawn } = (await draw(2)).json();
    const again = await draw(3);
    expect([again.statusCode, again.json().version, again.json().drawn]).toEqual([200, uuid(2), drawn]);
    expect((await draw(2)).statusCode).toBe(200);
    const renamed = (await correct(4, { supersedes: uuid(2), name: 'Sand' })).json();
    expect([renamed.drawn, (await draw(5)).json().drawn]).toEqual([drawn, drawn]);
    const detail = problemOfAnswer(await assign(6, { seed: (drawn.seed + 1) % 1000 }), 409).detail;
    expect(detail).toMatch(/seed: expected \d+, by which treatments were drawn and shown/);
  });

  test('falls where other beds take part, and the report says that it was seen', async () => {
    const { get, draw, assign, correct } = await written();
    const { drawn } = (await draw(2)).json();
    const beds = trialBody(1).beds.slice(0, 4);
    expect((await correct(3, { supersedes: uuid(2), beds })).json().drawn).toBeNull();
    const next = (await draw(4)).json().drawn;
    expect(next.beds).toHaveLength(4);
    const { version } = (await assign(5, { seed: next.seed })).json();
    const rows = (await get(`${one}/report?format=json`))
      .json()
      .sections.find(({ heading }: { heading: string }) => heading === 'To do it again').rows;
    const untaken = rows.filter(([head]: string[]) => head === 'Drawn, seen and not taken');
    expect([version, untaken.length, untaken[0][1]]).toEqual([
      ...[uuid(5), 1],
      expect.stringMatching(new RegExp(`^seed ${drawn.seed}, .*, Amina$`)),
    ]);
  });

  test('is none where treatments are given by hand after it', async () => {
    const { draw, correct } = await written();
    await draw(2);
    const beds = trialBody(1).beds.map((bed, at) => ({ ...bed, treatment: at % 2 ? 'fine' : 'coarse' }));
    const given = (await correct(3, { supersedes: uuid(2), beds })).json();
    expect([given.assigned.how, given.drawn]).toEqual(['hand', null]);
    expect(problemOfAnswer(await draw(4), 409).detail).toMatch(/whose treatments were given by hand/);
  });

  test('is refused once treatments are in force, of beds that cannot be shared out, of no trial', async () => {
    const { get, post, draw, assign, correct } = await written();
    await correct(2, { supersedes: uuid(1), beds: trialBody(1).beds.slice(0, 5) });
    expect(problemOfAnswer(await draw(3), 422).detail).toMatch(/block "row 3": expected a multiple of the 2/);
    await correct(4, { supersedes: uuid(2) });
    await assign(5);
    expect(problemOfAnswer(await draw(6), 409).detail).toMatch(/drawn with seed 7/);
    expect(problemOfAnswer(await draw(5), 409).detail).toMatch(/another one under/);
    problemOfAnswer(await post('/api/trials/none/draw', shown(7)), 404);
    expect((await get(`${one}/versions`)).json()).toHaveLength(4);
  });

  test.each<[object, string]>([
    [{ seed: 7 }, '#/seed'],
    [{ by: ' ' }, '#/by'],
    [{ at: 'today' }, '#/at'],
  ])('is refused with %j', async (change, place) => {
    const { draw } = await written();
    expect(placesOf(problemOfAnswer(await draw(2, change), 400))).toEqual([place]);
  });

  test('that has not come is refused, and the same id for another deed', async () => {
    const { draw, assign } = await written();
    problemOfAnswer(await draw(2, { at: day(100) }), 409);
    await draw(3);
    for (const change of [{ by: 'Otieno' }, { at: day(-1) }])
      expect(problemOfAnswer(await draw(3, change), 409).detail).toMatch(/another one under/);
    problemOfAnswer(await assign(3, { by: 'Amina', seed: undefined }), 409);
    problemOfAnswer(await draw(1), 409);
  });
});

describe('what is done to the beds of a treatment', () => {
  const described = { fine: 'River sand, sieved at 1 mm.', coarse: 'The same, 1 to 4 mm.' };

  test('is kept, sent twice once, and stands in the report', async () => {
    const { get, correct, assign, post } = await written();
    expect((await get(one)).json().described).toEqual({});
    const change = { supersedes: uuid(1), reason: 'mistake', described };
    expect((await correct(2, change)).json().described).toEqual(described);
    expect((await post('/api/trials', trialBody(2, change))).statusCode).toBe(200);
    await assign(3);
    expect((await get(`${one}/report?format=html`)).body).toContain(
      '<tr><th scope="row">coarse</th><td>The same, 1 to 4 mm.</td></tr>',
    );
  });

  test.each<[object, string]>([
    [{ mixed: 'Both.' }, '#/described/mixed'],
    [{ fine: ' ' }, '#/described/fine'],
    [{ fine: 1 }, '#/described/fine'],
  ])('%j is refused', async (wrong, place) => {
    const { correct } = await written();
    const answer = await correct(2, { supersedes: uuid(1), described: wrong });
    expect(placesOf(problemOfAnswer(answer, 400))).toEqual([place]);
  });
});
