import { expect, test } from 'vitest';
import { DeliveryError } from '../../services/senders/delivery-error.js';
import { PATIENCE, reasonOf, verdictOn } from '../../services/senders/verdict.js';
import { aMessage } from './array-outbox.js';

const DAY_ms = 86_400_000;
const mayPass = new DeliveryError('RECEIVER_UNAVAILABLE', 'down');
const refusal = new DeliveryError('BAD_REQUEST', 'no', { permanent: true });

test('a failure is tried again after the back-off', () => {
  expect(verdictOn(aMessage(), mayPass, 1000, 0.5)).toEqual({
    type: 'again',
    nextAttemptAt: 2500,
    reason: 'down',
    holdUntil: undefined,
  });
});

test('an error of any kind counts as one that may pass', () => {
  for (const error of [new TypeError('x'), 'x', { x: 1 }, undefined, null])
    expect(verdictOn(aMessage(), error, 0, 0).type).toBe('again');
});

test('what the receiver asks for is kept to where it is longer than the back-off', () => {
  const asks = (retryAfter_ms: number) =>
    new DeliveryError('RECEIVER_UNAVAILABLE', 'busy', { retryAfter_ms });
  expect(verdictOn(aMessage(), asks(60_000), 0, 0)).toMatchObject({
    nextAttemptAt: 60_000,
    holdUntil: 60_000,
  });
  expect(verdictOn(aMessage(), asks(100), 0, 0)).toMatchObject({ nextAttemptAt: 1000, holdUntil: 100 });
  expect(verdictOn(aMessage(), asks(0), 0, 0)).toMatchObject({ nextAttemptAt: 1000, holdUntil: undefined });
});

test('a refusal is given up at the third time, and says so', () => {
  const types = [0, 1, 2].map((attempts) => verdictOn(aMessage({ attempts }), refusal, 0, 0).type);
  expect(types).toEqual(['again', 'again', 'give-up']);
  expect(verdictOn(aMessage({ attempts: 2 }), refusal, 0, 0).reason).toBe(
    'refused 3 times, the last time: no',
  );
});

test('a message is given up at the age of seven days', () => {
  const old = aMessage({ attempts: 700 });
  expect(verdictOn(old, mayPass, 7 * DAY_ms - 1, 0).type).toBe('again');
  expect(verdictOn(old, mayPass, 7 * DAY_ms, 0)).toEqual({
    type: 'give-up',
    reason: 'tried 701 times, the last time: down',
  });
});

test('a message that only seems old, because the clock was set, gets its ten attempts', () => {
  const at = Date.parse('2026-05-24T15:00:00Z');
  expect(verdictOn(aMessage({ attempts: 8 }), mayPass, at, 0).type).toBe('again');
  expect(verdictOn(aMessage({ attempts: 9 }), mayPass, at, 0).type).toBe('give-up');
});

test('a reason is one line, bounded and never empty', () => {
  expect(reasonOf(new Error('a\nb'))).toBe('a b');
  expect(reasonOf(new Error(''))).toBe('no reason given');
  expect(reasonOf('x'.repeat(5000))).toHaveLength(1000);
});

test('the defaults are those that are promised', () => {
  expect(PATIENCE).toMatchObject({ giveUp_ms: 7 * DAY_ms, refusedAttempts: 3, leastAttempts: 10 });
});
