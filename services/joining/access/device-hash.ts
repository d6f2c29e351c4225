/**
 * A device's secret at rest: `$7$iterations$salt$hash`, PBKDF2 with HMAC-SHA-512 [RFC 8018 5.2], as Mosquitto's password
 * file has it (read off what its `mosquitto_passwd` 2.0 writes). One text so serves both brokers, and no secret need be
 * shown again to write that file.
 *
 * The secret is 256 bits by chance: nobody guesses one, so few iterations keep it as well as many, and a thousand probes
 * that come back at once cost a thousand short sums.
 */
import { pbkdf2Sync, randomBytes } from 'node:crypto';
import { isSame } from './secrets.js';

/** What `mosquitto_passwd` uses unless it is told otherwise. */
export const DEVICE_ITERATIONS = 101;

const SALT_bytes = 12;
const HASH_bytes = 64;

const TEXT = /^\$7\$([1-9]\d{0,6})\$([A-Za-z0-9+/]+=*)\$([A-Za-z0-9+/]+=*)$/;

const sum = (secret: Uint8Array | string, salt: Buffer, iterations: number): Buffer =>
  pbkdf2Sync(secret, salt, iterations, HASH_bytes, 'sha512');

export function hashForBroker(secret: string, iterations = DEVICE_ITERATIONS): string {
  const salt = randomBytes(SALT_bytes);
  return `$7$${iterations}$${salt.toString('base64')}$${sum(secret, salt, iterations).toString('base64')}`;
}

/** Whether a text as above is of this secret. False for a text of another form. */
export function isOfHash(secret: Uint8Array, text: string): boolean {
  const [, iterations, salt, hash] = TEXT.exec(text) ?? [];
  if (iterations === undefined || salt === undefined || hash === undefined) return false;
  return isSame(sum(secret, Buffer.from(salt, 'base64'), Number(iterations)), Buffer.from(hash, 'base64'));
}
