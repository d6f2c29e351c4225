/** One user and password for the whole service, asked for by HTTP Basic (RFC 7617). */
import { createHash, timingSafeEqual } from 'node:crypto';
import { SandlarderError } from '../core/errors.js';

export interface Credentials {
  readonly user: string;
  readonly password: string;
}

/** Shorter passwords fall to guessing over a network; longer ones are mistakes. Characters. */
const PASSWORD_LENGTH = { least: 8, most: 256 } as const;

/** Sent with 401; the charset tells clients to encode in UTF-8 [RFC 7617 2.1]. */
export const CHALLENGE = 'Basic realm="sandlarder", charset="UTF-8"';

const BASIC = /^Basic +([A-Za-z0-9+/]+={0,2})$/i;

/** A letter of no control code, as user and password must be made of [RFC 7617 2]. */
const PRINTABLE = /^[^\p{Cc}]*$/u;

/**
 * Refuses credentials that could not be sent by HTTP Basic or protect nothing. Never repeats the password.
 *
 * @throws SandlarderError WRONG_USAGE
 */
export function requireUsable({ user, password }: Credentials): void {
  if (!(user.length >= 1 && user.length <= 100 && PRINTABLE.test(user) && !user.includes(':')))
    throw new SandlarderError(
      'WRONG_USAGE',
      `user must be 1 to 100 characters without ":" or control characters, got ${JSON.stringify(user)}`,
    );
  const { least, most } = PASSWORD_LENGTH;
  if (!(password.length >= least && password.length <= most && PRINTABLE.test(password)))
    throw new SandlarderError(
      'WRONG_USAGE',
      `password must be ${least} to ${most} characters without control characters, got ${password.length} characters`,
    );
}

/** Of one length whatever the text, so that the comparison takes one time. */
const digest = (text: string): Buffer => createHash('sha256').update(text.normalize('NFC'), 'utf8').digest();

/** A judge of `Authorization` headers; its time does not depend on how much of a guess is right. */
export function credentialsJudge(expected: Credentials): (authorization: string | undefined) => boolean {
  const user = digest(expected.user);
  const password = digest(expected.password);
  return (authorization) => {
    const given = readBasic(authorization);
    const userIsRight = timingSafeEqual(digest(given?.user ?? ''), user);
    const passwordIsRight = timingSafeEqual(digest(given?.password ?? ''), password);
    return given !== undefined && userIsRight && passwordIsRight;
  };
}

/** Reads a Basic `Authorization` header; the password may hold colons, the user may not [RFC 7617 2]. */
export function readBasic(authorization: string | undefined): Credentials | undefined {
  const encoded = BASIC.exec(authorization ?? '')?.[1];
  if (encoded === undefined) return undefined;
  const text = Buffer.from(encoded, 'base64').toString('utf8');
  const colon = text.indexOf(':');
  return colon < 0 ? undefined : { user: text.slice(0, colon), password: text.slice(colon + 1) };
}
