/**
 * Bench work at rest. Nothing is written over: each step is a revision of its own, and the newest stands.
 */
import { requireInDomain, SandlarderError } from '../core/errors.js';
import type { Bench, BenchState } from '../core/model/bench.js';
import type { Database } from './database.js';

/** A step of the registry's schema. */
export const BENCH_TABLE = `
    -- Every state of every bench work: the newest revision of each stands.
    CREATE TABLE bench (
      id TEXT NOT NULL, revision INTEGER NOT NULL, site TEXT NOT NULL, state TEXT NOT NULL,
      started_at INTEGER NOT NULL, document TEXT NOT NULL, written_at INTEGER NOT NULL,
      PRIMARY KEY (id, revision)
    ) STRICT, WITHOUT ROWID;
    `;

export interface BenchFilter {
  readonly site?: string;
  /** That it is in now. */
  readonly state?: BenchState;
  /** 1 to 1,000. */
  readonly limit: number;
}

const LIMIT_MOST = 1000;

export class BenchStore {
  readonly #add;
  readonly #put;
  readonly #get;
  readonly #list;

  constructor(database: Database) {
    const columns = 'bench (id, revision, site, state, started_at, document, written_at)';
    this.#add = database.prepare(
      `INSERT INTO ${columns} SELECT @id, 1, @site, @state, @startedAt, @document, @writtenAt
       WHERE NOT EXISTS (SELECT 1 FROM bench WHERE id = @id)`,
    );
    this.#put = database.prepare(
      `INSERT INTO ${columns} SELECT @id, max(revision) + 1, @site, @state, @startedAt, @document, @writtenAt
       FROM bench WHERE id = @id HAVING count(*) > 0`,
    );
    this.#get = database
      .prepare('SELECT document FROM bench WHERE id = ? ORDER BY revision DESC LIMIT 1')
      .pluck();
    this.#list = database
      .prepare(
        `SELECT document FROM bench AS one
         WHERE revision = (SELECT max(revision) FROM bench WHERE id = one.id)
         AND (@site IS NULL OR site = @site) AND (@state IS NULL OR state = @state)
         ORDER BY started_at DESC, id DESC LIMIT @limit`,
      )
      .pluck();
  }

  /**
   * @param writtenAt wall clock, ms
   * @throws SandlarderError CONFLICT where there is one of this id
   */
  add(bench: Bench, writtenAt: number): void {
    if (this.#add.run(rowOf(bench, writtenAt)).changes === 0)
      throw new SandlarderError('CONFLICT', `bench ${bench.id}: expected a new id, got one that is taken`);
  }

  /**
   * Adds the state that it is in now.
   *
   * @param writtenAt wall clock, ms
   * @throws SandlarderError NOT_FOUND where there is none of this id
   */
  put(bench: Bench, writtenAt: number): void {
    if (this.#put.run(rowOf(bench, writtenAt)).changes === 0)
      throw new SandlarderError('NOT_FOUND', `bench ${bench.id}: expected one that was added, got none`);
  }

  get(id: string): Bench | undefined {
    const text = this.#get.get(id) as string | undefined;
    return text === undefined ? undefined : (JSON.parse(text) as Bench);
  }

  /**
   * The newest first, by when they began.
   *
   * @throws SandlarderError OUT_OF_DOMAIN for a limit outside 1 to 1,000
   */
  list({ site, state, limit }: BenchFilter): Bench[] {
    requireInDomain('limit', limit, 1, LIMIT_MOST);
    const texts = this.#list.all({ site: site ?? null, state: state ?? null, limit }) as string[];
    return texts.map((text) => JSON.parse(text) as Bench);
  }
}

const rowOf = (bench: Bench, writtenAt: number) => ({
  id: bench.id,
  site: bench.site,
  state: bench.state,
  startedAt: bench.startedAt,
  document: JSON.stringify(bench),
  writtenAt,
});
