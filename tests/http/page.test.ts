/** The page's document: at its own addresses, and to a reader with a browser at one that is none. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { buildApp } from '../../services/http/index.js';
import { temporaryDirectory } from '../support/open.js';
import { PortsInMemory } from './ports.js';

const DOCUMENT = '<!doctype html><title>Invented</title>';

async function appWithPage(hasPage = true) {
  const page = join(temporaryDirectory(), 'web');
  mkdirSync(page);
  writeFileSync(join(page, 'index.html'), DOCUMENT);
  return buildApp(new PortsInMemory(), { ...(hasPage ? { page } : {}) });
}

const BROWSER = { accept: 'text/html,application/xhtml+xml,*/*;q=0.8' };

describe('an address that is none', () => {
  test('shows a reader the frame of the page, as not found', async () => {
    const app = await appWithPage();
    for (const url of ['/nowhere', '/bed/pit-a', '/Beds', '/apiary', '/beds%20']) {
      const answer = await app.inject({ url, headers: BROWSER });
      expect([url, answer.statusCode, answer.body]).toEqual([url, 404, DOCUMENT]);
      expect(answer.headers['content-type']).toMatch(/^text\/html/);
    }
  });

  test('is whole for a browser that asks whether it has changed', async () => {
    const app = await appWithPage();
    const known = await app.inject({ url: '/beds', headers: BROWSER });
    const headers = { ...BROWSER, 'if-none-match': String(known.headers['etag']) };
    expect((await app.inject({ url: '/beds', headers })).statusCode).toBe(304);
    const answer = await app.inject({ url: '/nowhere', headers });
    expect([answer.statusCode, answer.body]).toEqual([404, DOCUMENT]);
  });

  test.each([
    ['of the API', '/api/nowhere', BROWSER],
    ['of answers', '/answer/nowhere', BROWSER],
    ['asked for by a machine', '/nowhere', { accept: 'application/json' }],
    ['asked for without saying what for', '/nowhere', {}],
  ])('%s stays problem details', async (_name, url, headers) => {
    const app = await appWithPage();
    const answer = await app.inject({ url, headers });
    expect([answer.statusCode, answer.json().detail]).toEqual([404, 'no such address']);
  });

  test('is no page for what is sent, nor where no page was built', async () => {
    const sent = await (await appWithPage()).inject({ url: '/nowhere', method: 'POST', headers: BROWSER });
    const bare = await (await appWithPage(false)).inject({ url: '/nowhere', headers: BROWSER });
    for (const answer of [sent, bare])
      expect([answer.statusCode, answer.json().code]).toEqual([404, 'NOT_FOUND']);
  });
});
