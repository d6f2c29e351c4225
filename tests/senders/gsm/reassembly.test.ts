import { beforeEach, expect, test } from 'vitest';
import type { Deliver } from '../../../services/senders/gsm/pdu-deliver.js';
import { REASSEMBLY_LIMITS, Reassembly } from '../../../services/senders/gsm/reassembly.js';

const FROM = '+46701234567';

const part = (number: number, text: string, otherwise: Partial<Deliver> = {}): Deliver =>
  Object.freeze<Deliver>({
    type: 'deliver',
    from: FROM,
    sentAt: 5,
    text,
    concatenation: { reference: 9, total: 3, number },
    ...otherwise,
  });
const at = (index: number) => ({ memory: 'SM', index });

let reassembly: Reassembly;
beforeEach(() => {
  reassembly = new Reassembly();
});

test('parts in any order give the text and all their places', () => {
  reassembly.add(part(3, 'c'), at(1), 0);
  reassembly.add(part(1, 'a'), at(2), 0);
  expect(reassembly.due(0)).toEqual([]);
  reassembly.add(part(2, 'b'), at(3), 0);
  expect(reassembly.due(0)).toMatchObject([
    { from: FROM, sentAt: 5, text: 'abc', complete: true, places: [at(1), at(2), at(3)] },
  ]);
});

test('what is whole stays until it is done', () => {
  for (const number of [1, 2, 3]) reassembly.add(part(number, 'x'), at(number), 0);
  const [first] = reassembly.due(0);
  expect(reassembly.due(0)).toHaveLength(1);
  reassembly.done(first?.key ?? '');
  expect(reassembly.due(0)).toEqual([]);
});

test('the same part again changes nothing; from another place, that one is remembered', () => {
  for (const number of [1, 2, 3]) reassembly.add(part(number, 'x'), at(number), 0);
  reassembly.add(part(2, 'x'), at(2), 0);
  reassembly.add(part(2, 'x'), at(7), 0);
  reassembly.add(part(2, 'x'), at(7), 0);
  expect(reassembly.due(0)).toMatchObject([{ text: 'xxx', places: [at(1), at(2), at(3), at(7)] }]);
});

test('other senders, references and counts are other messages', () => {
  reassembly.add(part(1, 'a'), undefined, 0);
  reassembly.add(part(2, 'b', { from: '+46700000000' }), undefined, 0);
  reassembly.add(part(3, 'c', { concatenation: { reference: 8, total: 3, number: 3 } }), undefined, 0);
  reassembly.add(part(2, 'd', { concatenation: { reference: 9, total: 2, number: 2 } }), undefined, 0);
  expect(reassembly.due(0)).toEqual([]);
});

test('a reference that has come round does not mix two messages', () => {
  reassembly.add(part(1, 'a'), at(1), 0);
  for (const number of [1, 2, 3]) reassembly.add(part(number, 'x'), at(10 + number), 0);
  const texts = reassembly.due(REASSEMBLY_LIMITS.together_ms).map(({ text }) => text);
  expect(texts.join('|')).toMatch(/a/);
  expect(texts.join('').match(/[ax]/g)).toHaveLength(4);
});

test('parts that wait too long are given with gaps', () => {
  reassembly.add(part(2, 'b'), at(1), 1000);
  expect(reassembly.due(1000 + REASSEMBLY_LIMITS.together_ms - 1)).toEqual([]);
  expect(reassembly.due(1000 + REASSEMBLY_LIMITS.together_ms)).toMatchObject([
    { text: '...b...', complete: false, places: [at(1)] },
  ]);
});

test('a clock that was set back does not make them wait for ever', () => {
  reassembly.add(part(2, 'b'), at(1), 1e12);
  expect(reassembly.due(0)).toHaveLength(1);
});

test('of too many that wait the oldest are given', () => {
  const few = new Reassembly({ most: 2 });
  for (const reference of [1, 2, 3])
    few.add(part(1, `${reference}`, { concatenation: { reference, total: 2, number: 1 } }), undefined, 0);
  expect(few.due(0)).toMatchObject([{ text: '1...', complete: false }]);
});

test('messages of one part are whole, also twice the same', () => {
  const { concatenation: _, ...single } = part(1, 'x');
  reassembly.add(single, undefined, 0);
  reassembly.add(single, undefined, 0);
  reassembly.add(single, at(1), 0);
  reassembly.add(single, at(2), 0);
  expect(reassembly.due(0)).toHaveLength(4);
});

test('what was stored is forgotten with the port, its age is not; what is in memory alone stays', () => {
  reassembly.add(part(1, 'a'), at(1), 0);
  reassembly.add(part(2, 'b'), undefined, 0);
  const { concatenation: _, ...single } = part(1, 'x');
  reassembly.add(single, at(5), 0);
  reassembly.forgetStored();
  expect(reassembly.due(0)).toEqual([]);
  reassembly.add(part(1, 'a'), at(8), 5000);
  expect(reassembly.due(REASSEMBLY_LIMITS.together_ms)).toMatchObject([{ text: 'ab...', places: [at(8)] }]);
});

test('a message all of whose parts were forgotten is not given empty', () => {
  reassembly.add(part(1, 'a'), at(1), 0);
  reassembly.forgetStored();
  expect(reassembly.due(REASSEMBLY_LIMITS.together_ms)).toEqual([]);
});
