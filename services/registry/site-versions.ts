/** Versions of site descriptions: which one each entry stands at, and who changed what when. */
import type { Database } from './database.js';

export type EntryKind = 'site' | 'bed' | 'probe' | 'person' | 'group';

/** A version of an entry that came to stand. */
export interface SiteChange {
  readonly version: number;
  /** Wall clock, ms. */
  readonly at: number;
  /** Null where a file was loaded by the command. */
  readonly by: string | null;
  readonly kind: EntryKind;
  readonly id: string;
  readonly isNew: boolean;
}

export class SiteVersionStore {
  readonly #ofEntry;
  readonly #ofSite;
  readonly #changes;
  readonly #change;

  constructor(database: Database) {
    this.#ofEntry = database
      .prepare('SELECT max(revision) FROM entity WHERE kind = ? AND site = ? AND id = ?')
      .pluck();
    this.#ofSite = database.prepare('SELECT max(revision) FROM entity WHERE site = ?').pluck();
    const columns = `one.revision AS version, loaded_at AS at, changed_by AS "by", kind, id,
      NOT EXISTS (SELECT 1 FROM entity WHERE kind = one.kind AND site = one.site AND id = one.id
        AND revision < one.revision) AS isNew`;
    this.#changes = database.prepare(
      `SELECT ${columns} FROM entity AS one JOIN revision USING (revision) WHERE site = ?
       ORDER BY one.revision DESC, kind, id LIMIT ?`,
    );
    this.#change = database.prepare(
      `SELECT ${columns} FROM entity AS one JOIN revision USING (revision) WHERE kind = ? AND site = ? AND id = ?
       ORDER BY one.revision DESC LIMIT 1`,
    );
  }

  /** The version that an entry stands at; undefined where there is none. */
  ofEntry(kind: EntryKind, site: string, id: string): number | undefined {
    return (this.#ofEntry.get(kind, site, id) as number | null) ?? undefined;
  }

  /** The version that a site as a whole stands at; undefined where there is none. */
  ofSite(site: string): number | undefined {
    return (this.#ofSite.get(site) as number | null) ?? undefined;
  }

  /** What changed of a site, newest first. */
  changes(site: string, limit: number): SiteChange[] {
    return this.#changes.all(site, limit).map(changeOf);
  }

  /** The last change of an entry. */
  lastChange(kind: EntryKind, site: string, id: string): SiteChange | undefined {
    const row = this.#change.get(kind, site, id);
    return row === undefined ? undefined : changeOf(row);
  }
}

const changeOf = (row: unknown): SiteChange => {
  const change = row as Omit<SiteChange, 'isNew'> & { isNew: number };
  return { ...change, isNew: change.isNew === 1 };
};
