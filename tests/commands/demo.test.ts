/** `sandlarder demo`: what it leaves standing once its season is over. */
import { expect, test } from 'vitest';
import { run, start } from '../support/processes.js';

const SHORT = ['demo', '--days', '1', '--speed', '1000000000', '--listen', '127.0.0.1:0'];

test('the page stays once the season is over, until somebody stops it', async () => {
  const demo = start(SHORT);
  const [, address] = await demo.said(
    /^The season is over\. Its page stays at (http:\S+) until you press Ctrl-C here\.$/m,
  );
  expect(demo.output()).toContain(`The page is at ${address}. Alarms as they come:`);
  expect(demo.output()).toContain('What was planted, and what was found:');
  const page = await fetch(address ?? '', { headers: { accept: 'text/html' } });
  expect([page.status, page.headers.get('content-type')]).toEqual([
    200,
    expect.stringMatching(/^text\/html/),
  ]);
  expect(await (await fetch(`${address}/api/beds`)).json()).toHaveLength(4);
  demo.process.kill('SIGINT');
  expect(await demo.ended()).toBe(0);
});

test('with --end it ends by itself, with nothing but its figures where they are asked for', async () => {
  const { code, stdout } = await run([...SHORT, '--end', '--json']);
  expect(code).toBe(0);
  expect(JSON.parse(stdout).soundBeds.toSorted()).toEqual(['box-d', 'pit-a', 'pit-b', 'pit-c']);
});
