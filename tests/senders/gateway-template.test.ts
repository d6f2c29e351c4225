import { expect, test } from 'vitest';
import {
  fieldsOf,
  fillJson,
  fillText,
  fillUrl,
  leavesOf,
  namesOf,
  TEMPLATE_FIELDS,
} from '../../services/senders/gateway-template.js';

const VALUES = Object.freeze({
  to: '+260970000000',
  digits: '260970000000',
  text: 'a&b=c "d"\n<<key>> é/?#%+',
  key: 'k/1',
  from: 'Store',
  parts: '2',
});

test('a value in a URL is one part of a path or a query', () => {
  const url = new URL(fillUrl('https://a.example/<<key>>?to=<<to>>&text=<<text>>', VALUES));
  expect(url.pathname).toBe('/k%2F1');
  expect([...url.searchParams]).toEqual([
    ['to', VALUES.to],
    ['text', VALUES.text],
  ]);
});

test('in JSON strings are filled, names and other values stay', () => {
  const template = { to: ['<<to>>'], n: 3, none: null, '<<to>>': true, inner: { text: 'Alarm: <<text>>' } };
  const filled = JSON.parse(JSON.stringify(fillJson(template, VALUES)));
  expect(filled).toEqual({
    to: [VALUES.to],
    n: 3,
    none: null,
    '<<to>>': true,
    inner: { text: `Alarm: ${VALUES.text}` },
  });
});

test('the parts alone are a number, beside other text they are text', () => {
  expect(fillJson(['<<parts>>', 'of <<parts>>'], VALUES)).toEqual([2, 'of 2']);
});

test('what is filled in is not read as a field, nor as a pattern of replacement', () => {
  expect(fillText('<<text>>', VALUES)).toBe(VALUES.text);
  expect(fillText('<<text>>', { ...VALUES, text: "$& $1 $' $$" })).toBe("$& $1 $' $$");
});

test('a field can come several times and beside text', () => {
  expect(fillText('<<to>>,<<digits>>;<<to>>', VALUES)).toBe('+260970000000,260970000000;+260970000000');
});

test('fields are found where they stand', () => {
  expect(fieldsOf('url', 'a<<to>>b<<text>>c<<to>>')).toEqual(['to', 'text', 'to']);
  expect(fieldsOf('url', 'a < b > c <x> {{to}} %to% >>')).toEqual([]);
});

test.each(['phone', 'To', ' to', '', 'to ', 'toString', '__proto__', 'to\n'])(
  'the field %j is refused',
  (field) => {
    expect(() => fieldsOf('body', `x<<${field}>>`)).toThrow(
      `sms gateway: body: expected one of ${TEMPLATE_FIELDS.map((known) => `<<${known}>>`).join(', ')}, got `,
    );
  },
);

test.each(['<<to', 'a<<', '<<to>', '<<to>> <<text'])(
  'brackets that do not close are refused: %j',
  (template) => {
    expect(() => fieldsOf('url', template)).toThrow('got "<<" without ">>"');
  },
);

test('a long name is not repeated in whole', () => {
  expect(() => fieldsOf('url', `<<${'x'.repeat(500)}>>`)).toThrow(/x{40}>>"$/);
});

test('all names, at every depth', () => {
  expect(namesOf({ a: ['b', 1, { c: 'd' }], e: null })).toEqual(['a', 'e', 'c']);
  expect(namesOf('a')).toEqual([]);
});

test('all texts that are values', () => {
  expect(leavesOf({ a: ['b', 1, { c: 'd' }], e: null })).toEqual(['b', 'd']);
  expect(leavesOf(undefined)).toEqual([]);
});
