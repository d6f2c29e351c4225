import type { Inspection } from '../core/model/inspection.js';
import type { Database } from './database.js';

/** What people found when they opened a bed. */
export class InspectionStore {
  readonly #add;
  readonly #between;
  readonly #latest;
  readonly #newest;
  readonly #get;
  readonly #siteOf;
  readonly #page;
  readonly #openedAt;

  constructor(database: Database) {
    this.#add = database.prepare(
      'INSERT INTO inspection (id, site, bed, at, document, written_at) VALUES (?, ?, ?, ?, ?, ?)',
    );
    this.#between = database
      .prepare('SELECT document FROM inspection WHERE bed = ? AND at >= ? AND at < ? ORDER BY at, id')
      .pluck();
    this.#latest = database
      .prepare('SELECT document FROM inspection WHERE bed = ? ORDER BY at DESC, id DESC LIMIT 1')
      .pluck();
    this.#newest = database.prepare('SELECT max(at) FROM inspection WHERE bed = ?').pluck();
    this.#get = database.prepare('SELECT document FROM inspection WHERE id = ?').pluck();
    this.#openedAt = database
      .prepare("SELECT max(at) FROM inspection WHERE bed = ? AND at >= ? AND document ->> '$.opened' = 1")
      .pluck();
    this.#siteOf = database.prepare('SELECT site FROM inspection WHERE id = ?').pluck();
    this.#page = database
      .prepare(
        `SELECT document FROM inspection WHERE bed = @bed AND
         (@after IS NULL OR (at, id) < (SELECT at, id FROM inspection WHERE id = @after))
         ORDER BY at DESC, id DESC LIMIT @most`,
      )
      .pluck();
  }

  /** @param writtenAt wall clock, ms */
  add(site: string, inspection: Inspection, writtenAt: number): void {
    const { id, bed, at } = inspection;
    this.#add.run(id, site, bed, at, JSON.stringify(inspection), writtenAt);
  }

  /** Inspections with `from <= at < to`, in order of time. */
  between(bed: string, from: number, to: number): Inspection[] {
    return (this.#between.all(bed, from, to) as string[]).map((text) => JSON.parse(text) as Inspection);
  }

  get(id: string): Inspection | undefined {
    const text = this.#get.get(id) as string | undefined;
    return text === undefined ? undefined : (JSON.parse(text) as Inspection);
  }

  siteOf(id: string): string | undefined {
    return this.#siteOf.get(id) as string | undefined;
  }

  /**
   * Newest first, at most `limit`, and whether there are more.
   *
   * @param after id of the last that was seen already
   */
  page(bed: string, limit: number, after?: string): { inspections: Inspection[]; more: boolean } {
    const texts = this.#page.all({ bed, after: after ?? null, most: limit + 1 }) as string[];
    const inspections = texts.slice(0, limit).map((text) => JSON.parse(text) as Inspection);
    return { inspections, more: texts.length > limit };
  }

  /** When the bed was opened last, at that time or later, ms. */
  openedAt(bed: string, from: number): number | undefined {
    return (this.#openedAt.get(bed, from) as number | null) ?? undefined;
  }

  latest(bed: string): Inspection | null {
    const text = this.#latest.get(bed) as string | undefined;
    return text === undefined ? null : (JSON.parse(text) as Inspection);
  }

  /** Event time of the bed's newest inspection, ms. */
  newestAt(bed: string): number | undefined {
    return (this.#newest.get(bed) as number | null) ?? undefined;
  }
}
