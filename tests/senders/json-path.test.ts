import { expect, test } from 'vitest';
import { parsePath, valueAt } from '../../services/senders/json-path.js';

const JSON_VALUE = Object.freeze(
  JSON.parse('{"messages":[{"status":"ok","n":0},null],"empty":"","a b":1,"__proto__":{"own":2}}'),
);

test.each([
  ['messages.0.status', 'ok'],
  ['messages.0.n', 0],
  ['messages.1', null],
  ['empty', ''],
  ['a b', 1],
  ['__proto__.own', 2],
])('%s is %j', (path, value) => {
  expect(valueAt(JSON_VALUE, parsePath(path))).toEqual(value);
});

test.each([
  'messages.2',
  'messages.00',
  'messages.-1',
  'messages.1.x',
  'messages.length',
  'messages.0.status.length',
  'messages.0.status.0',
  'nothing',
  'toString',
  'constructor.name',
])('%s is not there', (path) => {
  expect(valueAt(JSON_VALUE, parsePath(path))).toBeUndefined();
});

test.each([undefined, null, 3, 'text', true])('in %j there is nothing', (json) => {
  expect(valueAt(json, ['a'])).toBeUndefined();
});

test.each(['', '.', 'a.', '.a', 'a..b', ' a', 'a. b', `${'a.'.repeat(16)}a`])(
  'the path %j is refused',
  (path) => {
    expect(() => parsePath(path)).toThrow(/^expected a path of 1 to 16 names or indexes/);
  },
);

test('a path of 16 steps is read', () => {
  expect(parsePath(`${'a.'.repeat(15)}a`)).toHaveLength(16);
});
