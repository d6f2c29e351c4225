/** Beds, people, groups and the site itself, changed one at a time by the version that was read. */
import { describe, expect, test } from 'vitest';
import { SITE, siteApp } from './a-site.js';
import { placesOf, problemOfAnswer } from './answers.js';

const BOX = { id: 'box-e', name: 'Box E', kind: 'box', steps: [{ length: 80, width: 50, height: 40 }] };
const AMINA = { id: 'amina', name: 'Amina', language: 'sw', reach: [{ via: 'sms', to: '+260970000001' }] };

describe('an entry', () => {
  test('is read with its version, changed by it, and has another version then', async () => {
    const { read, alter, get, followed } = await siteApp();
    const answer = await alter('bed', 'beds/pit-t', { name: 'Pit of the school' });
    expect([answer.statusCode, answer.headers['etag']]).toEqual([200, '"2"']);
    expect(answer.json()).toMatchObject({ version: 2, changed: true, follows: [], entry: { id: 'pit-t' } });
    expect((await read('beds/pit-t')).tag).toBe('"2"');
    expect((await read('probes/p01')).tag).toBe('"1"');
    expect((await get('/api/beds/pit-t')).json().name).toBe('Pit of the school');
    expect(followed).toMatchObject({ planned: 1, kicked: 1 });
  });

  test('that is new is added, and watched', async () => {
    const { add, get } = await siteApp();
    const answer = await add('bed', 'beds/box-e', BOX);
    expect(answer.statusCode).toBe(201);
    expect(answer.json().follows).toEqual([
      'Box E is watched as soon as a probe that stands in it measures.',
    ]);
    expect((await get('/api/beds/box-e')).json()).toMatchObject({ stands: 'unfilled' });
  });

  test('changed by two at once is changed by the first; the second is told whose change it is', async () => {
    const { read, put } = await siteApp();
    const { entry, tag } = await read('beds/pit-t');
    const put1 = await put(
      `${SITE}/beds/pit-t`,
      { by: 'Wanja', bed: { ...entry, name: 'One' } },
      { 'if-match': tag },
    );
    const put2 = await put(
      `${SITE}/beds/pit-t`,
      { by: 'Ana', bed: { ...entry, name: 'Two' } },
      { 'if-match': tag },
    );
    expect(put1.statusCode).toBe(200);
    const { detail, code } = problemOfAnswer(put2, 412);
    expect(code).toBe('CHANGED_MEANWHILE');
    expect(detail).toBe(
      'bed "pit-t" was changed meanwhile by Wanja at 2026-06-03T08:00:00Z: expected version 1, it is 2 by now; read it again, then change it',
    );
    expect((await read('beds/pit-t')).entry.name).toBe('One');
  });

  test('put again as it stands is no second version, whatever version it was read at', async () => {
    const { add, read, registry } = await siteApp();
    await add('person', 'people/amina', AMINA);
    const again = await add('person', 'people/amina', AMINA);
    expect([again.statusCode, again.json().changed, again.headers['etag']]).toEqual([200, false, '"2"']);
    expect((await read('people/amina')).tag).toBe('"2"');
    expect(registry.sites.revision()).toBe(2);
  });

  test('keeps every version, with who changed it', async () => {
    const { alter, get, database } = await siteApp();
    for (const name of ['One', 'Two']) await alter('bed', 'beds/pit-t', { name });
    const changes = (await get(`${SITE}/changes?limit=2`)).json();
    expect(changes).toEqual([
      { version: 3, at: '2026-06-03T08:00:00Z', by: 'Wanja', kind: 'bed', id: 'pit-t', isNew: false },
      { version: 2, at: '2026-06-03T08:00:00Z', by: 'Wanja', kind: 'bed', id: 'pit-t', isNew: false },
    ]);
    expect((await get(`${SITE}/changes`)).json().at(-1)).toMatchObject({ by: null, isNew: true });
    const kept = database.prepare("SELECT count(*) FROM entity WHERE kind = 'bed'").pluck().get();
    expect(kept).toBe(3);
  });

  test.each([
    [{}, 428, /If-Match with the ETag of what was read, or If-None-Match/],
    [{ 'if-match': '1' }, 400, /with its quotation marks/],
    [{ 'if-match': '"1" "2"' }, 400, /with its quotation marks/],
    [{ 'if-match': '"1"', 'if-none-match': '*' }, 400, /got both/],
    [{ 'if-none-match': '"1"' }, 400, /\* for what is new/],
    [{ 'if-match': 'W/"1"' }, 412, /expected version none, it is 1 by now/],
    [{ 'if-match': '"abc"' }, 412, /it is 1 by now/],
    [{ 'if-match': '"2", "3"' }, 412, /expected version 2 or 3/],
    [{ 'if-none-match': '*' }, 412, /expected an id that is not in use yet/],
  ])('%j is no leave to change', async (headers, status, words) => {
    const { read, put } = await siteApp();
    const { entry } = await read('beds/pit-t');
    const answer = await put(
      `${SITE}/beds/pit-t`,
      { by: 'W', bed: { ...entry, name: 'X' } },
      headers as never,
    );
    expect(problemOfAnswer(answer, status).detail).toMatch(words);
    expect((await read('beds/pit-t')).entry.name).toBe('Pit T');
  });

  test('any version is changed only where that is asked for', async () => {
    const { read, put } = await siteApp();
    const { entry } = await read('beds/pit-t');
    const answer = await put(
      `${SITE}/beds/pit-t`,
      { by: 'W', bed: { ...entry, name: 'X' } },
      { 'if-match': '*' },
    );
    expect(answer.statusCode).toBe(200);
    const none = await put(`${SITE}/beds/box-e`, { by: 'W', bed: BOX }, { 'if-match': '*' });
    expect(problemOfAnswer(none, 412).detail).toMatch(/expected one that is there, got none/);
  });
});

describe('an entry is refused, and stays as it was', () => {
  test.each([
    ['bed', 'beds/pit-t', { keeper: 'nobody' }, 422, ['#/bed/keeper']],
    ['bed', 'beds/pit-t', { steps: [] }, 400, ['#/bed/steps']],
    ['bed', 'beds/pit-t', { steps: [{ length: 0, width: 60, height: 25 }] }, 400, ['#/bed/steps/0/length']],
    ['bed', 'beds/pit-t', { kind: 'box' }, 400, ['#/bed/steps']],
    [
      'bed',
      'beds/pit-t',
      { steps: [{ length: 20, width: 20, height: 25 }] },
      422,
      ['#/bed', '#/bed', '#/bed'],
    ],
    ['bed', 'beds/pit-t', { thresholds: { damp_check_RH: 99 } }, 422, ['#/bed/thresholds']],
    ['bed', 'beds/pit-t', { thresholds: { damp_check_RH: 101 } }, 400, ['#/bed/thresholds/damp_check_RH']],
    ['bed', 'beds/pit-t', { thresholds: { dampness: 9 } }, 400, ['#/bed/thresholds/dampness']],
    ['bed', 'beds/pit-t', { id: 'pit-u' }, 400, ['#/bed/id']],
    ['bed', 'beds/pit-t', { colour: 'red' }, 400, ['#/bed/colour']],
    [
      'bed',
      'beds/pit-t',
      { escalation: [{ to: 'keeper-t', after_min: 60 }] },
      422,
      ['#/bed/escalation/0/to'],
    ],
    ['person', 'people/keeper-t', { reach: [{ via: 'sms', to: '0970' }] }, 400, ['#/person/reach/0/to']],
    ['person', 'people/keeper-t', { language: 'xx' }, 422, ['#/person/language']],
    ['person', 'people/keeper-t', { beds: ['pit-z'] }, 422, ['#/person/beds/0']],
    ['person', 'people/keeper-t', { quiet: { from: '20:00', to: '19:30' } }, 400, ['#/person/quiet']],
    ['site', 'particulars', { timezone: 'Ridge/Time' }, 400, ['#/site/timezone']],
    ['site', 'particulars', { telling: { repeat_after_h: 0 } }, 400, ['#/site/telling/repeat_after_h']],
    [
      'site',
      'particulars',
      { escalation: [{ to: 'nobody', after_min: 60 }] },
      422,
      ['#/site/escalation/0/to'],
    ],
  ] as const)('%s %s %j', async (kind, url, change, status, places) => {
    const { alter, read, registry } = await siteApp();
    const before = (await read(url)).entry;
    expect(placesOf(problemOfAnswer(await alter(kind, url, change), status))).toEqual(places);
    expect((await read(url)).entry).toEqual(before);
    expect(registry.sites.revision()).toBe(1);
  });

  test.each([
    ['beds/box-e', { bed: BOX }, ['#/by']],
    ['beds/box-e', { by: ' ', bed: BOX }, ['#/by']],
    ['beds/box-e', { by: 'W' }, ['#/bed']],
    ['people/amina', { by: 'W', bed: BOX }, ['#/person', '#/bed']],
    ['groups/g', { by: 'W', group: { id: 'g', name: 'G', lead: 'keeper-t' } }, ['#/group/members']],
  ])('%s %j', async (url, body, places) => {
    const { put } = await siteApp();
    const answer = await put(`${SITE}/${url}`, body, { 'if-none-match': '*' });
    expect(placesOf(problemOfAnswer(answer, 400))).toEqual(places);
  });

  test('a group with the id of a person, and a person with that of a group', async () => {
    const { add } = await siteApp();
    const group = { id: 'growers', name: 'Growers', lead: 'keeper-t', members: ['keeper-t'] };
    expect((await add('group', 'groups/growers', group)).statusCode).toBe(201);
    const shared = problemOfAnswer(await add('person', 'people/growers', { ...AMINA, id: 'growers' }), 422);
    expect(shared.detail).toMatch(/person\.id: expected an id that a person and a group do not share/);
    problemOfAnswer(await add('group', 'groups/keeper-t', { ...group, id: 'keeper-t' }), 422);
  });

  test('a bed that another site has', async () => {
    const { load, put, station } = await siteApp();
    load({ version: 1, site: { id: 'other', name: 'O', timezone: 'Africa/Lusaka' }, beds: [BOX] });
    station.refresh();
    const answer = await put(`${SITE}/beds/box-e`, { by: 'W', bed: BOX }, { 'if-none-match': '*' });
    expect(problemOfAnswer(answer, 409).detail).toMatch(/a bed of site "other"/);
  });

  test('a site whose thresholds contradict those of a bed', async () => {
    const { alter, get } = await siteApp();
    expect((await alter('bed', 'beds/pit-t', { thresholds: { damp_unpack_RH: 96 } })).statusCode).toBe(200);
    const answer = await alter('site', 'particulars', { thresholds: { damp_check_RH: 96.5 } });
    expect(problemOfAnswer(answer, 422).detail).toMatch(
      /expected damp_check_RH not above damp_unpack_RH, got 96.5 and 96 \(bed "pit-t", loaded before\)/,
    );
    expect((await get(SITE)).statusCode).toBe(200);
  });

  test('methods that take something away are none', async () => {
    const { app } = await siteApp();
    for (const url of [SITE, `${SITE}/beds/pit-t`, `${SITE}/people/keeper-t`])
      problemOfAnswer(await app.inject({ method: 'DELETE', url }), 405);
  });
});

describe('what follows is said', () => {
  test('of a threshold of the watch: the bed is judged again once it was judged', async () => {
    const { alter, commit, station } = await siteApp();
    const payload = JSON.stringify([{ n: 'temperature', u: 'Cel', v: 20, bt: Date.UTC(2026, 4, 5) / 1000 }]);
    const late = JSON.stringify([{ n: 'temperature', u: 'Cel', v: 20, bt: Date.UTC(2026, 4, 6) / 1000 }]);
    const topic = 'sandlarder/v1/test-ridge/probes/p01/readings';
    commit([
      { topic, payload },
      { topic, payload: late },
    ]);
    const answer = await alter('bed', 'beds/pit-t', { thresholds: { damp_check_h: 24 } });
    expect(answer.json().follows).toEqual([
      'Pit T is judged again from its beginning: alarms may come, change, or be taken back.',
    ]);
    expect(station.dirty()).toHaveLength(1);
  });

  test.each([
    { thresholds: { sand_dry_enough_percent: 0.4 } },
    { escalation: [{ to: 'amina', after_min: 60 }] },
  ])('of %j nothing follows for the watch', async (change) => {
    const { alter, add, station } = await siteApp();
    await add('person', 'people/amina', { ...AMINA, reach: [] });
    const before = station.directory.beds.get('pit-t')?.digest;
    expect((await alter('bed', 'beds/pit-t', change)).json().follows).toEqual([]);
    expect(station.directory.beds.get('pit-t')?.digest).toBe(before);
  });

  test('of a person: what this service cannot send, and which texts are drafts', async () => {
    const { add } = await siteApp();
    const reach = [...AMINA.reach, { via: 'webhook', to: 'not a URL' }];
    const { follows } = (await add('person', 'people/amina', { ...AMINA, reach })).json();
    expect(follows).toEqual([
      'No short messages leave this service: it was started without a modem and without a gateway.',
      expect.stringMatching(/^Amina cannot be told by webhook: /),
      expect.stringMatching(/^Messages in .*\(sw\): /),
    ]);
  });
});
