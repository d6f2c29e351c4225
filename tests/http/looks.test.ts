/** Inspections, records that were written down elsewhere, and looks that are due, over a real station. */
import { describe, expect, test } from 'vitest';
import { FOOD_CAUTION } from '../../services/core/alarms/cautions.js';
import {
  day,
  entry,
  FILLED_AT,
  filling,
  type LedgerApp,
  ledgerApp,
  ledgerSite,
  look,
  uuid,
} from '../support/ledger.js';
import { placesOf, problemOfAnswer } from './answers.js';

const URL = '/api/beds/pit-t/inspections';
const filledApp = async (): Promise<LedgerApp> => {
  const app = await ledgerApp({ site: ledgerSite({ filled: day(0) }) });
  app.goTo(10);
  return app;
};

function raise(app: LedgerApp, id: string, kind: 'heating' | 'inspection-due', days: number): void {
  const raisedAt = FILLED_AT + days * 86_400_000;
  const action = kind === 'heating' ? 'unpack' : 'check';
  app.registry.alarms.put(
    id,
    'test-ridge',
    {
      ...{ bed: 'pit-t', kind, action, priority: 'high', subject: '', raisedAt, clearedAt: null },
      evidence: {},
      place: null,
    },
    'too warm',
  );
}

describe('an inspection', () => {
  test('keeps what hands, nose and counts said, with the advice and cautions that follow', async () => {
    const app = await filledApp();
    const told = {
      ...{
        warmByHand: 'warm',
        smell: 'musty',
        sandFeels: 'damp',
        looked: 50,
        rotten: 1,
        weevil: 2,
        rodent: 1,
      },
      ...{ termite: 0, sproutsShort: 3, sproutsLong: 1, did: 'took out the worst', photos: ['a.jpg'] },
      found: ['rot', 'damp', 'sprouts', 'weevils'],
    };
    const answer = await app.post(URL, look(1, told));
    expect(answer.statusCode).toBe(201);
    const inspected = answer.json();
    expect(inspected).toMatchObject({
      ...look(1, told),
      bed: 'pit-t',
      isNew: true,
      left: null,
      ended: [],
      judged: true,
    });
    const about = inspected.advice.map((one: { about: string }) => one.about);
    expect(new Set(about)).toEqual(
      new Set(['unpack', 'digging', 'rot', 'weevils', 'mould', 'damp', 'sprouts', 'rodents', 'not-thrown']),
    );
    for (const { source } of inspected.advice) expect(source.length).toBeGreaterThan(5);
    expect(inspected.cautions.join(' ')).toMatch(/baits and poisons.*|extension officer/);
    expect((await app.get(URL)).json()).toEqual([{ ...look(1, told), bed: 'pit-t' }]);
    expect((await app.get('/api/beds/pit-t')).json().latestInspection).toMatchObject(told);
  });

  test('that only says rot comes with the caution all the same', async () => {
    const app = await filledApp();
    expect((await app.post(URL, look(1, { found: ['rot'] }))).json().cautions).toContain(FOOD_CAUTION);
    expect((await app.post(URL, look(2))).json().cautions).not.toContain(FOOD_CAUTION);
  });

  test('sent twice is one, without an id each is its own, and other content under an id is refused', async () => {
    const app = await filledApp();
    await app.post(URL, look(1));
    expect((await app.post(URL, look(1))).statusCode).toBe(200);
    problemOfAnswer(await app.post(URL, look(1, { found: ['rot'] })), 409);
    problemOfAnswer(await app.post('/api/beds/box-t/inspections', look(1)), 409);
    await app.post(URL, look(2, { id: undefined }));
    await app.post(URL, look(2, { id: undefined }));
    expect((await app.get(URL)).json()).toHaveLength(3);
  });

  test.each<[string, object, string[]]>([
    ['counts without what was looked at', { rotten: 1, found: ['rot'] }, ['#/looked']],
    ['more rotten than looked at', { looked: 3, rotten: 4, found: ['rot'] }, ['#/rotten']],
    [
      'rotten roots that were eaten',
      { looked: 3, out: [{ reason: 'eaten', roots: 1, were: 'rotten' }] },
      ['#/out/0/reason'],
    ],
    ['rot that was counted and not found', { looked: 3, rotten: 1 }, ['#/found']],
    ['roots out of a closed bed', { opened: false, out: [{ reason: 'sold', roots: 1 }] }, ['#/opened']],
    ['a warmth that is none', { warmByHand: 'tepid' }, ['#/warmByHand']],
    ['a picture in a folder', { photos: ['../a.jpg'] }, ['#/photos/0']],
    ['an id that is none', { id: 'x' }, ['#/id']],
  ])('%s: refused by place', async (_, change, places) => {
    const app = await filledApp();
    expect(placesOf(problemOfAnswer(await app.post(URL, look(1, change)), 400))).toEqual(places);
    expect((await app.get(URL)).json()).toEqual([]);
  });

  test('before the bed was filled, or to come, is refused', async () => {
    const app = await filledApp();
    problemOfAnswer(await app.post(URL, look(1, { at: day(-1) })), 409);
    problemOfAnswer(await app.post(URL, look(1, { at: day(11) })), 409);
  });

  test('of the season before a filling that was written down is taken in late', async () => {
    const app = await filledApp();
    app.goTo(200);
    await app.post('/api/beds/pit-t/fillings', filling(9, { at: day(199) }));
    expect((await app.post(URL, look(1))).statusCode).toBe(201);
    problemOfAnswer(await app.post(URL, look(2, { at: day(-1) })), 409);
  });

  test('answers open alarms: they are acknowledged, and say whether they were right', async () => {
    const app = await filledApp();
    raise(app, 'before', 'heating', 4);
    raise(app, 'after', 'heating', 6);
    const { alarms } = (await app.post(URL, look(2, { found: ['rot'], by: 'Otieno' }))).json();
    expect(alarms).toMatchObject([
      {
        ...{ id: 'before', state: 'acknowledged', acknowledgement: { by: 'Otieno' } },
        foundOut: { verdict: 'right', lookedAt: day(5) },
      },
    ]);
    expect(app.registry.alarms.get('after')?.acknowledgement).toBeNull();
  });

  test('of a bed that was not opened acknowledges nothing; the first acknowledgement stands', async () => {
    const closed = await filledApp();
    raise(closed, 'hot', 'heating', 4);
    const { alarms } = (await closed.post(URL, look(1, { opened: false }))).json();
    expect(alarms).toMatchObject([{ id: 'hot', state: 'unacknowledged' }]);
    const known = await filledApp();
    raise(known, 'hot', 'heating', 4);
    known.registry.alarms.acknowledge('hot', { by: 'Amina', note: '', at: 1 });
    await known.post(URL, look(1));
    expect(known.registry.alarms.get('hot')?.acknowledgement?.by).toBe('Amina');
  });

  test('are listed newest first, page by page', async () => {
    const app = await filledApp();
    for (const last of [1, 2, 3, 4, 5]) await app.post(URL, look(last, { at: day(last === 5 ? 4 : last) }));
    const seen: string[] = [];
    let url: string | undefined = `${URL}?limit=2`;
    while (url !== undefined) {
      const page = await app.get(url);
      seen.push(...page.json().map(({ id }: { id: string }) => id));
      url = /^<(.*)>; rel="next"$/.exec(String(page.headers.link ?? ''))?.[1];
    }
    expect(seen).toEqual([5, 4, 3, 2, 1].map(uuid));
    problemOfAnswer(await app.get(`${URL}?after=${uuid(9)}`), 404);
    problemOfAnswer(await app.get(`${URL}?limit=501`), 400);
    problemOfAnswer(await app.get('/api/beds/pit-z/inspections'), 404);
  });
});

describe('records that were written down elsewhere', () => {
  const RECORDS = '/api/beds/pit-t/records';
  const body = {
    stock: [entry(3, { roots: 5 })],
    inspections: [look(2, { looked: 9, out: [{ reason: 'sold', roots: 4 }] })],
    fillings: [filling(1)],
  };

  test('are taken in together, whatever order they are given in, and once', async () => {
    const app = await ledgerApp();
    app.goTo(10);
    const first = (await app.post(RECORDS, body)).json();
    expect(first).toMatchObject({
      left: 341,
      fillings: [{ isNew: true }],
      inspections: [{ isNew: true }],
      stock: [{ isNew: true }],
    });
    const again = (await app.post(RECORDS, body)).json();
    expect(again).toMatchObject({
      left: 341,
      fillings: [{ isNew: false }],
      inspections: [{ isNew: false }],
      stock: [{ isNew: false }],
    });
    expect((await app.get('/api/beds/pit-t')).json().filled).toBe(day(0));
    expect(app.reported).toEqual([]);
  });

  test('all or none: one that is refused keeps all out', async () => {
    const app = await ledgerApp();
    app.goTo(10);
    problemOfAnswer(await app.post(RECORDS, { ...body, stock: [entry(3, { roots: 9000 })] }), 409);
    problemOfAnswer(await app.post(RECORDS, { ...body, inspections: [look(2, { at: day(30) })] }), 409);
    expect((await app.get('/api/beds/pit-t')).json().filled).toBeNull();
    for (const part of ['fillings', 'inspections'])
      expect((await app.get(`/api/beds/pit-t/${part}`)).json()).toEqual([]);
    expect((await app.get('/api/beds/pit-t/stock')).json().left).toBeNull();
  });

  test('none, too many, or of a bed that is not known', async () => {
    const app = await ledgerApp();
    problemOfAnswer(await app.post(RECORDS, {}), 400);
    const many = Array.from({ length: 500 }, (_, n) => entry(n));
    problemOfAnswer(await app.post(RECORDS, { ...body, stock: many }), 400);
    problemOfAnswer(await app.post('/api/beds/pit-z/records', body), 404);
  });
});

describe('looks that are due', () => {
  const looks = async (app: LedgerApp) => (await app.get('/api/looks')).json();

  test('by rule after the filling, and after a look that opened the bed', async () => {
    const app = await filledApp();
    expect(await looks(app)).toMatchObject([
      { bed: 'pit-t', due: false, dueAt: day(14), reasons: [{ by: 'rule' }] },
      { bed: 'box-t', due: false, dueAt: null, reasons: [] },
    ]);
    app.goTo(15);
    expect((await looks(app))[0]).toMatchObject({ due: true, dueAt: day(14), lookedAt: null });
    await app.post(URL, look(1, { at: day(14.5), opened: false }));
    expect((await looks(app))[0].due).toBe(true);
    await app.post(URL, look(2, { at: day(14.6) }));
    expect((await looks(app))[0]).toMatchObject({ due: false, lookedAt: day(14.6), dueAt: day(28.6) });
  });

  test('by an open alarm, with its text; none of an empty bed', async () => {
    const app = await filledApp();
    raise(app, 'hot', 'heating', 4);
    expect((await looks(app))[0]).toMatchObject({
      due: true,
      dueAt: day(4),
      reasons: [{ by: 'unpack', alarm: 'hot', text: 'too warm' }, {}],
    });
    const empty = await filledApp();
    await empty.post('/api/beds/pit-t/stock', [entry(1, { kind: 'in', reason: 'filled' }), entry(2)]);
    empty.goTo(90);
    expect(await looks(empty)).toMatchObject([{ due: false, dueAt: null }, { due: false }]);
  });
});
