/**
 * Passwords at rest: scrypt (RFC 7914), as PHC texts `$scrypt$ln=15,r=8,p=3$salt$hash`.
 *
 * Source of the cost: OWASP's password storage sheet asks for N = 2^17, r = 8, p = 1 (128 MiB) or what it gives as equal to
 * it, of which N = 2^15, r = 8, p = 3 (from memory) takes 32 MiB: a board with 256 MiB has that once.
 */
import { randomBytes, type ScryptOptions, scrypt } from 'node:crypto';
import { SandlarderError } from '../../core/errors.js';
import { normalPassword } from '../../core/model/password.js';
import { isSame } from './secrets.js';

export interface PasswordCost {
  readonly log2N: number;
  readonly r: number;
  readonly p: number;
}

export const PASSWORD_COST: PasswordCost = Object.freeze({ log2N: 15, r: 8, p: 3 });

const SALT_bytes = 16;
const HASH_bytes = 32;

/** One is computed at a time, for its memory; so many more may wait, some seconds altogether. */
const MOST_WAITING = 16;

const PHC = /^\$scrypt\$ln=(\d{1,2}),r=(\d{1,2}),p=(\d{1,2})\$([A-Za-z0-9+/]+)\$([A-Za-z0-9+/]+)$/;

interface Kept {
  readonly cost: PasswordCost;
  readonly salt: Buffer;
  readonly hash: Buffer;
}

export class Passwords {
  readonly #cost: PasswordCost;
  #last: Promise<unknown> = Promise.resolve();
  #waiting = 0;

  constructor(cost: PasswordCost = PASSWORD_COST) {
    this.#cost = cost;
  }

  /** @throws SandlarderError LIMIT_EXCEEDED where too many wait already */
  async hash(password: string): Promise<string> {
    const salt = randomBytes(SALT_bytes);
    const hash = await this.#compute(password, salt, this.#cost);
    const { log2N, r, p } = this.#cost;
    return `$scrypt$ln=${log2N},r=${r},p=${p}$${base64(salt)}$${base64(hash)}`;
  }

  /**
   * Whether it is the password. Without one that is kept it takes as long, and it is not.
   *
   * @throws SandlarderError LIMIT_EXCEEDED where too many wait already
   */
  async isRight(password: string, text: string | null): Promise<boolean> {
    const kept = text === null ? undefined : read(text);
    const { cost, salt, hash } = kept ?? { cost: this.#cost, salt: NO_SALT, hash: NO_HASH };
    const equal = isSame(await this.#compute(password, salt, cost), hash);
    return equal && kept !== undefined;
  }

  /** Whether what is kept was computed at another cost than is asked for today. */
  isOutdated(text: string): boolean {
    const cost = read(text)?.cost;
    const { log2N, r, p } = this.#cost;
    return !(cost && cost.log2N === log2N && cost.r === r && cost.p === p);
  }

  #compute(password: string, salt: Buffer, cost: PasswordCost): Promise<Buffer> {
    if (!(this.#waiting < MOST_WAITING))
      throw new SandlarderError(
        'TOO_MANY_ATTEMPTS',
        `sign-in: expected at most ${MOST_WAITING} passwords to be looked at, got one more: try again in a minute`,
      );
    this.#waiting += 1;
    const turn = this.#last.then(() => derive(password, salt, cost));
    this.#last = turn.then(
      () => undefined,
      () => undefined,
    );
    return turn.finally(() => {
      this.#waiting -= 1;
    });
  }
}

const NO_SALT = Buffer.alloc(SALT_bytes);
const NO_HASH = Buffer.alloc(HASH_bytes);

const base64 = (bytes: Buffer): string => bytes.toString('base64').replace(/=+$/, '');

function read(text: string): Kept | undefined {
  const [, log2N, r, p, salt = '', hash = ''] = PHC.exec(text) ?? [];
  if (log2N === undefined) return undefined;
  return {
    cost: { log2N: Number(log2N), r: Number(r), p: Number(p) },
    salt: Buffer.from(salt, 'base64'),
    hash: Buffer.from(hash, 'base64'),
  };
}

function derive(password: string, salt: Buffer, { log2N, r, p }: PasswordCost): Promise<Buffer> {
  const N = 2 ** log2N;
  // Node refuses what takes more than `maxmem`: 128 N r bytes, and some beside.
  const options: ScryptOptions = { N, r, p, maxmem: 2 * 128 * r * (N + p) };
  return new Promise((resolve, reject) => {
    scrypt(normalPassword(password), salt, HASH_bytes, options, (error, hash) =>
      error ? reject(error) : resolve(hash),
    );
  });
}
