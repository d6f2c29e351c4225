import { expect, test } from 'vitest';
import { openStores } from '../support/open.js';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

test('the same refused thing is one entry with a count', () => {
  const { archive } = openStores();
  for (const at of [1000, 3000, 2000])
    archive.quarantine.add('not-json', 'a/b', 'expected JSON', bytes('{'), at);
  expect(archive.quarantine.list(10)).toEqual([
    expect.objectContaining({ reason: 'not-json', topic: 'a/b', count: 3, firstAt: 1000, lastAt: 3000 }),
  ]);
});

test('different things of one reason are entries of their own', () => {
  const { archive } = openStores();
  archive.quarantine.add('not-json', 'a/b', 'expected JSON', bytes('{'), 1);
  archive.quarantine.add('not-json', 'a/b', 'expected JSON', bytes('['), 2);
  archive.quarantine.add('not-json', 'a/c', 'expected JSON', bytes('['), 3);
  expect(archive.quarantine.list(10)).toHaveLength(3);
  expect(archive.quarantine.totals()).toEqual([{ reason: 'not-json', count: 3 }]);
});

test('only the first 4 KiB are kept', () => {
  const { archive } = openStores();
  archive.quarantine.add('payload-too-long', 't', 'too long', new Uint8Array(100_000), 1);
  expect(archive.quarantine.list(1)[0]?.sample).toHaveLength(4096);
});

test('a list is as long as asked for, newest first', () => {
  const { archive } = openStores();
  for (let at = 0; at < 5; at += 1) archive.quarantine.add('not-json', `t${at}`, '', bytes('x'), at);
  expect(archive.quarantine.list(2).map(({ topic }) => topic)).toEqual(['t4', 't3']);
});

test('a topic of any length and any bytes is kept short', () => {
  const { archive } = openStores();
  archive.quarantine.add('topic-unknown', '\u0000\ud800'.repeat(5000), '', bytes('x'), 1);
  expect(archive.quarantine.list(1)[0]?.topic.length).toBeLessThanOrEqual(256);
});
