/**
 * Draws the page's icons from `services/web/public/icon.svg` with Debian's Chromium: `node .scripts/icons.mjs`. They are
 * kept beside it, and drawn anew only when it changes.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { chromium } from 'playwright-core';

const PUBLIC = new URL('../services/web/public/', import.meta.url).pathname;
const EARTH = '#5b3a1e';

/** Of a maskable icon only the middle is sure to be seen: a circle of 80 % (Web App Manifest, safe zone). */
const ICONS = [
  { name: 'icon-192.png', side: 192, share: 1 },
  { name: 'icon-512.png', side: 512, share: 1 },
  { name: 'icon-edge-512.png', side: 512, share: 0.75, ground: EARTH },
];

const source = readFileSync(`${PUBLIC}icon.svg`, 'utf8');
const executablePath = process.env.SANDLARDER_CHROMIUM ?? '/usr/bin/chromium';
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--headless'] });
const page = await browser.newPage();
for (const { name, side, share, ground = 'transparent' } of ICONS) {
  await page.setViewportSize({ width: side, height: side });
  await page.setContent(
    `<body style="margin:0;height:100vh;display:grid;place-items:center;background:${ground}">
       <div style="width:${share * 100}%;line-height:0">${source}</div></body>`,
  );
  writeFileSync(`${PUBLIC}${name}`, await page.screenshot({ omitBackground: true }));
}
await browser.close();
