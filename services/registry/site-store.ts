/**
 * Site descriptions at rest. Loading adds and updates; nothing is ever taken away, and every earlier version of
 * an entry stays.
 */
import { SandlarderError } from '../core/errors.js';
import { LANGUAGE_CODES } from '../core/model/languages.js';
import { reachSchema } from '../core/model/people.js';
import { type SiteDescription, siteDescriptionSchema } from '../core/model/site.js';
import { formatTime } from '../core/model/time.js';
import type { Database } from './database.js';

const LISTS = { bed: 'beds', probe: 'probes', person: 'people', group: 'groups' } as const;
type ListKind = keyof typeof LISTS;

export interface Loaded {
  readonly site: string;
  /** By kind (`site`, `bed`, `probe`, `person`): how many are new, changed, and as they were. */
  readonly counts: Readonly<Record<string, { added: number; changed: number; same: number }>>;
}

/** JSON text of an entry as a site file has it: times as text, keys in the order of the schema. */
function documentOf(entry: unknown): string {
  return JSON.stringify(entry, (key, value) =>
    (key === 'from' || key === 'to' || key === 'filled') && typeof value === 'number'
      ? formatTime(value)
      : value,
  );
}

/** Of a person as an earlier version took them: what can no longer be used is left out, so that a service still starts. */
function usable(person: { language?: string; reach?: readonly unknown[] }): unknown {
  const [language = ''] = (person.language ?? 'en').toLowerCase().split(/[-_]/);
  const isKnown = (LANGUAGE_CODES as readonly string[]).includes(language);
  return {
    ...person,
    ...(!isKnown && { language: 'en' }),
    reach: (person.reach ?? []).filter((way) => reachSchema.safeParse(way).success),
  };
}

export class SiteStore {
  readonly #database: Database;
  readonly #newest;
  readonly #all;
  readonly #add;
  readonly #revision;
  readonly #addRevision;
  readonly #firstLoaded;

  constructor(database: Database) {
    this.#database = database;
    this.#newest = database
      .prepare(
        'SELECT document FROM entity WHERE kind = ? AND site = ? AND id = ? ORDER BY revision DESC LIMIT 1',
      )
      .pluck();
    this.#all = database.prepare(
      `SELECT kind, site, id, document FROM entity AS one
       WHERE revision = (SELECT max(revision) FROM entity WHERE kind = one.kind AND site = one.site AND id = one.id)
       ORDER BY site, kind, id`,
    );
    this.#add = database.prepare(
      'INSERT INTO entity (kind, site, id, revision, document) VALUES (?, ?, ?, ?, ?)',
    );
    this.#revision = database.prepare('SELECT coalesce(max(revision), 0) FROM revision').pluck();
    this.#addRevision = database.prepare('INSERT INTO revision (revision, loaded_at) VALUES (?, ?)');
    this.#firstLoaded = database
      .prepare(
        `SELECT min(loaded_at) FROM entity JOIN revision USING (revision)
         WHERE kind = 'probe' AND site = ? AND id = ?`,
      )
      .pluck();
  }

  /** Grows whenever a description was loaded, by this process or another. */
  revision(): number {
    return this.#revision.get() as number;
  }

  /**
   * Takes in a description, whole or not at all.
   *
   * @param at wall clock, ms
   * @throws SandlarderError CONFLICT where one of its beds belongs to another site already
   */
  load(description: SiteDescription, at: number): Loaded {
    return this.#database
      .transaction(() => {
        this.#refuseForeignBeds(description);
        const site = description.site.id;
        const revision = this.revision() + 1;
        const counts: Record<string, { added: number; changed: number; same: number }> = {};
        const keep = (kind: string, id: string, entry: unknown): void => {
          counts[kind] ??= { added: 0, changed: 0, same: 0 };
          counts[kind][this.#keep(kind, site, id, revision, documentOf(entry))] += 1;
        };
        keep('site', site, description.site);
        for (const [kind, list] of Object.entries(LISTS))
          for (const entry of description[list]) keep(kind, entry.id, entry);
        this.#addRevision.run(revision, at);
        return { site, counts };
      })
      .immediate();
  }

  #keep(
    kind: string,
    site: string,
    id: string,
    revision: number,
    document: string,
  ): 'added' | 'changed' | 'same' {
    const before = this.#newest.get(kind, site, id) as string | undefined;
    if (before === document) return 'same';
    this.#add.run(kind, site, id, revision, document);
    return before === undefined ? 'added' : 'changed';
  }

  /** Beds are addressed by their id alone, so one id is one bed in the whole data directory. */
  #refuseForeignBeds(description: SiteDescription): void {
    const holder = this.#database
      .prepare("SELECT site FROM entity WHERE kind = 'bed' AND id = ? AND site <> ? LIMIT 1")
      .pluck();
    description.beds.forEach((bed, index) => {
      const other = holder.get(bed.id, description.site.id) as string | undefined;
      if (other !== undefined)
        throw new SandlarderError(
          'CONFLICT',
          `beds[${index}].id: expected an id that no other site uses, got "${bed.id}", which is a bed of site "${other}"`,
        );
    });
  }

  /** When a probe was described first, wall clock, ms; undefined where it never was. */
  firstLoadedAt(site: string, probe: string): number | undefined {
    return (this.#firstLoaded.get(site, probe) as number | null) ?? undefined;
  }

  /** Every site as it stands now. */
  descriptions(): SiteDescription[] {
    const sites = new Map<string, { site: unknown } & Record<(typeof LISTS)[ListKind], unknown[]>>();
    const rows = this.#all.all() as { kind: string; site: string; document: string }[];
    for (const row of rows) {
      const entry = sites.get(row.site) ?? { site: undefined, beds: [], probes: [], people: [], groups: [] };
      sites.set(row.site, entry);
      const document: unknown =
        row.kind === 'person' ? usable(JSON.parse(row.document)) : JSON.parse(row.document);
      if (row.kind === 'site') entry.site = document;
      else entry[LISTS[row.kind as ListKind]].push(document);
    }
    return [...sites.values()].map((entry) => siteDescriptionSchema.parse({ version: 1, ...entry }));
  }
}
