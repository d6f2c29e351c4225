/** What was changed, by whom, from where: rows that are only ever added, each bound to the one before. */
import { createHash } from 'node:crypto';
import type { Database } from '../database.js';

/** What somebody began to change. Times are of the wall clock, ms. */
export interface Deed {
  readonly at: number;
  /** A name to sign in by, of a token, or of a way in. */
  readonly who: string;
  /** By what they showed who they are. */
  readonly how: string;
  /** From where. */
  readonly address: string;
  /** In one word: the operation. */
  readonly did: string;
  /** On what. */
  readonly what: string;
}

interface AuditRow extends Deed {
  readonly seq: number;
  /** The row that it says the result of; null in a row that begins something. */
  readonly began: number | null;
  readonly result: string | null;
}

/** A deed with what became of it; null where that was never written: the service ended over it. */
export type AuditEntry = Omit<AuditRow, 'began'>;

const COLUMNS = 'seq, at, who, how, address, did, what, began, result';

export class AuditStore {
  readonly #last;
  readonly #add;
  readonly #list;
  readonly #begin;
  readonly #count;

  constructor(database: Database) {
    this.#last = database.prepare('SELECT seq, chain FROM audit ORDER BY seq DESC LIMIT 1');
    this.#count = database.prepare('SELECT count(*) FROM audit WHERE did = ? AND at > ?').pluck();
    this.#add = database.prepare(
      `INSERT INTO audit (${COLUMNS}, chain) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    );
    this.#list = database.prepare(
      `SELECT seq, at, who, how, address, did, what, coalesce(result,
         (SELECT result FROM audit AS later WHERE later.began = one.seq)) AS result
       FROM audit AS one WHERE began IS NULL AND seq < ? ORDER BY seq DESC LIMIT ?`,
    );
    // Another process may write meanwhile: the last row is read and followed in one transaction.
    this.#begin = database.transaction((row: Omit<AuditRow, 'seq'>) => this.#append(row));
  }

  /** @param result where it is known at once. @returns the number of the row */
  begin(deed: Deed, result: string | null = null): number {
    return this.#begin.immediate({ ...deed, began: null, result });
  }

  /** @param began the row that it says the result of */
  end(began: number, deed: Deed, result: string): void {
    this.#begin.immediate({ ...deed, began, result });
  }

  /** Newest first, each with its result. */
  list(before: number, limit: number): AuditEntry[] {
    return this.#list.all(before, limit) as AuditEntry[];
  }

  /** How many rows of an operation there are since a time. */
  countOf(did: string, since: number): number {
    return this.#count.get(did, since) as number;
  }

  #append(row: Omit<AuditRow, 'seq'>): number {
    const last = this.#last.get() as { seq: number; chain: Buffer } | undefined;
    const seq = (last?.seq ?? 0) + 1;
    const { at, who, how, address, did, what, began, result } = row;
    const chain = chainOf(last?.chain ?? START, { ...row, seq });
    this.#add.run(seq, at, who, how, address, did, what, began, result, chain);
    return seq;
  }
}

/** Before the first row. */
const START = Buffer.alloc(32);

function chainOf(before: Buffer, row: AuditRow): Buffer {
  const { seq, at, who, how, address, did, what, began, result } = row;
  const text = JSON.stringify([seq, at, who, how, address, did, what, began, result]);
  return createHash('sha256').update(before).update(text, 'utf8').digest();
}

/** False of a database from before there was one. */
const hasTrail = (database: Database): boolean =>
  database
    .prepare("SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'audit'")
    .pluck()
    .get() !== 0;

/** Notes a deed that is over in a database that may be of an older program: nothing where it has no trail yet. */
export function noteIn(database: Database, deed: Deed, result: string): void {
  if (hasTrail(database)) new AuditStore(database).begin(deed, result);
}

/**
 * Whether the trail is whole: numbers without a gap, each row bound to the one before. Rows cut off at its end leave no
 * trace in it: they show against a backup.
 *
 * @returns what is wrong, in sentences
 */
export function auditProblems(database: Database): string[] {
  if (!hasTrail(database)) return [];
  let before: Buffer = START;
  let expected = 1;
  for (const row of database.prepare(`SELECT ${COLUMNS}, chain FROM audit ORDER BY seq`).iterate()) {
    const { chain, ...rest } = row as AuditRow & { chain: Buffer };
    if (rest.seq !== expected)
      return [`the audit trail has a gap: expected row ${expected}, got row ${rest.seq}`];
    if (!chainOf(before, rest).equals(chain))
      return [`the audit trail was changed: row ${rest.seq} does not follow from what stands before it`];
    before = chain;
    expected += 1;
  }
  return [];
}
