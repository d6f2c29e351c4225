import { describe, expect, test } from 'vitest';
import { keyOfAddress, Lockout } from '../../../services/joining/access/lockout.js';
import { PASSWORD_COST, Passwords } from '../../../services/joining/access/passwords.js';
import { isSame } from '../../../services/joining/access/secrets.js';
import { CHEAP } from './an-access.js';

const LIMITS = { free: 2, first_ms: 1000, most_ms: 8000, forget_ms: 60_000, keys: 3 };

test('waits double up to the longest, are forgotten, and a clock put back holds nobody', () => {
  let now = 1_000_000;
  const lockout = new Lockout(LIMITS, () => now);
  const waits = Array.from({ length: 8 }, () => {
    lockout.attempt('a');
    return lockout.wait_s('a');
  });
  expect(waits).toEqual([0, 1, 2, 4, 8, 8, 8, 8]);
  now += 60_000;
  expect(lockout.wait_s('a')).toBe(0);
  for (let index = 0; index < 4; index += 1) lockout.attempt('a');
  now -= 5_000;
  expect(lockout.wait_s('a')).toBe(0);
});

test('a full table forgets the key tried longest ago, and grows no further', () => {
  const lockout = new Lockout(LIMITS, () => 0);
  for (const key of ['a', 'a', 'a', 'b', 'c', 'a', 'd', 'e']) lockout.attempt(key);
  expect(lockout.size).toBe(3);
  expect(lockout.wait_s('a')).toBe(4);
  for (let index = 0; index < 1000; index += 1) lockout.attempt(`name-${index}`);
  expect(lockout.size).toBe(3);
});

test.each([
  ['192.0.2.7', '192.0.2.7'],
  ['::ffff:192.0.2.7', '192.0.2.7'],
  ['2001:db8:1:2:3:4:5:6', '2001:db8:1:2'],
  ['2001:db8::6', '2001:db8:0:0'],
  ['::1', '0:0:0:0'],
])('%s counts as %s', (address, key) => expect(keyOfAddress(address)).toBe(key));

describe('passwords', () => {
  test('so many wait, and one more is told to come later', async () => {
    const passwords = new Passwords(CHEAP);
    const waiting = Array.from({ length: 16 }, () => passwords.isRight('x', null));
    await expect(passwords.isRight('x', null)).rejects.toMatchObject({ code: 'TOO_MANY_ATTEMPTS' });
    expect(await Promise.all(waiting)).toEqual(Array(16).fill(false));
    expect(await passwords.isRight('x', null)).toBe(false);
  });

  test.each(['', 'plain', '$scrypt$ln=1,r=1,p=1$', '$argon2id$v=19$x'])('%j is nobody’s', async (text) => {
    expect(await new Passwords(CHEAP).isRight(text, text)).toBe(false);
  });

  test('the same password is kept in another form each time', async () => {
    const passwords = new Passwords(CHEAP);
    expect(await passwords.hash('x')).not.toBe(await passwords.hash('x'));
  });

  // OWASP's least of memory and work together: N = 2^17, r = 8, p = 1 or as much work with less memory.
  test('what they cost is what is asked for, in 32 MiB', async () => {
    const { log2N, r, p } = PASSWORD_COST;
    expect(2 ** log2N * r * p).toBeGreaterThanOrEqual((3 / 4) * 2 ** 17 * 8);
    expect(128 * 2 ** log2N * r).toBe(32 * 1024 * 1024);
    expect(await new Passwords().isRight('x', null)).toBe(false);
  });

  test('secrets of another length are not the same, and no error', () => {
    expect(isSame(Buffer.alloc(32), Buffer.alloc(31))).toBe(false);
    expect(isSame(Buffer.alloc(32), Buffer.alloc(32))).toBe(true);
  });
});
