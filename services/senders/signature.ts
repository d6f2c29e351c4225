/**
 * Signs what is posted to a web server, so that it can tell our messages from anybody else's.
 *
 * For whoever writes a receiver. Each request carries a header of two fields (a dictionary of RFC 8941):
 *
 *     Sandlarder-Signature: time=1779634800, mac=:FF7...base64...A==:
 *
 * - `time` is when it was sent, in seconds since 1970
 * - `mac` is HMAC-SHA-256 (RFC 2104) of `<time>.<body>` under the shared secret (its UTF-8 bytes), in base64
 *
 * To check: take the body as the bytes that came, before any parser; compute the MAC of the digits of `time`, a
 * full stop and these bytes; compare in constant time; refuse a `time` more than five minutes off your clock, or
 * whoever listened once can send it again. Within the five minutes drop repeats by the `Idempotency-Key` header,
 * which stays the same when a message is tried again while `time` and `mac` are new.
 */
import { createHmac, timingSafeEqual } from 'node:crypto';
import { SandlarderError } from '../core/errors.js';

export const SIGNATURE_HEADER = 'sandlarder-signature';

/** Characters of a secret at the least: 32 hexadecimal digits are 128 bits. */
export const SECRET_LENGTH = 32;

/** How far sender and receiver may be apart in time, s. */
export const TOLERANCE_s = 300;

/** What keeps a text from being a shared secret; undefined where nothing does. Says nothing of the text itself. */
export function secretProblem(secret: string): string | undefined {
  return secret.length >= SECRET_LENGTH
    ? undefined
    : `expected a secret of at least ${SECRET_LENGTH} characters, got ${secret.length}`;
}

function macOf(secret: string, time: string, body: string | Uint8Array): Buffer {
  return createHmac('sha256', secret).update(`${time}.`).update(body).digest();
}

/**
 * The value of the header.
 *
 * @param body as it goes over the wire; a string in UTF-8
 * @param now wall clock, ms
 * @throws SandlarderError OUT_OF_DOMAIN for a secret that is too short or a time before 1970
 */
export function signatureOf(secret: string, body: string | Uint8Array, now: number): string {
  const problem = secretProblem(secret);
  if (problem !== undefined) throw new SandlarderError('OUT_OF_DOMAIN', `signature: ${problem}`);
  if (!(now >= 0 && now <= Number.MAX_SAFE_INTEGER))
    throw new SandlarderError('OUT_OF_DOMAIN', `signature: expected a time in ms since 1970, got ${now}`);
  const time = String(Math.floor(now / 1000));
  return `time=${time}, mac=:${macOf(secret, time, body).toString('base64')}:`;
}

/** 32 bytes are 43 digits of base64 and one `=`. */
const HEADER = /^time=(\d{1,12}), ?mac=:([A-Za-z0-9+/]{43}=):$/;

export interface Signed {
  /** The header's value; undefined where there was none. */
  readonly header: string | undefined;
  /** As it came over the wire. */
  readonly body: string | Uint8Array;
  readonly secret: string;
  /** Wall clock of the receiver, ms. */
  readonly now: number;
  readonly tolerance_s?: number;
}

/**
 * Whether a body was signed with the secret, not long ago and not in the future. Takes as long for a wrong MAC as
 * for a right one.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a secret that is too short: nothing signed with it is to be believed
 */
export function verifySignature({ header, body, secret, now, tolerance_s = TOLERANCE_s }: Signed): boolean {
  const problem = secretProblem(secret);
  if (problem !== undefined) throw new SandlarderError('OUT_OF_DOMAIN', `signature: ${problem}`);
  const [, time, mac] = HEADER.exec(header ?? '') ?? [];
  if (time === undefined || mac === undefined) return false;
  const same = timingSafeEqual(macOf(secret, time, body), Buffer.from(mac, 'base64'));
  return same && Math.abs(Math.floor(now / 1000) - Number(time)) <= tolerance_s;
}
