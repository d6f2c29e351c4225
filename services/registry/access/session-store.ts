import type { Database } from '../database.js';

/** A sign-in that holds: of its secret the hash alone is kept. Times are of the wall clock, ms. */
export interface Session {
  readonly id: string;
  readonly account: string;
  readonly madeAt: number;
  readonly usedAt: number;
  readonly endsAt: number;
  /** From where it was made. */
  readonly address: string;
  /** What the browser said it is. */
  readonly device: string;
}

const COLUMNS = 'id, account, made_at AS madeAt, used_at AS usedAt, ends_at AS endsAt, address, device, hash';
const HOLDS = 'revoked_at IS NULL AND ends_at > ?';

export class SessionStore {
  readonly #add;
  readonly #get;
  readonly #list;
  readonly #use;
  readonly #revoke;
  readonly #revokeOthers;
  readonly #surplus;
  readonly #knows;
  readonly #forget;

  constructor(database: Database) {
    this.#add = database.prepare(
      `INSERT INTO session (hash, id, account, made_at, used_at, ends_at, address, device)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
    );
    this.#get = database.prepare(`SELECT ${COLUMNS} FROM session WHERE hash = ? AND ${HOLDS}`);
    this.#list = database.prepare(
      `SELECT ${COLUMNS} FROM session WHERE ${HOLDS} AND account = coalesce(?, account)
       ORDER BY used_at DESC LIMIT ?`,
    );
    this.#use = database.prepare('UPDATE session SET used_at = ?, ends_at = ? WHERE id = ?');
    this.#revoke = database.prepare(
      'UPDATE session SET revoked_at = ? WHERE id = ? AND account = coalesce(?, account) AND revoked_at IS NULL',
    );
    this.#revokeOthers = database.prepare(
      'UPDATE session SET revoked_at = ? WHERE account = ? AND id IS NOT ? AND revoked_at IS NULL',
    );
    this.#surplus = database.prepare(
      `UPDATE session SET revoked_at = ? WHERE account = ? AND revoked_at IS NULL AND id NOT IN
       (SELECT id FROM session WHERE account = ? AND revoked_at IS NULL ORDER BY used_at DESC LIMIT ?)`,
    );
    this.#knows = database
      .prepare('SELECT EXISTS (SELECT 1 FROM session WHERE account = ? AND address = ? AND made_at > ?)')
      .pluck();
    this.#forget = database.prepare(
      'DELETE FROM session WHERE min(ends_at, coalesce(revoked_at, ends_at)) < ?',
    );
  }

  add(hash: Buffer, { id, account, madeAt, endsAt, address, device }: Omit<Session, 'usedAt'>): void {
    this.#add.run(hash, id, account, madeAt, madeAt, endsAt, address, device);
  }

  /** One that holds, with its hash to be compared. */
  get(hash: Buffer, now: number): (Session & { readonly hash: Buffer }) | undefined {
    return this.#get.get(hash, now) as (Session & { hash: Buffer }) | undefined;
  }

  /** Those that hold, the last used first: of one account, or of all. */
  list(now: number, account: string | null, limit: number): Session[] {
    return (this.#list.all(now, account, limit) as (Session & { hash: Buffer })[]).map(
      ({ hash: _hash, ...session }) => session,
    );
  }

  used(id: string, at: number, endsAt: number): void {
    this.#use.run(at, endsAt, id);
  }

  /** @param account whose it must be; null for anybody's. @returns whether there was one that held */
  revoke(id: string, account: string | null, at: number): boolean {
    return this.#revoke.run(at, id, account).changes > 0;
  }

  /** All of an account but the one named. */
  revokeOthers(account: string, but: string | null, at: number): void {
    this.#revokeOthers.run(at, account, but);
  }

  /** Leaves an account so many: those used last. */
  revokeSurplus(account: string, most: number, at: number): void {
    this.#surplus.run(at, account, account, most);
  }

  /** Whether the account was signed in to from an address since a time. */
  knows(account: string, address: string, since: number): boolean {
    return this.#knows.get(account, address, since) === 1;
  }

  /** Takes away what ended before a time. */
  forget(before: number): void {
    this.#forget.run(before);
  }
}
