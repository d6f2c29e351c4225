/** The page behind a link: several alarms, languages, who may ask and how often. */
import { describe, expect, test } from 'vitest';
import { CATALOGUES, LANGUAGE_CODES, say } from '../../services/core/alarms/languages/index.js';
import { HTTP_LIMITS } from '../../services/http/limits.js';
import { aBed, aKeeper, SITE } from '../support/duty.js';
import { problemOfAnswer } from './answers.js';
import { peopleApp } from './people-app.js';

const BROWSER = { accept: 'text/html,application/xhtml+xml' };
const of = (alarm: string | undefined, rest: string): string =>
  `${rest}&alarm=${encodeURIComponent(alarm ?? '')}`;

describe('a link of a message about several', () => {
  test('shows each with its sentence and a form of its own, and one button for all', async () => {
    const { app, bundled } = await peopleApp();
    const { alarms, path } = bundled();
    const { body } = await app.inject(path);
    expect(body).toMatch(/<h1>3 beds need a look<\/h1>/);
    for (const bed of ['A', 'B', 'C']) expect(body).toMatch(new RegExp(`<p>Pit ${bed}: damp sand\\.`));
    for (const alarm of alarms) expect(body).toContain(`name="alarm" value="${alarm}"`);
    expect(body.match(/<form/g)).toHaveLength(4);
    expect(body).not.toMatch(/<script/);
  });

  test('seen for all, once', async () => {
    const { app, duty, bundled, form } = await peopleApp();
    const { alarms, path } = bundled();
    const first = await form(path, 'answer=seen');
    expect(first.body).toMatch(/Thanks\. Noted as seen: Pit A, Pit B, Pit C\./);
    expect(first.body).not.toMatch(/<form/);
    const by = alarms.map((id) => duty.registry.alarms.get(id)?.acknowledgement?.by);
    expect(by).toEqual(['Ana', 'Ana', 'Ana']);
    expect((await form(path, 'answer=seen')).statusCode).toBe(409);
    expect((await app.inject(path)).body).not.toMatch(/<form/);
  });

  test('each its own answer, each once; the rest stays to be answered', async () => {
    const { duty, bundled, form } = await peopleApp();
    const { alarms, path } = bundled();
    const [a, b, c] = alarms;
    const found = await form(path, of(a, 'answer=found&found=damp'));
    expect(found.body).toMatch(/Thanks\. Written down for Pit A: DAMP\./);
    expect(found.body.match(/<form/g)).toHaveLength(3);
    expect(duty.registry.inspections.latest('pit-a')?.found).toEqual(['damp']);
    expect(duty.registry.inspections.latest('pit-b')).toBeNull();
    expect((await form(path, of(a, 'answer=found&found=rot'))).statusCode).toBe(409);
    expect((await form(path, of(b, 'answer=quiet'))).statusCode).toBe(200);
    expect(duty.registry.alarms.get(b ?? '')?.shelving?.by).toBe('Ana');
    expect((await form(path, 'answer=seen')).body).toMatch(/Noted as seen: Pit C\./);
    expect(duty.registry.alarms.get(c ?? '')?.acknowledgement?.by).toBe('Ana');
    expect(duty.registry.alarms.get(b ?? '')?.acknowledgement).toBeNull();
    expect((await form(path, 'answer=seen')).statusCode).toBe(409);
    const kept = duty.registry.answers.list(9).map(({ via, person, text }) => `${via} ${person} ${text}`);
    expect(kept.sort()).toEqual(['link ana found damp', 'link ana quiet 6 h', 'link ana seen']);
  });

  test('one that is over meanwhile says so and is left out', async () => {
    const { app, duty, bundled, form } = await peopleApp();
    const { alarms, path } = bundled();
    duty.clear('pit-b', { kind: 'damp', action: 'check' });
    const { body } = await app.inject(path);
    expect(body.match(/<form/g)).toHaveLength(3);
    expect(body.match(/This alarm is over/g)).toHaveLength(1);
    expect((await form(path, of(alarms[1], 'answer=seen'))).statusCode).toBe(409);
    expect((await form(path, 'answer=seen')).body).toMatch(/Noted as seen: Pit A, Pit C\./);
  });

  test.each([
    ['answer=found&found=rot', 400],
    ['answer=seen&alarm=', 409],
    ['answer=seen&alarm=ridge.pit-z.damp', 409],
    ['answer=found&found=rot&alarm=ridge.pit-z.damp', 409],
  ])('%s is refused and uses nothing up', async (payload, status) => {
    const { duty, bundled, form } = await peopleApp();
    const { alarms, path } = bundled();
    const answer = await form(path, payload);
    expect(answer.statusCode).toBe(status);
    expect(duty.registry.inspections.latest('pit-a')).toBeNull();
    expect((await form(path, of(alarms[0], 'answer=seen'))).statusCode).toBe(200);
  });

  test('an alarm of another message is none of its', async () => {
    const { duty, bundled, form } = await peopleApp();
    const { path } = bundled();
    const other = duty.raise('pit-a');
    duty.plan();
    expect((await form(path, of(other, 'answer=seen'))).statusCode).toBe(409);
    await form(path, 'answer=seen');
    expect(duty.registry.alarms.get(other)?.acknowledgement).toBeNull();
  });
});

describe('in the language of whom it was sent to', () => {
  const site = (language: string) => ({
    ...SITE,
    beds: [aBed('pit-a'), aBed('pit-b', { name: '<i>"B' }), aBed('pit-c')],
    people: [aKeeper('ana', { language }), aKeeper('ben'), aKeeper('cy')],
  });

  test.each(LANGUAGE_CODES)('%s', async (language) => {
    const { app, bundled, form } = await peopleApp({ site: site(language) });
    const { path } = bundled();
    const catalogue = CATALOGUES[language];
    const { body } = await app.inject(path);
    expect(body).toContain(`<html lang="${language}">`);
    for (const key of ['page.seen', 'page.seenAll', 'page.opened', 'page.write', 'page.caution'] as const)
      expect(body).toContain(say(catalogue, key).replaceAll("'", '&#39;'));
    const draft = say(CATALOGUES.en, 'page.draft');
    expect(body.includes(draft)).toBe(language !== 'en');
    expect(body).toContain(say(CATALOGUES.en, 'page.caution'));
    expect(body).toContain('&lt;i&gt;&quot;B');
    const beds = 'Pit A, <i>"B, Pit C'.replace('<', '&lt;').replace('>', '&gt;').replace('"', '&quot;');
    const said = (await form(path, 'answer=seen')).body;
    expect(said).toContain(say(catalogue, 'thanks.seen', { beds: '' }).replace(/[: .።፦]+$/, ''));
    expect(said).toContain(language === 'am' ? 'Pit A፣' : beds);
  });

  test('a form without a tick is shown again with what is missing; a link that is none says so in each', async () => {
    const { app, bundled } = await peopleApp({ site: site('fr-CM') });
    const { alarms, path } = bundled();
    const empty = await app.inject({
      ...{ method: 'POST', url: path, payload: of(alarms[0], 'answer=found') },
      headers: { ...BROWSER, 'content-type': 'application/x-www-form-urlencoded' },
    });
    expect([empty.statusCode, empty.headers['content-type']]).toEqual([400, 'text/html; charset=utf-8']);
    expect(empty.body).toContain('<html lang="fr-CM">');
    expect(empty.body).toMatch(/Cochez ce que vous avez trouvé.*<form/s);
    const none = await app.inject({ url: `${path}x`, headers: BROWSER });
    expect([none.statusCode, none.headers['content-type']]).toEqual([404, 'text/html; charset=utf-8']);
    for (const code of LANGUAGE_CODES) expect(none.body).toContain(`<p lang="${code}">`);
  });
});

describe('behind a proxy', () => {
  const host = 'store.example';

  test('the link is answered under the name that people know, and nothing else is', async () => {
    const { app, told } = await peopleApp();
    const { path } = told();
    expect((await app.inject({ url: path, headers: { host } })).statusCode).toBe(200);
    for (const url of ['/', '/api/health', '/api/alarms', '/answer/', '/answers', '/api/answers'])
      problemOfAnswer(await app.inject({ url, headers: { host } }), 421);
    problemOfAnswer(await app.inject({ method: 'PUT', url: path, headers: { host } }), 405);
  });

  test('with credentials it asks for none, and all else does', async () => {
    const { app, told, form } = await peopleApp({
      credentials: { user: 'keeper', password: 'sand and roots' },
    });
    const { path } = told();
    expect((await app.inject({ url: path, headers: { host } })).statusCode).toBe(200);
    expect((await form(path, 'answer=seen')).statusCode).toBe(200);
    for (const url of ['/', '/api/alarms', '/answer/', '/api/answers'])
      problemOfAnswer(await app.inject({ url, headers: { host } }), 401);
  });
});

describe('how often', () => {
  const { ofOne, ofAll } = HTTP_LIMITS.linkAttempts;

  test('so many a minute from one address, right and wrong; another address and the next minute are free', async () => {
    const { app, duty, told } = await peopleApp();
    const { path } = told();
    const from = (address: string, url = path) =>
      app.inject({ url, headers: { 'x-forwarded-for': address } });
    for (let attempt = 0; attempt < ofOne; attempt += 1)
      expect((await from('198.51.100.7', `/answer?t=${attempt}.x`)).statusCode).toBe(404);
    const refused = await from('198.51.100.7');
    expect(problemOfAnswer(refused, 429).detail).toMatch(/too many attempts, try again in 60 s/);
    expect(refused.headers['retry-after']).toBe('60');
    expect((await from('198.51.100.8')).statusCode).toBe(200);
    expect((await app.inject('/api/health')).statusCode).toBe(200);
    duty.pass(1);
    expect((await from('198.51.100.7')).statusCode).toBe(200);
  });

  test('so many from all together, whatever addresses they claim', async () => {
    const { app } = await peopleApp();
    for (let attempt = 0; attempt < ofAll; attempt += 1)
      await app.inject({
        url: '/answer?t=x',
        headers: { 'x-forwarded-for': `198.51.${attempt >> 8}.${attempt & 255}` },
      });
    problemOfAnswer(
      await app.inject({ url: '/answer?t=x', headers: { 'x-forwarded-for': '203.0.113.9' } }),
      429,
    );
  });
});
