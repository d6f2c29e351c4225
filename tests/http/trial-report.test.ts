import { writeFileSync } from 'node:fs';
import { describe, expect, onTestFinished, test } from 'vitest';
import { report } from '../../services/commands/trials/report.js';
import { test as trialTest } from '../../services/commands/trials/test.js';
import { drawing, putExcess, trialApp, trialBody } from '../support/a-trial.js';
import { day } from '../support/ledger.js';
import { textOfPdf } from '../support/pdf-text.js';
import { ownFolder } from '../support/served-site.js';
import { placesOf, problemOfAnswer } from './answers.js';

const one = '/api/trials/sand-one';
const address = `${one}/report`;

async function drawn() {
  const app = await trialApp();
  await app.post(`${one}/assignment`, drawing(901));
  for (const at of [0, 1, 2, 3, 4, 5]) putExcess(app, at, (on) => 0.02 * on + 0.2 * at, 61);
  return app;
}

describe('the report of a trial', () => {
  test('is a page without scripts, with figures that are named and described, and all to do it again', async () => {
    const { get } = await drawn();
    const answer = await get(`${address}?format=html`);
    const keep = process.env['SANDLARDER_KEEP_REPORT'];
    if (keep) writeFileSync(`${keep}.html`, answer.body);
    expect(answer.statusCode).toBe(200);
    expect(answer.headers['content-type']).toBe('text/html; charset=utf-8');
    expect(answer.headers['content-security-policy']).toBe("default-src 'none'; style-src 'unsafe-inline'");
    expect(answer.body).toContain('<html lang="en">');
    expect(answer.body).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org\/2000\/svg)/);
    expect(answer.body.match(/<svg [^>]*role="img" aria-labelledby="([^"]+)"/g)).toHaveLength(3);
    const ids = [...answer.body.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const part of ['What was found: share of the roots lost', 'Methods', 'Limits', 'seed 7', 'PCG32'])
      expect(answer.body).toContain(part);
    expect(answer.body).toContain('sandlarder trial test sand-one.csv --design blocks');
    expect(answer.body).toMatch(/<td>box-1<\/td>/);
  });

  test('is a PDF with the same text, equal for equal trials', async () => {
    const { get } = await drawn();
    const answer = await get(`${address}?format=pdf`);
    const keep = process.env['SANDLARDER_KEEP_REPORT'];
    if (keep) writeFileSync(`${keep}.pdf`, answer.rawPayload);
    expect(answer.headers['content-type']).toBe('application/pdf');
    expect(answer.headers['content-disposition']).toBe('inline; filename="trial-sand-one.pdf"');
    const text = textOfPdf(answer.rawPayload);
    for (const part of ['Trial: Fine or coarse sand', 'days since the filling', 'seed 7', 'Kaplan-Meier'])
      expect(text).toContain(part);
    expect((await get(`${address}?format=pdf`)).rawPayload.equals(answer.rawPayload)).toBe(true);
  });

  test('comes as what is asked for', async () => {
    const { app } = await drawn();
    const type = async (accept: string) =>
      (await app.inject({ url: address, headers: { accept } })).headers['content-type'];
    expect(await type('application/json')).toMatch(/^application\/json/);
    expect(await type('application/pdf,*/*')).toBe('application/pdf');
    expect(await type('text/html,application/xhtml+xml')).toMatch(/^text\/html/);
    expect(await type('*/*')).toMatch(/^text\/html/);
  });

  test('its tables give the same p when they are compared anew, without the service', async () => {
    const { app } = await drawn();
    const service = await app.listen({ host: '127.0.0.1', port: 0 });
    onTestFinished(() => app.close());
    const folder = ownFolder();
    const files = {
      csv: folder.path('b.csv'),
      rootsCsv: folder.path('r.csv'),
      html: folder.path('r.html'),
      pdf: folder.path('r.pdf'),
    };
    const lines: string[] = [];
    await report('sand-one', { service, json: true, ...files }, (line) => void lines.push(line));
    const { result } = JSON.parse(lines.join(''));
    const anew = (file: string, design: string) => {
      const said: string[] = [];
      trialTest(file, { design, value: 'value', json: true }, (line) => void said.push(line));
      return JSON.parse(said.join(''));
    };
    // The table is written without digits that stand for nothing.
    expect(anew(files.csv, 'blocks').tests[0].p).toBeCloseTo(result.comparison.tests[0].p, 12);
    const roots = anew(files.rootsCsv, 'survival');
    expect(roots.byBed).toEqual(result.survival.byBed);
    expect(roots.logRank.p).toBeCloseTo(result.survival.logRank.p, 12);
    await expect(report('sand-one', { service, pdf: '/nowhere/r.pdf' }, () => undefined)).rejects.toThrow(
      /expected a file that can be written at .*, got a folder/,
    );
  });

  test('warns where treatments were given by hand, and escapes what was entered', async () => {
    const { get, post } = await trialApp();
    const stands = (await get(one)).json();
    const beds = stands.beds.map(({ bed, block }: { bed: string; block: string }, at: number) => ({
      bed,
      block,
      treatment: at % 2 ? '<b>fine</b>' : 'coarse',
    }));
    const change = {
      beds,
      treatments: ['<b>fine</b>', 'coarse'],
      supersedes: stands.version,
      reason: 'by hand',
      name: '<i>Sand</i>',
    };
    await post('/api/trials', trialBody(5, change));
    const { body } = await get(`${address}?format=html`);
    expect(body).toMatch(/class="warning"><strong>Treatments were given by hand/);
    expect(body).toContain('&lt;b&gt;fine&lt;/b&gt;');
    expect(body).not.toMatch(/<b>|<i>/);
    expect(body).toContain('Wanja: by hand');
  });

  test('is there before anything was looked at, and says what is missing', async () => {
    const { get, post, goTo } = await trialApp();
    goTo(100);
    const beds = (await get(one))
      .json()
      .beds.map(({ bed, block }: { bed: string; block: string }) => ({ bed, block }));
    await post(
      '/api/trials',
      trialBody(6, {
        trial: 'next-one',
        from: day(90),
        to: day(99),
        at: day(90),
        beds,
        supersedes: undefined,
      }),
    );
    const stands = (await get(one)).json();
    await post('/api/trials', trialBody(7, { supersedes: stands.version, reason: 'ended', to: day(61) }));
    expect(
      (
        await post(
          '/api/trials',
          trialBody(6, { trial: 'next-one', from: day(90), to: day(99), at: day(90) }),
        )
      ).statusCode,
    ).toBe(201);
    await post('/api/trials/next-one/assignment', drawing(8, { at: day(90) }));
    const { body, statusCode } = await get('/api/trials/next-one/report?format=html');
    expect(statusCode).toBe(200);
    expect(body).toContain('What could not be compared');
    expect(body).not.toContain('What it rests on');
    expect(body).toContain('expected it filled within the trial, got no filling');
  });

  test('is refused by name', async () => {
    const { get } = await trialApp();
    problemOfAnswer(await get('/api/trials/none/report'), 404);
    expect(problemOfAnswer(await get(`${address}?format=html`), 409).detail).toMatch(/draw them first/);
    expect(placesOf(problemOfAnswer(await get(`${address}?format=docx`), 400))).toEqual(['format']);
  });
});
