import type { Role } from '../../core/model/roles.js';
import type { Database } from '../database.js';

/** What a machine shows instead of a sign-in: of its secret the hash alone is kept. Times are of the wall clock, ms. */
export interface MachineToken {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  readonly beds: readonly string[];
  readonly madeBy: string;
  readonly madeAt: number;
  readonly endsAt: number;
  readonly usedAt: number | null;
  readonly revokedAt: number | null;
}

type Row = Omit<MachineToken, 'beds'> & { readonly beds: string; readonly hash: Buffer };

const COLUMNS = `id, name, role, beds, made_by AS madeBy, made_at AS madeAt, ends_at AS endsAt, used_at AS usedAt,
  revoked_at AS revokedAt, hash`;

export class TokenStore {
  readonly #add;
  readonly #get;
  readonly #list;
  readonly #use;
  readonly #revoke;
  readonly #count;

  constructor(database: Database) {
    this.#add = database.prepare(
      `INSERT INTO machine_token (hash, id, name, role, beds, made_by, made_at, ends_at)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
    );
    this.#get = database.prepare(
      `SELECT ${COLUMNS} FROM machine_token WHERE hash = ? AND revoked_at IS NULL AND ends_at > ?`,
    );
    this.#list = database.prepare(
      `SELECT ${COLUMNS} FROM machine_token ORDER BY revoked_at IS NOT NULL, made_at DESC LIMIT ?`,
    );
    this.#use = database.prepare('UPDATE machine_token SET used_at = ? WHERE id = ?');
    this.#revoke = database.prepare(
      'UPDATE machine_token SET revoked_at = ? WHERE id = ? AND revoked_at IS NULL',
    );
    this.#count = database
      .prepare('SELECT count(*) FROM machine_token WHERE revoked_at IS NULL AND ends_at > ?')
      .pluck();
  }

  add(hash: Buffer, token: Omit<MachineToken, 'usedAt' | 'revokedAt'>): void {
    const { id, name, role, beds, madeBy, madeAt, endsAt } = token;
    this.#add.run(hash, id, name, role, JSON.stringify(beds), madeBy, madeAt, endsAt);
  }

  /** One that holds, with its hash to be compared. */
  get(hash: Buffer, now: number): (MachineToken & { readonly hash: Buffer }) | undefined {
    const row = this.#get.get(hash, now) as Row | undefined;
    return row && { ...row, beds: JSON.parse(row.beds) as string[] };
  }

  /** Those that were not revoked first, then the newest. */
  list(limit: number): MachineToken[] {
    return (this.#list.all(limit) as Row[]).map(({ hash: _hash, beds, ...row }) => ({
      ...row,
      beds: JSON.parse(beds) as string[],
    }));
  }

  used(id: string, at: number): void {
    this.#use.run(at, id);
  }

  /** @returns whether there was one that held */
  revoke(id: string, at: number): boolean {
    return this.#revoke.run(at, id).changes > 0;
  }

  /** How many hold. */
  count(now: number): number {
    return this.#count.get(now) as number;
  }
}
