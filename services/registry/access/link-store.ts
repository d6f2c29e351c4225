import type { Database } from '../database.js';

export const LINK_PURPOSES = ['first-steward', 'choose-password', 'sign-in'] as const;
export type LinkPurpose = (typeof LINK_PURPOSES)[number];

/** A link that lets somebody in once. Times are of the wall clock, ms. */
export interface SignInLink {
  readonly purpose: LinkPurpose;
  /** Whose; null for the first steward, who has none yet. */
  readonly account: string | null;
  readonly madeAt: number;
  readonly endsAt: number;
}

export class SignInLinkStore {
  readonly #add;
  readonly #get;
  readonly #use;
  readonly #endAll;
  readonly #since;
  readonly #forget;

  constructor(database: Database) {
    this.#add = database.prepare(
      'INSERT INTO sign_in_link (hash, purpose, account, made_at, ends_at) VALUES (?, ?, ?, ?, ?)',
    );
    this.#get = database.prepare(
      `SELECT purpose, account, made_at AS madeAt, ends_at AS endsAt FROM sign_in_link
       WHERE hash = ? AND used_at IS NULL AND ends_at > ?`,
    );
    this.#use = database.prepare('UPDATE sign_in_link SET used_at = ? WHERE hash = ? AND used_at IS NULL');
    this.#endAll = database.prepare(
      'UPDATE sign_in_link SET ends_at = ? WHERE purpose = ? AND account IS ? AND used_at IS NULL AND ends_at > ?',
    );
    this.#since = database
      .prepare('SELECT count(*) FROM sign_in_link WHERE purpose = ? AND account IS ? AND made_at > ?')
      .pluck();
    this.#forget = database.prepare('DELETE FROM sign_in_link WHERE ends_at < ?');
  }

  add(hash: Buffer, { purpose, account, madeAt, endsAt }: SignInLink): void {
    this.#add.run(hash, purpose, account, madeAt, endsAt);
  }

  /** One that was not used and still holds. */
  get(hash: Buffer, now: number): SignInLink | undefined {
    return this.#get.get(hash, now) as SignInLink | undefined;
  }

  /** @returns false where somebody was sooner */
  use(hash: Buffer, at: number): boolean {
    return this.#use.run(at, hash).changes > 0;
  }

  /** Ends what was not used of these. */
  endAll(purpose: LinkPurpose, account: string | null, at: number): void {
    this.#endAll.run(at, purpose, account, at);
  }

  /** How many were made since a time. */
  madeSince(purpose: LinkPurpose, account: string | null, since: number): number {
    return this.#since.get(purpose, account, since) as number;
  }

  /** Takes away what ended before a time. */
  forget(before: number): void {
    this.#forget.run(before);
  }
}
