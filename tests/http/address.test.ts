import { describe, expect, test } from 'vitest';
import { formatAddress, hostOfHeader, isLoopback, parseListenAddress } from '../../services/http/address.js';

describe('an address to listen on', () => {
  test.each([
    ['127.0.0.1:8080', '127.0.0.1', 8080],
    ['[::1]:0', '::1', 0],
    ['shed.example:65535', 'shed.example', 65_535],
  ])('%s is read and written back', (text, host, port) => {
    expect(parseListenAddress(text)).toEqual({ host, port });
    expect(formatAddress({ host, port })).toBe(text);
  });

  test.each([
    '',
    '8080',
    ':8080',
    '127.0.0.1',
    '127.0.0.1:',
    '127.0.0.1:65536',
    '127.0.0.1:-1',
    '127.0.0.1:8e3',
    '127.0.0.1:080800',
    '::1:8080',
    '[::1]',
    '[127.0.0.1]:8080',
    '[::g]:8080',
    'http://127.0.0.1:8080',
    '127.0.0.1:8080/',
    'a b:8080',
    '127.0.0.1:8080\n',
  ])('%j is refused with what was expected', (text) => {
    expect(() => parseListenAddress(text)).toThrow(
      expect.objectContaining({ code: 'WRONG_USAGE', message: expect.stringContaining('HOST:PORT') }),
    );
  });
});

describe('loopback', () => {
  // 127.0.0.0/8 [V: RFC 1122 3.2.1.3 (g)], ::1 [V: RFC 4291 2.5.3], localhost [V: RFC 6761 6.3]
  test.each([
    '127.0.0.1',
    '127.255.255.254',
    '::1',
    '0:0:0:0:0:0:0:1',
    '::ffff:127.0.0.1',
    'localhost',
    'LOCALHOST',
  ])('%s is this machine', (host) => expect(isLoopback(host)).toBe(true));

  test.each([
    '',
    '0.0.0.0',
    '::',
    '128.0.0.1',
    '126.255.255.255',
    '10.0.0.1',
    '::2',
    '::ffff:10.0.0.1',
    'localhost.example',
    '127.0.0.1.example',
    'example',
    '2130706433',
    '127.1',
  ])('%j is not', (host) => expect(isLoopback(host)).toBe(false));
});

describe('the Host header', () => {
  test.each([
    ['localhost', 'localhost'],
    ['localhost:8080', 'localhost'],
    ['127.0.0.1:80', '127.0.0.1'],
    ['[::1]:8080', '::1'],
    ['[::1]', '::1'],
  ])('%s names %s', (header, host) => expect(hostOfHeader(header)).toBe(host));

  test.each([
    undefined,
    '',
    ':80',
    'a:b',
    'localhost:80:80',
    'localhost evil',
    'user@[::1]',
    '::1',
    'localhost/',
  ])('%j names nothing', (header) => expect(hostOfHeader(header)).toBeUndefined());
});
