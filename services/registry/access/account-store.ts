import type { Role } from '../../core/model/roles.js';
import type { Database } from '../database.js';

/** Somebody who may sign in. */
export interface Account {
  /** By which they sign in. */
  readonly name: string;
  /** As others call them. */
  readonly shown: string;
  readonly role: Role;
  /** Ids of the beds of a keeper. */
  readonly beds: readonly string[];
  /** The person of a site description that they are, whose ways a link can be sent by; null where they are none. */
  readonly person: { readonly site: string; readonly id: string } | null;
  /** A scrypt text; null until they have chosen a password. */
  readonly password: string | null;
  /** Wall clock, ms. */
  readonly madeAt: number;
  /** Since when they may not sign in any more, wall clock, ms; null where they may. */
  readonly closedAt: number | null;
}

interface Row extends Omit<Account, 'beds' | 'person'> {
  readonly beds: string;
  readonly site: string | null;
  readonly person: string | null;
}

const COLUMNS = 'name, shown, role, beds, site, person, password, made_at AS madeAt, closed_at AS closedAt';

export class AccountStore {
  readonly #get;
  readonly #list;
  readonly #put;
  readonly #count;
  readonly #stewards;

  constructor(database: Database) {
    this.#get = database.prepare(`SELECT ${COLUMNS} FROM account WHERE name = ?`);
    this.#list = database.prepare(`SELECT ${COLUMNS} FROM account ORDER BY closed_at IS NOT NULL, name`);
    this.#count = database.prepare('SELECT count(*) FROM account').pluck();
    this.#put = database.prepare(
      `INSERT INTO account (name, shown, role, beds, site, person, password, made_at, closed_at)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (name) DO UPDATE SET shown = excluded.shown,
       role = excluded.role, beds = excluded.beds, site = excluded.site, person = excluded.person,
       password = excluded.password, closed_at = excluded.closed_at`,
    );
    this.#stewards = database
      .prepare(
        "SELECT name FROM account WHERE role = 'steward' AND closed_at IS NULL AND password IS NOT NULL",
      )
      .pluck();
  }

  get(name: string): Account | undefined {
    const row = this.#get.get(name) as Row | undefined;
    return row && accountOf(row);
  }

  /** Those who may sign in first, by name. */
  list(): Account[] {
    return (this.#list.all() as Row[]).map(accountOf);
  }

  count(): number {
    return this.#count.get() as number;
  }

  put({ name, shown, role, beds, person, password, madeAt, closedAt }: Account): void {
    const { site, id } = person ?? { site: null, id: null };
    this.#put.run(name, shown, role, JSON.stringify(beds), site, id, password, madeAt, closedAt);
  }

  /** Names of stewards who can sign in. */
  stewards(): string[] {
    return this.#stewards.all() as string[];
  }
}

const accountOf = ({ beds, site, person, ...row }: Row): Account => ({
  ...row,
  beds: JSON.parse(beds) as string[],
  person: site === null || person === null ? null : { site, id: person },
});
