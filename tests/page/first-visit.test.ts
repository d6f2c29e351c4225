/** What a first visit costs a cheap phone: bytes, requests and long tasks. Times are written down, and judged by nobody. */
import { once } from 'node:events';
import { mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, onTestFinished, test } from 'vitest';
import { KEPT, openPage, seasonToRead } from './support/page.js';

const BUILT = new URL('../../.build/web', import.meta.url).pathname;
const WRITTEN = new URL('../../.screenshots', import.meta.url).pathname;

/** Until the beds are shown. The bytes are those asked for, the rest is judgement. */
const BUDGET = { bytes: 200 * 1024, requests: 20, longTasks: 20, wholePage_bytes: 320 * 1024 };

/** Words of a language are kept by who reads it. */
const OF_A_LANGUAGE = /^assets\/words-/;

/** A cheap phone on a poor network. */
const PHONE = { slower: 4, latency_ms: 150, bytes_per_s: 1_600_000 / 8 };

async function slowVisit(page: Page, url: string, shown: string) {
  const devtools = await page.context().newCDPSession(page);
  let bytes = 0;
  let requests = 0;
  devtools.on('Network.requestWillBeSent', () => (requests += 1));
  devtools.on('Network.dataReceived', ({ encodedDataLength }) => (bytes += encodedDataLength));
  devtools.on('Network.responseReceived', ({ response }) => (bytes += response.encodedDataLength));
  await devtools.send('Network.enable');
  await devtools.send('Network.setCacheDisabled', { cacheDisabled: true });
  await devtools.send('Network.emulateNetworkConditions', {
    ...{ offline: false, latency: PHONE.latency_ms },
    ...{ downloadThroughput: PHONE.bytes_per_s, uploadThroughput: PHONE.bytes_per_s },
  });
  await devtools.send('Emulation.setCPUThrottlingRate', { rate: PHONE.slower });
  await page.addInitScript((text) => {
    const counted = { longTasks: 0, shownAt_ms: 0 };
    // Seen from within: a look from outside is work for the slowed processor too.
    const shown = new Promise<void>((done) => {
      new MutationObserver((_, observer) => {
        if (!document.body?.textContent?.includes(text)) return;
        counted.shownAt_ms = performance.now();
        observer.disconnect();
        requestAnimationFrame(() => done());
      }).observe(document, { subtree: true, childList: true, characterData: true });
    });
    Object.assign(globalThis, { counted, shown });
    new PerformanceObserver((list) => (counted.longTasks += list.getEntries().length)).observe({
      type: 'longtask',
      buffered: true,
    });
  }, shown);
  await page.goto(url, { waitUntil: 'commit' });
  const counted = await page.evaluate(async () => {
    const told = globalThis as unknown as {
      shown: Promise<void>;
      counted: { longTasks: number; shownAt_ms: number };
    };
    await told.shown;
    return told.counted;
  });
  return { bytes, requests, longTasks: counted.longTasks, time_s: counted.shownAt_ms / 1000 };
}

async function bareServer(): Promise<string> {
  const server = createServer((_asked, answer) => {
    answer.setHeader('content-type', 'text/html').end('<!doctype html><title>Bare</title><h1>Bare</h1>');
  }).listen(0, '127.0.0.1');
  await once(server, 'listening');
  onTestFinished(() => void server.close());
  return `http://127.0.0.1:${(server.address() as { port: number }).port}`;
}

test('a first visit stays within its budget', async () => {
  const { http } = seasonToRead();
  // The service has been running: what its watches read at their start is no part of a visit.
  expect((await fetch(`${http}/api/today?language=en`)).status).toBe(200);
  const bare = await slowVisit(
    (await openPage('about:blank', 'phone', KEPT)).page,
    await bareServer(),
    'Bare',
  );
  const visit = await slowVisit(
    (await openPage('about:blank', 'phone', KEPT)).page,
    `${http}/beds`,
    'Newest reading',
  );
  mkdirSync(WRITTEN, { recursive: true });
  writeFileSync(join(WRITTEN, 'first-visit.json'), JSON.stringify({ visit, bare }, null, 1));
  expect(bare.bytes).toBeGreaterThan(0);
  expect(visit.bytes).toBeGreaterThan(10 * 1024);
  expect(visit.bytes).toBeLessThan(BUDGET.bytes);
  expect(visit.requests).toBeLessThanOrEqual(BUDGET.requests);
  expect(visit.longTasks).toBeLessThanOrEqual(BUDGET.longTasks);
});

test('all of the page that a device keeps stays within its budget', () => {
  const files = readdirSync(BUILT, { recursive: true, encoding: 'utf8' });
  const sent = files.filter((name) => name.endsWith('.br') || /\.(?:png|jpg|woff2)$/.test(name));
  const sizes = (names: readonly string[]) => names.map((name) => statSync(join(BUILT, name)).size);
  const ofLanguages = sent.filter((name) => OF_A_LANGUAGE.test(name));
  expect(ofLanguages.length).toBeGreaterThan(5);
  const ofAll = sizes(sent.filter((name) => !OF_A_LANGUAGE.test(name)));
  const bytes = ofAll.reduce((sum, size) => sum + size, Math.max(...sizes(ofLanguages)));
  expect(sent.length).toBeGreaterThan(5);
  expect(bytes).toBeLessThan(BUDGET.wholePage_bytes);
});
