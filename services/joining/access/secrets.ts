/** Secrets that a machine makes and a machine shows: random, and kept as hashes alone. */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/** 256 bits: nobody guesses one, so a plain hash keeps it as well as a slow one. */
const SECRET_bytes = 32;

export const newSecret = (): string => randomBytes(SECRET_bytes).toString('base64url');

/** By which others name what a secret opens. */
export const newId = (): string => randomBytes(6).toString('hex');

export const hashOf = (secret: string): Buffer => createHash('sha256').update(secret, 'utf8').digest();

/** Takes one time however much of the two is alike. */
export const isSame = (one: Buffer, other: Buffer): boolean =>
  one.length === other.length && timingSafeEqual(one, other);
