import { describe, expect, test } from 'vitest';
import { FOOD_CAUTION } from '../../services/core/alarms/cautions.js';
import { DAY_ms } from '../../services/core/model/time.js';
import { day, FILLED_AT, filling, ledgerApp, ledgerSite, uuid } from '../support/ledger.js';
import { placesOf, problemOfAnswer } from './answers.js';

const URL = '/api/beds/pit-t/fillings';
const buried = (probe = 'p01', depth = 30) => ({ probe, x: 75, y: 40, depth });

describe('a filling', () => {
  test('is kept, fills the bed for the watch, and says what its probes should show', async () => {
    const app = await ledgerApp();
    const body = filling(1, {
      mass_kg: 95,
      cultivar: 'orange, early',
      probes: [buried('p01', 8), buried('p02')],
    });
    const answer = await app.post(URL, body);
    expect(answer.statusCode).toBe(201);
    const filled = answer.json();
    expect(filled).toMatchObject({
      id: uuid(1),
      roots: 350,
      mass_kg: 95,
      inForce: true,
      isNew: true,
      notes: [],
    });
    expect(filled.probes).toHaveLength(2);
    expect(filled.probes[0].share.likely).toBeGreaterThan(filled.probes[1].share.likely);
    expect(filled.probes[0].text).toMatch(/^p01: 8 cm deep it should show \d+ % /);
    expect(filled.cautions).toContain(FOOD_CAUTION);
    const bed = (await app.get('/api/beds/pit-t')).json();
    expect(bed).toMatchObject({ filled: day(0), roots: { count: 350, mass_kg: 95 } });
    expect(bed.probes.map(({ id, depth }: { id: string; depth: number }) => [id, depth])).toEqual([
      ['p01', 8],
      ['p02', 30],
    ]);
    expect((await app.get(URL)).json()).toMatchObject([
      { id: uuid(1), cultivar: 'orange, early', inForce: true },
    ]);
    expect(app.followed).toEqual({ woken: 1, planned: 0, kicked: 1 });
    expect(app.reported).toEqual([]);
  });

  test('that is sent twice is one; with other content under its id it is refused', async () => {
    const app = await ledgerApp();
    const body = filling(1, { probes: [buried()] });
    await app.post(URL, body);
    const again = await app.post(URL, body);
    expect([again.statusCode, again.json().isNew]).toEqual([200, false]);
    problemOfAnswer(await app.post(URL, { ...body, by: 'Otieno' }), 409);
    problemOfAnswer(await app.post('/api/beds/box-t/fillings', { ...body, probes: [] }), 409);
    expect((await app.get(URL)).json()).toHaveLength(1);
    expect((await app.get('/api/beds/pit-t/stock')).json()).toMatchObject({
      left: 350,
      entries: [{ origin: uuid(1) }],
    });
    expect(app.registry.sites.descriptions()[0]?.probes[0]?.placements).toHaveLength(1);
  });

  test.each<[string, number, object, string | RegExp]>([
    ['outside the bed', 400, { probes: [buried('p01', 60)] }, /point inside the bed/],
    ['of a strange probe', 400, { probes: [buried('p77')] }, /probes\[0\]\.probe: expected a probe of site/],
    ['with a probe twice', 400, { probes: [buried(), buried('p01', 20)] }, /each probe once/],
    ['of roots like stones', 400, { mass_kg: 9000 }, /kg a root/],
    ['in the future', 409, { at: day(2) }, /expected a time that has come/],
    ['that supersedes nothing', 404, { supersedes: uuid(9) }, /no filling of bed/],
    ['without an id', 400, { id: undefined }, '#/id'],
    ['without a course', 400, { courses: [] }, '#/courses'],
    ['of another bed', 400, { bed: 'box-t' }, '#/bed'],
  ])('%s is refused, and nothing is kept', async (_, status, change, said) => {
    const app = await ledgerApp();
    const problem = problemOfAnswer(await app.post(URL, filling(1, change)), status);
    if (typeof said === 'string') expect(placesOf(problem)).toEqual([said]);
    else expect(problem.detail).toMatch(said);
    expect((await app.get(URL)).json()).toEqual([]);
    expect((await app.get('/api/beds/pit-t')).json().filled).toBeNull();
    expect((await app.get('/api/beds/pit-t/stock')).json().left).toBeNull();
  });

  test('of a bed that is not known is 404', async () => {
    const app = await ledgerApp();
    problemOfAnswer(await app.post('/api/beds/pit-z/fillings', filling(1)), 404);
    problemOfAnswer(await app.get('/api/beds/pit-z/fillings'), 404);
    problemOfAnswer(await app.get('/api/beds/pit-z/depths'), 404);
  });
});

describe('a filling that was written down wrongly', () => {
  test('is superseded: bed, probes and stock follow the new one, and the old stays to be read', async () => {
    const app = await ledgerApp();
    app.goTo(12);
    await app.post(URL, filling(1, { at: day(10), probes: [buried('p01', 20)] }));
    const right = filling(2, { courses: [{ roots: 120 }], probes: [buried('p01', 30)], supersedes: uuid(1) });
    expect((await app.post(URL, right)).json()).toMatchObject({ inForce: true, notes: [] });
    expect((await app.get('/api/beds/pit-t')).json()).toMatchObject({
      ...{ filled: day(0), roots: { count: 120 }, probes: [{ id: 'p01', depth: 30 }] },
    });
    expect((await app.get('/api/beds/pit-t/stock')).json()).toMatchObject({
      left: 120,
      in: [{ roots: 120 }],
    });
    expect((await app.get(URL)).json().map((one: { inForce: boolean }) => one.inForce)).toEqual([
      false,
      true,
    ]);
    problemOfAnswer(await app.post(URL, filling(3, { supersedes: uuid(1) })), 409);
  });

  test('cannot be superseded by fewer roots than came out since', async () => {
    const app = await ledgerApp();
    await app.post(URL, filling(1));
    await app.post('/api/beds/pit-t/stock', {
      ...{ id: uuid(5), at: day(0.5), by: 'W', kind: 'out', reason: 'sold', roots: 300 },
    });
    const fewer = filling(2, { courses: [{ roots: 250 }], supersedes: uuid(1) });
    expect(problemOfAnswer(await app.post(URL, fewer), 409).detail).toMatch(/250 roots that were there/);
    expect((await app.get('/api/beds/pit-t')).json().roots).toEqual({ count: 350 });
  });
});

describe('a description that is loaded after the filling', () => {
  const plan = [{ bed: 'pit-t', x: 10, y: 20, depth: 10, from: day(0.2) }];

  test('does not undo it where it is older: the plan of the filling gives way', async () => {
    const app = await ledgerApp();
    await app.post(URL, filling(1, { probes: [buried()] }));
    const site = ledgerSite({ filled: day(0.2), roots: { count: 400 } }, plan);
    expect(app.load(site).filledOtherwise).toEqual([{ bed: 'pit-t', at: FILLED_AT }]);
    app.station.refresh();
    expect((await app.get('/api/beds/pit-t')).json()).toMatchObject({
      ...{ filled: day(0), roots: { count: 350 }, probes: [{ id: 'p01', depth: 30 }] },
    });
    expect(app.load(site).counts).toMatchObject({ bed: { same: 2 }, probe: { same: 3 } });
  });

  test('tells of a later filling, or of a probe that was moved later: that stands', async () => {
    const app = await ledgerApp();
    app.goTo(200);
    await app.post(URL, filling(1, { probes: [buried()] }));
    const moved = [...plan, { bed: 'box-t', x: 5, y: 5, depth: 5, from: day(9) }];
    app.load(ledgerSite({ filled: day(190), roots: { count: 20 } }, moved));
    app.station.refresh();
    expect((await app.get('/api/beds/pit-t')).json()).toMatchObject({
      filled: day(190),
      roots: { count: 20 },
    });
    expect(app.registry.sites.descriptions()[0]?.probes[0]?.placements).toMatchObject([
      { bed: 'pit-t', depth: 30, from: FILLED_AT },
      { bed: 'box-t', depth: 5, from: FILLED_AT + 9 * DAY_ms },
    ]);
    const late = filling(2, { at: day(100) });
    expect((await app.post(URL, late)).json().notes[0]).toMatch(/says that the bed was filled later/);
  });

  test('is refused where the bed no longer holds what was buried in it', async () => {
    const app = await ledgerApp();
    await app.post(URL, filling(1, { probes: [buried()] }));
    const flat = { steps: [{ length: 150, width: 100, height: 20 }] };
    expect(() => app.load(ledgerSite(flat))).toThrow(/probe "p01", as it was buried at a filling/);
  });
});

test('a probe that lay elsewhere by the description ends there with the filling', async () => {
  const lay = [{ bed: 'box-t', x: 5, y: 5, depth: 5, from: day(-20), to: day(30) }];
  const app = await ledgerApp({ site: ledgerSite({}, lay) });
  await app.post(URL, filling(1, { probes: [buried()] }));
  expect(app.registry.sites.descriptions()[0]?.probes[0]?.placements).toMatchObject([
    { bed: 'box-t', to: FILLED_AT },
    { bed: 'pit-t', from: FILLED_AT },
  ]);
});

test('filling a bed that is not empty by its ledger says so', async () => {
  const app = await ledgerApp();
  await app.post(URL, filling(1));
  app.goTo(200);
  const answer = await app.post(URL, filling(2, { at: day(199) }));
  expect(answer.json().notes).toEqual([
    expect.stringMatching(/^by the ledger 350 roots were in the bed already/),
  ]);
});

test('more roots than a bed has room for are asked about', async () => {
  const app = await ledgerApp();
  const many = await app.post(URL, filling(1, { courses: [{ roots: 5000 }] }));
  expect(many.json().notes).toEqual([
    expect.stringMatching(/^5000 roots of about 1500 kg do not go into 600 L, not even without sand/),
  ]);
  const full = await app.post(URL, filling(2, { supersedes: uuid(1), courses: [{ roots: 1280 }] }));
  expect(full.json().notes).toEqual([]);
});

test('a probe that stood in the shade, or in another bed, is asked about', async () => {
  const lay = [{ bed: 'box-t', x: 5, y: 5, depth: 5, from: day(-20) }];
  const app = await ledgerApp({ site: ledgerSite({}, lay) });
  const probes = [buried(), buried('p09')];
  const answer = await app.post(URL, filling(1, { probes }));
  expect(answer.json().notes.slice(0, 2)).toEqual([
    'p01 lay in bed "box-t" until now: look whether it is the right probe',
    'p09 stood in the shade outside until now: look whether it is the right probe',
  ]);
  const again = await app.post(URL, filling(1, { probes }));
  expect(again.json().notes.join()).not.toMatch(/until now/);
});

test('how deep the probes of a bed lie is asked of the bed, or of the filling', async () => {
  const app = await ledgerApp();
  expect((await app.get('/api/beds/pit-t/depths')).json()).toEqual([]);
  await app.post(URL, filling(1, { probes: [buried()] }));
  const now = (await app.get('/api/beds/pit-t/depths')).json();
  expect(now).toMatchObject([
    { ...buried(), verdict: 'cannot tell', share: null, lies: null, judgedFrom: day(1 / 24) },
  ]);
  expect(now[0].text).toMatch(/^p01 cannot be told yet: of the first 48 hours 0 have readings/);
  expect((await app.get(`${URL}/${uuid(1)}/probes`)).json()).toEqual(now);
  problemOfAnswer(await app.get(`${URL}/${uuid(9)}/probes`), 404);
});
