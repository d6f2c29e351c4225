import { expect, test } from 'vitest';
import type { Answer } from '../../services/registry/index.js';
import { openStores } from '../support/open.js';

const answer = (id: string, part: Partial<Answer> = {}): Answer =>
  Object.freeze({
    ...{ id, via: 'sms', sender: '+260970000001', text: 'OK 1', at: 10 },
    ...{ site: 'ridge', person: 'ana', outcome: 'seen: a1', ...part },
  });

test('answers come newest first, as they were, so many at the most', () => {
  const { answers } = openStores().registry;
  for (const [index, id] of ['m1', 'm2', 'm3'].entries()) answers.add(answer(id, { at: index }));
  expect(answers.list(2)).toEqual([answer('m3', { at: 2 }), answer('m2', { at: 1 })]);
});

test('a message that comes twice is kept once, as it came first', () => {
  const { answers } = openStores().registry;
  expect(answers.has('m1')).toBe(false);
  expect(answers.add(answer('m1'))).toBe(true);
  expect(answers.has('m1')).toBe(true);
  expect(answers.add(answer('m1', { text: 'other' }))).toBe(false);
  expect(answers.list(9)).toEqual([answer('m1')]);
});

test('of unknown senders the newest thousand are kept; of people all', () => {
  const { database, registry } = openStores();
  const { answers } = registry;
  database.transaction(() => {
    answers.add(answer('mine', { at: 0 }));
    for (let at = 1; at <= 1005; at += 1) answers.add(answer(`m${at}`, { at, site: null, person: null }));
  })();
  const kept = answers.list(5000).map(({ id }) => id);
  expect(kept).toHaveLength(1001);
  expect(kept).toContain('mine');
  expect(kept).not.toContain('m5');
  expect(kept).toContain('m6');
});

test('an address that stopped, and began again', () => {
  const { answers } = openStores().registry;
  answers.stop('sms', '+1', 1);
  answers.stop('sms', '+1', 2);
  answers.stop('email', '+1', 2);
  expect(answers.stopped()).toEqual([
    { via: 'email', to: '+1' },
    { via: 'sms', to: '+1' },
  ]);
  answers.resume('sms', '+1');
  answers.resume('sms', '+2');
  expect(answers.stopped()).toEqual([{ via: 'email', to: '+1' }]);
});

test('a link works once', () => {
  const { answers } = openStores().registry;
  expect(answers.isUsed('l1')).toBe(false);
  expect(answers.useLink('l1', 5)).toBe(true);
  expect(answers.useLink('l1', 6)).toBe(false);
  expect(answers.isUsed('l1')).toBe(true);
  expect(answers.isUsed('l2')).toBe(false);
});
