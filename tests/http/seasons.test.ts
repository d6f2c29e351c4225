import { describe, expect, test } from 'vitest';
import { keptSeason } from '../support/kept-season.js';
import { day, entry, filling, ledgerApp, look } from '../support/ledger.js';
import { pageContents, textOfPdf } from '../support/pdf-text.js';
import { placesOf, problemOfAnswer } from './answers.js';

const pit = '/api/beds/pit-t/season';

describe('GET season', () => {
  test('gives what went in, came out, was lost, how warm it was', async () => {
    const { get, reported } = await keptSeason();
    const answer = await get(pit);
    expect(answer.statusCode).toBe(200);
    const { title, to, beds } = answer.json();
    expect([title, to]).toEqual(['Season of Pit T', day(60)]);
    expect(beds).toEqual([
      expect.objectContaining({
        ...{
          bed: 'pit-t',
          name: 'Pit T',
          filledAt: day(0),
          cultivar: 'Orange one',
          field: 'Upper field',
          lot: 'L7',
        },
        ...{ filled: 350, filledMass_kg: 105, filledBy: 'ledger', left: 250, kept_days: 60, emptied: false },
        ...{ opened: 2, sprouts: null },
        in: [{ reason: 'filled', roots: 350, mass_kg: 105 }],
        out: [
          { reason: 'eaten', roots: 44, mass_kg: null },
          { reason: 'sold', roots: 50, mass_kg: null },
          { reason: 'thrown', roots: 6, mass_kg: null },
        ],
        warmth: {
          mean_C: 22,
          coldest_C: 22,
          warmest_C: 22,
          measured: expect.any(Number),
          quickRot: expect.any(Number),
        },
      }),
    ]);
    // 48 of 50 were not lost, then 56 of 60 of roots that nobody had sorted between.
    expect(beds[0].notLost.share).toBeCloseTo(56 / 60, 6);
    expect(beds[0].notLost.low).toBeLessThan(beds[0].notLost.share);
    expect(beds[0].losses.map(({ cause }: { cause: string }) => cause)).toEqual(['rot', 'weevils']);
    expect(reported).toEqual([]);
  });

  test('up to an earlier time is the report of then, and of an earlier season', async () => {
    const { get, post, goTo } = await keptSeason();
    expect((await get(`${pit}?to=${day(29)}`)).json().beds[0]).toMatchObject({ left: 344, kept_days: 29 });
    await post('/api/beds/pit-t/stock', entry(20, { at: day(70), roots: 250 }));
    goTo(200);
    await post('/api/beds/pit-t/stock', entry(20, { at: day(70), roots: 250 }));
    await post('/api/beds/pit-t/fillings', filling(21, { at: day(150), courses: [{ roots: 80 }] }));
    expect((await get(pit)).json().beds[0]).toMatchObject({
      filledAt: day(150),
      filled: 80,
      left: 80,
      out: [],
    });
    expect((await get(`${pit}?to=${day(100)}`)).json().beds[0]).toMatchObject({
      ...{ filledAt: day(0), filled: 350, left: 0, emptied: true, kept_days: 70 },
    });
  });

  test('of a bed that was described as filled alone gives its roots as described, and what is not known', async () => {
    const { get, load, station } = await keptSeason();
    const site = { version: 1, site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' } };
    load({
      ...site,
      beds: [
        {
          id: 'box-t',
          name: 'Box T',
          kind: 'box',
          filled: day(5),
          roots: { count: 250 },
          steps: [{ length: 90, width: 60, height: 60 }],
        },
      ],
    });
    station.refresh();
    expect((await get('/api/beds/box-t/season')).json().beds[0]).toMatchObject({
      ...{ filled: 250, filledMass_kg: null, filledBy: 'description', left: null, notLost: null },
      ...{ opened: 0, sprouts: null },
    });
    const page = (await get('/api/beds/box-t/season.html')).body;
    expect(page).toMatch(/<td>250 \(as the bed is described\), not known<\/td>/);
    expect(page).toContain('not known: nobody wrote down what went in or came out');
    expect(page).toContain('not known: nobody looked into the bed');
    const file = textOfPdf((await get('/api/beds/box-t/season.pdf')).rawPayload);
    expect(file).toContain('not known: nobody looked into the bed');
  });
});

describe('the printed season', () => {
  test('is a page without scripts, with what somebody entered escaped', async () => {
    const { get, post } = await ledgerApp();
    await post('/api/beds/pit-t/fillings', filling(1, { cultivar: '<b>Orange</b> & "sweet"' }));
    const answer = await get(`${pit}.html`);
    expect(answer.headers['content-type']).toBe('text/html; charset=utf-8');
    expect(answer.headers['content-security-policy']).toBe("default-src 'none'; style-src 'unsafe-inline'");
    expect(answer.body).toContain('<h1>Season of Pit T</h1>');
    expect(answer.body).toContain('&lt;b&gt;Orange&lt;/b&gt; &amp;');
    expect(answer.body).not.toMatch(/<script|<b>/);
  });

  test('is a PDF of one page for one bed, with the same text', async () => {
    const { get } = await keptSeason();
    const answer = await get(`${pit}.pdf`);
    expect(answer.headers['content-type']).toBe('application/pdf');
    expect(answer.headers['content-disposition']).toBe('inline; filename="season-pit-t.pdf"');
    const text = textOfPdf(answer.rawPayload);
    for (const part of ['Season of Pit T', 'Orange one', 'thrown away', 'left in the bed'])
      expect(text).toContain(part);
    expect(pageContents(answer.rawPayload)).toHaveLength(1);
    expect((await get(`${pit}.pdf`)).rawPayload.equals(answer.rawPayload)).toBe(true);
  });

  test('stays on one page however many looks and alarms there were', async () => {
    const { get, post, goTo, database } = await keptSeason();
    goTo(170);
    for (let number = 0; number < 20; number += 1) {
      const found = { looked: 40, rotten: 3, weevil: 2, rodent: 1, termite: 1 };
      const body = look(100 + number, { at: day(50 + 5 * number), found: ['rot', 'weevils'], ...found });
      expect((await post('/api/beds/pit-t/inspections', body)).statusCode).toBeLessThan(300);
    }
    const add = database.prepare(
      `INSERT INTO alarm (id, site, bed, kind, action, priority, raised_at, cleared_at, evidence, text)
       VALUES (?, 'test-ridge', 'pit-t', 'heating', 'unpack', 'high', ?, ?, '{}', 'text')`,
    );
    for (let at = 0; at < 30; at += 1)
      add.run(`warm-${at}`, Date.parse(day(10 + at)), Date.parse(day(11 + at)));
    const answer = await get(`${pit}.pdf`);
    expect(pageContents(answer.rawPayload)).toHaveLength(1);
    expect(textOfPdf(answer.rawPayload)).toContain('look after them found, the 3 most urgent of 30');
  });

  test('holds beds side by side, in the order asked for', async () => {
    const { get, post } = await keptSeason();
    await post('/api/beds/box-t/fillings', filling(30, { at: day(10), courses: [{ roots: 40 }] }));
    const figures = (await get('/api/seasons?beds=box-t,pit-t')).json();
    expect(figures.beds.map(({ bed }: { bed: string }) => bed)).toEqual(['box-t', 'pit-t']);
    expect((await get('/api/seasons.html?beds=box-t,pit-t')).body).toContain('This is no trial');
    expect(textOfPdf((await get('/api/seasons.pdf?beds=box-t,pit-t')).rawPayload)).toContain(
      'Season of 2 beds',
    );
    expect((await get(`/api/seasons?beds=pit-t&to=${day(20)}`)).json().beds[0].kept_days).toBe(20);
  });
});

describe('a season is refused', () => {
  test.each([
    [`${pit}?to=yesterday`, ['to']],
    [`${pit}?until=x`, ['until']],
    ['/api/seasons', ['beds']],
    ['/api/seasons?beds=', ['beds']],
    ['/api/seasons?beds=pit-t,', ['beds']],
    ['/api/seasons?beds=Pit T', ['beds']],
    ['/api/seasons.pdf?beds=pit-t,,box-t', ['beds']],
  ])('%s by name', async (address, places) => {
    const { get } = await ledgerApp();
    const names = placesOf(problemOfAnswer(await get(address), 400)).map((place) => place?.split('/')[0]);
    expect(names).toEqual(places);
  });

  test.each<[string, number]>([
    ['/api/beds/pit-z/season', 404],
    ['/api/beds/pit-z/season.pdf', 404],
    ['/api/seasons?beds=pit-t,pit-z', 404],
    ['/api/seasons.html?beds=pit-t,pit-t', 400],
    [`${pit}?to=${day(100)}`, 409],
    [`${pit}?to=${day(-1)}`, 422],
    ['/api/beds/box-t/season.html', 422],
    ['/api/seasons.pdf?beds=pit-t,box-t', 422],
  ])('%s with %i', async (address, status) => {
    const { get } = await keptSeason();
    problemOfAnswer(await get(address), status);
  });
});
