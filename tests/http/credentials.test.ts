import { describe, expect, test } from 'vitest';
import { credentialsJudge, readBasic, requireUsable } from '../../services/http/credentials.js';

const basic = (text: string): string => `Basic ${Buffer.from(text).toString('base64')}`;

describe('a Basic header', () => {
  // The examples of the standard [V: RFC 7617 2 and 2.1].
  test.each([
    ['Basic QWxhZGRpbjpvcGVuIHNlc2FtZQ==', 'Aladdin', 'open sesame'],
    ['Basic dGVzdDoxMjPCow==', 'test', '123£'],
  ])('%s is read', (header, user, password) => expect(readBasic(header)).toEqual({ user, password }));

  test('the scheme is in any case, and the password may hold colons', () => {
    expect(readBasic(basic('keeper:a:b:c').replace('Basic', 'bAsIc'))).toEqual({
      user: 'keeper',
      password: 'a:b:c',
    });
  });

  test.each([
    undefined,
    '',
    'Basic',
    'Basic ',
    'Bearer abc',
    `x${basic('a:b')}`,
    `${basic('a:b')} x`,
    'Basic ****',
    basic('no colon'),
  ])('%j is none', (header) => expect(readBasic(header)).toBeUndefined());
});

describe('judging', () => {
  const isRight = credentialsJudge({ user: 'keeper', password: 'sand and r\u00f6ots' });

  test('lets the right ones in, however the letters are composed', () => {
    expect(isRight(basic('keeper:sand and r\u00f6ots'))).toBe(true);
    expect(isRight(basic('keeper:sand and ro\u0308ots'))).toBe(true);
  });

  test.each([
    undefined,
    basic('keeper:'),
    basic(':sand and r\u00f6ots'),
    basic('keeper:sand and r\u00f6ot'),
    basic('keeper:sand and r\u00f6ots '),
    basic('Keeper:sand and r\u00f6ots'),
    basic('sand and r\u00f6ots:keeper'),
    basic('keepe:rsand and r\u00f6ots'),
  ])('%j stays out', (header) => expect(isRight(header)).toBe(false));
});

describe('credentials that protect nothing or cannot be sent', () => {
  test.each([
    ['', 'long enough'],
    ['kee:per', 'long enough'],
    ['kee\nper', 'long enough'],
    ['k'.repeat(101), 'long enough'],
    ['keeper', ''],
    ['keeper', 'seven77'],
    ['keeper', 'with\u0000control'],
    ['keeper', 'p'.repeat(257)],
  ])('%j with %j are refused', (user, password) => {
    expect(() => requireUsable({ user, password })).toThrow(
      expect.objectContaining({ name: 'SandlarderError', code: 'WRONG_USAGE' }),
    );
  });

  test('the sentence does not repeat the password', () => {
    expect(() => requireUsable({ user: 'keeper', password: 'secret!' })).toThrow(/^(?!.*secret!).*$/s);
  });

  test('usable ones pass', () => {
    expect(() => requireUsable({ user: 'keeper', password: 'eight888' })).not.toThrow();
  });
});
