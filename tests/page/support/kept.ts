import type { Page } from 'playwright-core';

/** Waits until the browser keeps the page and would open it without network. */
export async function untilKept(page: Page): Promise<void> {
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
}
