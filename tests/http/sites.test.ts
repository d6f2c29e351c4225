/** Site descriptions over the HTTP edge: read, saved, loaded again, and what a wrong one is told. */
import { describe, expect, test } from 'vitest';
import { checkSiteFile } from '../../services/core/model/site-file.js';
import { SHORT_SEASON, siteOf } from '../support/season.js';
import { SITE, siteApp } from './a-site.js';
import { problemOfAnswer } from './answers.js';

type Json = Record<string, unknown>;

const described = (): Json & { beds: Json[]; people: Json[] } =>
  structuredClone(siteOf(SHORT_SEASON)) as Json & { beds: Json[]; people: Json[] };

describe('a description', () => {
  test('is read in the form of a site file, and can be loaded again as it is', async () => {
    const { get, load, registry } = await siteApp();
    const answer = await get(SITE);
    expect(answer.headers['etag']).toBe('"1"');
    expect(checkSiteFile('saved.json', answer.json()).probes).toHaveLength(4);
    expect(load(answer.json()).counts['bed']).toEqual({ added: 0, changed: 0, same: 1 });
    expect(registry.siteVersions.ofSite('test-ridge')).toBe(1);
  });

  test('is listed with what it holds', async () => {
    const { get } = await siteApp();
    expect((await get('/api/sites')).json()).toEqual([
      {
        ...{ id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka', version: 1 },
        ...{ beds: 1, probes: 4, people: 1, groups: 0 },
      },
    ]);
  });

  test('of a new site is taken in whole, and its beds are there at once', async () => {
    const { take, get } = await siteApp();
    const site = { version: 1, site: { id: 'new-hill', name: 'New hill', timezone: 'Africa/Nairobi' } };
    const beds = [{ ...described().beds[0], id: 'pit-n', keeper: undefined }];
    const answer = await take({ ...site, beds }, { 'if-none-match': '*' });
    expect([answer.statusCode, answer.headers['etag']]).toEqual([201, '"2"']);
    expect(answer.json()).toMatchObject({ site: 'new-hill', counts: { bed: { added: 1 } } });
    expect((await get('/api/beds/pit-n')).json()).toMatchObject({ site: 'new-hill' });
    expect((await get('/api/sites/new-hill/changes')).json()[0]).toMatchObject({ by: 'Wanja', version: 2 });
  });

  test('of a known site adds and changes by its version, and takes nothing away', async () => {
    const { take, get, followed } = await siteApp();
    const { beds, probes: _, ...rest } = described();
    const renamed = { ...rest, beds: [{ ...beds[0], name: 'Pit of the school' }] };
    const answer = await take(renamed, { 'if-match': '"1"' });
    expect([answer.statusCode, answer.json().counts.bed]).toEqual([200, { added: 0, changed: 1, same: 0 }]);
    expect((await get(SITE)).json().probes).toHaveLength(4);
    expect(followed.planned).toBe(1);
  });

  test.each([
    ['of a version that is another by now', {}, { 'if-match': '"7"' }, 412, /changed meanwhile by a file/],
    ['as new where the site is known', {}, { 'if-none-match': '*' }, 412, /not in use yet/],
    ['without saying of which version', {}, {}, 428, /expected the header If-Match/],
    [
      'of a site that is not known',
      { site: { id: 'other', name: 'O', timezone: 'Africa/Lusaka' } },
      { 'if-match': '"1"' },
      412,
      /expected one that is there, got none/,
    ],
    [
      'with a keeper whom nobody knows',
      { people: [], beds: [{ ...described().beds[0], keeper: 'nobody' }] },
      { 'if-match': '"1"' },
      422,
      /beds\[0\]\.keeper: expected the id of one of people or groups/,
    ],
    ['with an unknown key', { weather: 'fair' }, { 'if-match': '"1"' }, 400, /unknown key|weather/],
    ['of another version of the form', { version: 2 }, { 'if-match': '"1"' }, 400, /expected 1, got 2/],
    [
      'with a bed of another site',
      {
        site: { id: 'other', name: 'O', timezone: 'Africa/Lusaka' },
        people: [{ id: 'keeper-t', name: 'K' }],
      },
      { 'if-none-match': '*' },
      409,
      /a bed of site "test-ridge"/,
    ],
  ] as const)('%s is refused, and nothing of it is taken in', async (_, change, headers, status, words) => {
    const { take, get, registry } = await siteApp();
    const before = (await get(SITE)).body;
    const problem = problemOfAnswer(await take({ ...described(), ...change }, headers), status);
    expect(problem.detail).toMatch(words);
    expect((await get(SITE)).body).toBe(before);
    expect(registry.sites.revision()).toBe(1);
  });

  test.each([SITE, `${SITE}/changes`, `${SITE}/thresholds`, `${SITE}/particulars`, `${SITE}/beds/pit-t`])(
    'of no site: %s',
    async (url) => {
      const { get } = await siteApp();
      const elsewhere = url.replace('test-ridge', 'nowhere');
      expect(problemOfAnswer(await get(elsewhere), 404).detail).toMatch(/no site has the id "nowhere"/);
    },
  );

  test('an id that is none is told as such', async () => {
    const { get } = await siteApp();
    problemOfAnswer(await get('/api/sites/Ridge!'), 400);
    problemOfAnswer(await get(`${SITE}/changes?limit=0`), 400);
  });
});
