import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pickDue, pickMessages, targetOf, WINDOW } from '../../services/senders/outbox-pick.js';
import { ArrayOutbox, aMessage } from './array-outbox.js';

const never = () => false;
const keys = (messages: readonly { key: string }[]) => messages.map(({ key }) => key);

test('the oldest go first, one for each target', () => {
  const due = [
    aMessage({ key: 'a1', to: 'a' }),
    aMessage({ key: 'a2', to: 'a' }),
    aMessage({ key: 'b1', to: 'b' }),
    aMessage({ key: 'c1', to: 'a', via: 'console' }),
  ];
  expect(keys(pickMessages(due, 4, never))).toEqual(['a1', 'b1', 'c1']);
  expect(keys(pickMessages(due, 2, never))).toEqual(['a1', 'b1']);
});

test('a message that was tried is overtaken by one that was not', () => {
  const due = [aMessage({ key: 'a1', attempts: 3 }), aMessage({ key: 'a2' }), aMessage({ key: 'a3' })];
  expect(keys(pickMessages(due, 4, never))).toEqual(['a2']);
});

test('a held message is passed over', () => {
  const due = [aMessage({ key: 'a1' }), aMessage({ key: 'a2' })];
  expect(keys(pickMessages(due, 4, ({ key }) => key === 'a1'))).toEqual(['a2']);
});

test('never two of one target, never more than are free, whatever is due', () => {
  const due = fc.array(
    fc.record({
      key: fc.uuid(),
      via: fc.constantFrom('webhook', 'console'),
      to: fc.constantFrom('a', 'b', 'c'),
      attempts: fc.nat(3),
    }),
  );
  fc.assert(
    fc.property(due, fc.nat(5), (messages, free) => {
      const picked = pickMessages(messages.map(aMessage), free, never);
      expect(picked.length).toBeLessThanOrEqual(free);
      expect(new Set(picked.map(targetOf)).size).toBe(picked.length);
    }),
    { seed: 7 },
  );
});

test('one receiver with many messages does not hide another', () => {
  const outbox = new ArrayOutbox();
  for (let n = 0; n < 3 * WINDOW.first; n += 1) outbox.add(aMessage({ key: `a${n}`, to: 'a' }));
  outbox.add(aMessage({ key: 'b', to: 'b' }));
  expect(keys(pickDue(outbox, 0, 4, ({ to }) => to === 'a'))).toEqual(['b']);
});

test('the look into the outbox is bounded', () => {
  const asked: number[] = [];
  const due = (_now: number, most: number) => {
    asked.push(most);
    return Array.from({ length: most }, (_, n) => aMessage({ key: `${n}` }));
  };
  expect(keys(pickDue({ due }, 0, 4, never))).toEqual(['0']);
  expect(asked).toEqual([100, 1000, 10_000]);
});

test('nothing due, nothing picked', () => {
  expect(pickDue(new ArrayOutbox(), 0, 4, never)).toEqual([]);
});
