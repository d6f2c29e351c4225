import { expect, test } from 'vitest';
import { answerProblem, secretsOf, withoutSecrets } from '../../services/senders/gateway-answer.js';
import { readGatewaySettings } from '../../services/senders/gateway-settings.js';

test.each([
  [{ path: 'ok' }, '{"ok":true}'],
  [{ path: 'id' }, '{"id":"m-1"}'],
  [{ path: 'messages.0.status', equals: 0 }, '{"messages":[{"status":0}]}'],
  [{ path: 'messages.0.status', equals: 0 }, '{"messages":[{"status":"0"}]}'],
  [{ path: 'error', equals: null }, '{"error":null}'],
  [{ path: 'status', matches: '^(queued|sent)$' }, '{"status":"queued"}'],
  [{ path: 'errors', matches: '^\\[\\]$' }, '{"errors":[]}'],
  [{ matches: '^OK' }, 'OK: m-1'],
])('%j takes %s for a success', (success, said) => {
  expect(answerProblem(success, said)).toBeUndefined();
});

test.each([
  [{ path: 'ok' }, '{"ok":false}', 'expected something at ok, got false'],
  [{ path: 'id' }, '{"id":""}', 'expected something at id, got ""'],
  [{ path: 'id' }, 'OK', 'expected something at id, got none'],
  [{ path: 'id' }, '{"id":"m-1"', 'expected something at id, got none'],
  [{ path: 'status', equals: 0 }, '{"status":1}', 'expected status to be 0, got 1'],
  [{ path: 'status', equals: 'undefined' }, '{}', 'expected status to be "undefined", got none'],
  [
    { path: 'error', equals: null },
    '{"error":"null and void"}',
    'expected error to be null, got "null and void"',
  ],
  [{ path: 'error', equals: 'null' }, '{}', 'expected error to be "null", got none'],
  [
    { path: 'status', equals: '[object Object]' },
    '{"status":{}}',
    'expected status to be "[object Object]", got {}',
  ],
  [
    { path: 'status', matches: 'sent' },
    '{"status":"failed"}',
    'expected status to be like sent, got "failed"',
  ],
  [{ path: 'status', matches: '' }, '{}', 'expected status to be like , got none'],
  [{ matches: '^OK' }, 'ERR 3', 'expected an answer like ^OK'],
])('%j does not take %s for one', (success, said, problem) => {
  expect(answerProblem(success, said)).toBe(problem);
});

test('everything in the settings that may be a secret is hidden, in each form in which it may come back', () => {
  const secrets = secretsOf(
    readGatewaySettings({
      url: 'https://gateway.example/v1/acc0unt-id/send?api=k%2Fey-in-url&text=<<text>>',
      headers: { authorization: `Basic ${btoa('user-name:p4ssw0rd')}`, 'x-key': 'header-s3cret' },
      contentType: 'json',
      body: { to: '<<to>>', auth: ['b0dy-secret'], mixed: 'pre-s3cret<<key>>' },
    }),
  );
  const texts = [
    'acc0unt-id',
    'k%2Fey-in-url',
    'k/ey-in-url',
    btoa('user-name:p4ssw0rd'),
    'p4ssw0rd',
    'header-s3cret',
    'b0dy-secret',
    'pre-s3cret',
  ];
  for (const text of texts) expect(withoutSecrets(`a ${text} b`, secrets)).toBe('a [hidden] b');
});

test('the longer of two secrets goes first, so that nothing of it is left', () => {
  const secrets = secretsOf(
    readGatewaySettings({
      url: 'https://gateway.example/?a=secret&b=secret-and-more',
      contentType: 'text',
      body: '<<to>><<text>>',
    }),
  );
  expect(withoutSecrets('secret-and-more secret', secrets)).toBe('[hidden] [hidden]');
});
