/** A real Chromium before the real service on a copy of the season. */
import { mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type axe from 'axe-core';
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from 'playwright-core';
import { afterAll, expect, inject, onTestFinished } from 'vitest';
import { temporaryDirectory } from '../../support/open.js';
import { type Running, start } from '../../support/processes.js';
import { addressesOf, copyTo, type SeasonToRead } from './reading.js';

/** Debian's. */
const CHROMIUM = process.env['SANDLARDER_CHROMIUM'] ?? '/usr/bin/chromium';

/** A closed network makes Chromium's own errands fail one after the other: it is told to run none. */
const FLAGS = [
  ...['--no-sandbox', '--headless', '--disable-gpu', '--disable-quic', '--no-first-run'],
  ...['--disable-background-networking', '--disable-component-update', '--disable-sync'],
];

const SCREENSHOTS = new URL('../../../.screenshots', import.meta.url).pathname;

/** Width and height in CSS pixels: a cheap phone, and a desk. */
export const SIZES = {
  phone: { width: 360, height: 740 },
  desk: { width: 1280, height: 800 },
} as const;
export type Size = keyof typeof SIZES;

const named = process.env['SANDLARDER_PAGE_SIZES']?.split(',');

/** Sizes at which jobs are done: both, or those that `SANDLARDER_PAGE_SIZES` names, with commas. */
export const SIZES_TRIED: readonly Size[] = (['phone', 'desk'] as const).filter(
  (size) => named === undefined || named.includes(size),
);

export interface Served {
  /** `http://127.0.0.1:PORT`. */
  readonly http: string;
  readonly data: string;
  readonly service: Running;
  readonly mqtt: string;
}

/** Serves a copy of the season. `data` of an earlier one serves that again. */
export async function servedSeason({
  flags = [] as readonly string[],
  data = copyOfSeason(),
  listen = '127.0.0.1:0',
  environment = {} as NodeJS.ProcessEnv,
} = {}): Promise<Served> {
  const service = start(
    ['serve', '--data', data, '--listen', listen, '--mqtt-listen', '127.0.0.1:0', ...flags],
    environment,
  );
  return { ...(await addressesOf(service)), data, service };
}

/** The season for tests that only read: one service for all of them, so that they take less time. */
export const seasonToRead = (): SeasonToRead => inject('seasonToRead');

/** A data folder with the season in it, as it was at its end. */
export function copyOfSeason(): string {
  const data = join(temporaryDirectory(), 'data');
  copyTo(data);
  return data;
}

let browser: Promise<Browser> | undefined;

function theBrowser(): Promise<Browser> {
  if (browser === undefined) {
    browser = chromium.launch({ executablePath: CHROMIUM, args: FLAGS });
    afterAll(async () => {
      await (await browser)?.close();
      browser = undefined;
    });
  }
  return browser;
}

export interface OpenPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** What the page wrote to the console as an error, and what it threw. */
  readonly complaints: readonly string[];
}

/** For tests that go offline: the worker keeps all of the page then, which takes seconds of a core. */
export const KEPT = { serviceWorkers: 'allow' } as const satisfies BrowserContextOptions;

/** A page in a context of its own: nothing is kept from another test, and nothing for later unless `KEPT` says so. */
export async function openPage(
  url: string,
  size: Size,
  options: BrowserContextOptions = {},
): Promise<OpenPage> {
  const context = await (await theBrowser()).newContext({
    viewport: SIZES[size],
    hasTouch: size === 'phone',
    locale: 'en-GB',
    ...options,
  });
  onTestFinished(() => context.close());
  if (options.serviceWorkers !== KEPT.serviceWorkers) await context.addInitScript(refuseWorker);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('console', (message) => {
    // What the service refuses is said on the page; a file that is missing is told below.
    if (message.type() === 'error' && !message.text().startsWith('Failed to load resource'))
      complaints.push(message.text());
  });
  page.on('response', (answer) => {
    if (answer.status() >= 400 && !new URL(answer.url()).pathname.startsWith('/api/'))
      complaints.push(`${answer.status()} ${answer.url()}`);
  });
  await page.goto(url);
  return { page, context, complaints };
}

/** As browsers do that have no room. The browser's own refusal answers as if one were there. */
function refuseWorker(): void {
  if ('serviceWorker' in navigator)
    navigator.serviceWorker.register = () => Promise.reject(new Error('no worker here'));
}

/** Keeps what the page looks like now, whole, under `.screenshots/`. */
export async function picture(page: Page, name: string): Promise<void> {
  mkdirSync(SCREENSHOTS, { recursive: true });
  await page.screenshot({ path: join(SCREENSHOTS, `${name}.png`), fullPage: true });
}

/** In its short form: the long one takes twice as long to read. */
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Nothing on the page breaks what axe-core knows of WCAG 2.2 A and AA and of good practice. */
export async function expectAccessible(page: Page): Promise<void> {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(AXE);
  const findings = await page.evaluate(async () => {
    const tool = (globalThis as unknown as { axe: typeof axe }).axe;
    const { violations } = await tool.run(document, { resultTypes: ['violations'] });
    return violations.map(({ id, help, nodes }) => ({
      id,
      help,
      where: nodes.map(({ html }) => html.slice(0, 160)),
    }));
  });
  expect(findings).toEqual([]);
}

/** Nothing is wider than the window. */
export async function expectNoSidewaysScroll(page: Page): Promise<void> {
  const [inner, whole] = await page.evaluate(
    () => [innerWidth, document.documentElement.scrollWidth] as const,
  );
  expect(whole).toBeLessThanOrEqual(inner);
}
