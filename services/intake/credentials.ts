/** Who may connect to the built-in broker. */
import { createHash, timingSafeEqual } from 'node:crypto';

/** @returns whether the user may connect with this password */
export type Authenticate = (user: string | undefined, password: Uint8Array | undefined) => boolean;

const digest = (secret: Uint8Array | string): Buffer => createHash('sha256').update(secret).digest();

/** Accepts the users of a list, each with its password; takes the same time whether or how much of it is wrong. */
export function fromCredentials(passwordOfUser: ReadonlyMap<string, string>): Authenticate {
  const digests = new Map([...passwordOfUser].map(([user, password]) => [user, digest(password)]));
  const nobody = digest('');
  return (user, password) => {
    const expected = user === undefined ? undefined : digests.get(user);
    const equal = timingSafeEqual(expected ?? nobody, digest(password ?? ''));
    return equal && expected !== undefined && password !== undefined;
  };
}
