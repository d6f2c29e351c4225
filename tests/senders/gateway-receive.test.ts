import { expect, test } from 'vitest';
import { readGatewayMessage, receiveSchema } from '../../services/senders/gateway-receive.js';

const inJson = Object.freeze({ in: 'json', from: 'messages.0.sender', text: 'messages.0.body' } as const);
const inForm = Object.freeze({ in: 'form', from: 'From', text: 'Body' } as const);

test('JSON is read by paths', () => {
  const input = JSON.stringify({ messages: [{ sender: '+260970000000', body: 'ok 12\nthanks é' }] });
  expect(readGatewayMessage(inJson, input)).toEqual({ from: '+260970000000', text: 'ok 12\nthanks é' });
});

test('a form is read by names', () => {
  const input = 'Id=1&From=%2B260970000000&Body=ok+12%21&Body2=x';
  expect(readGatewayMessage(inForm, input)).toEqual({ from: '+260970000000', text: 'ok 12!' });
});

test.each(['?from=260970000000&text=ok', 'from=260970000000&text=ok'])('a query %s is read', (query) => {
  const receive = { in: 'query', from: 'from', text: 'text' } as const;
  expect(readGatewayMessage(receive, query)).toEqual({ from: '+260970000000', text: 'ok' });
});

test.each([
  ['+260970000000', '+260970000000'],
  [' 260970000000', '+260970000000'],
  ['00260970000000', '+260970000000'],
  ['+260 (97) 000-00.00', '+260970000000'],
  ['0970000000', '0970000000'],
  ['12345', '12345'],
  [' Store ', 'Store'],
  ['+1234567890123456', '+1234567890123456'],
])('the sender %j is %j', (from, read) => {
  const input = JSON.stringify({ messages: [{ sender: from, body: 'ok' }] });
  expect(readGatewayMessage(inJson, input).from).toBe(read);
});

test('numbers that are written as numbers are read', () => {
  const input = '{"messages":[{"sender":260970000000,"body":12}]}';
  expect(readGatewayMessage(inJson, input)).toEqual({ from: '+260970000000', text: '12' });
});

test('an empty text is a text', () => {
  expect(readGatewayMessage(inForm, 'From=12345&Body=')).toEqual({ from: '12345', text: '' });
});

test.each([
  ['no JSON', inJson, 'From=1', 'expected JSON'],
  ['nothing', inJson, '', 'expected JSON'],
  ['other JSON', inJson, '[]', 'expected a text at messages.0.sender of the json, got none'],
  [
    'an object as the text',
    inJson,
    '{"messages":[{"sender":"1","body":{}}]}',
    'expected a text at messages.0.body of the json, got object',
  ],
  [
    'null as the text',
    inJson,
    '{"messages":[{"sender":"1","body":null}]}',
    'expected a text at messages.0.body of the json, got object',
  ],
  [
    'half a number',
    inJson,
    '{"messages":[{"sender":1.5,"body":"x"}]}',
    'expected a text at messages.0.sender of the json, got number',
  ],
  ['no sender', inForm, 'Body=x', 'expected a text at From of the form, got none'],
  ['an empty sender', inForm, 'From=+&Body=x', 'expected a sender at From, got an empty one'],
  ['no text', inForm, 'From=12345', 'expected a text at Body of the form, got none'],
  [
    'a sender that comes twice',
    inForm,
    'From=1&From=2&Body=x',
    'expected the field From once, got it 2 times',
  ],
  [
    'more than 64 KiB',
    inForm,
    `From=1&Body=${'é'.repeat(40_000)}`,
    'expected at most 65536 bytes, got 80012',
  ],
])('%s is refused', (_what, receive, input, reason) => {
  expect(() => readGatewayMessage(receive, input)).toThrow(`sms gateway: ${reason}`);
});

test.each([
  {},
  { in: 'xml', from: 'a', text: 'b' },
  { in: 'form', from: '', text: 'b' },
  { ...inForm, key: 'x' },
])('the setting %j is refused', (setting) => {
  expect(receiveSchema.safeParse(setting).success).toBe(false);
});
