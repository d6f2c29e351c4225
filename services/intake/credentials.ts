/** Who may connect to the built-in broker, and as whom. */
import { createHash, timingSafeEqual } from 'node:crypto';
import type { Device } from '../core/model/device.js';

/** Whoever was let in. */
export interface Speaker {
  /** User name, as messages call it. */
  readonly name: string;
  /** Says and hears what the contract gives this device; without one, all that the contract has. */
  readonly device?: Device;
  /** The secret as it was kept when it was shown: where another is kept by now, the connection is over. */
  readonly kept?: string;
}

/** @returns as whom the user may connect with this password; undefined where they may not */
export type Authenticate = (
  user: string | undefined,
  password: Uint8Array | undefined,
) => Speaker | undefined;

/** Of a broker that asks nobody. */
export const ANY_SPEAKER: Speaker = Object.freeze({ name: 'anyone' });

const digest = (secret: Uint8Array | string): Buffer => createHash('sha256').update(secret).digest();

/** Accepts the users of a list, each with its password; takes the same time whether or how much of it is wrong. */
export function fromCredentials(passwordOfUser: ReadonlyMap<string, string>): Authenticate {
  const digests = new Map([...passwordOfUser].map(([user, password]) => [user, digest(password)]));
  const nobody = digest('');
  return (user, password) => {
    const expected = user === undefined ? undefined : digests.get(user);
    const equal = timingSafeEqual(expected ?? nobody, digest(password ?? ''));
    const isRight = equal && expected !== undefined && password !== undefined;
    return isRight && user !== undefined ? { name: user } : undefined;
  };
}
