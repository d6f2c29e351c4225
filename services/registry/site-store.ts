/**
 * Site descriptions at rest. Loading adds and updates; nothing is ever taken away, and every earlier version of
 * an entry stays.
 */
import { SandlarderError } from '../core/errors.js';
import type { Filling } from '../core/model/filling.js';
import { type Bed, type Probe, type SiteDescription, siteDescriptionSchema } from '../core/model/site.js';
import { parseTime } from '../core/model/time.js';
import type { Database } from './database.js';
import { filledOtherwise, withRecorded } from './filled-site.js';
import { documentOf, usable } from './site-document.js';

const LISTS = { bed: 'beds', probe: 'probes', person: 'people', group: 'groups' } as const;
type ListKind = keyof typeof LISTS;

export interface Loaded {
  readonly site: string;
  /** By kind (`site`, `bed`, `probe`, `person`): how many are new, changed, and as they were. */
  readonly counts: Readonly<Record<string, { added: number; changed: number; same: number }>>;
  /** Beds that the description says were filled at another time than was written down at the bed, which stands. */
  readonly filledOtherwise: readonly { readonly bed: string; readonly at: number }[];
}

export class SiteStore {
  readonly #database: Database;
  readonly #newest;
  readonly #all;
  readonly #add;
  readonly #revision;
  readonly #addRevision;
  readonly #firstLoaded;
  readonly #fillings;
  readonly #firstFilled;

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
    this.#addRevision = database.prepare(
      'INSERT INTO revision (revision, loaded_at, changed_by) VALUES (?, ?, ?)',
    );
    this.#firstLoaded = database
      .prepare(
        `SELECT min(loaded_at) FROM entity JOIN revision USING (revision)
         WHERE kind = 'probe' AND site = ? AND id = ?`,
      )
      .pluck();
    // Texts of one form, in UTC: the first in the alphabet is the earliest.
    this.#firstFilled = database
      .prepare("SELECT min(document ->> '$.filled') FROM entity WHERE kind = 'bed' AND id = ?")
      .pluck();
    this.#fillings = database.prepare('SELECT document FROM filling WHERE site = ?').pluck();
  }

  /** Grows whenever a description was loaded, by this process or another. */
  revision(): number {
    return this.#revision.get() as number;
  }

  /**
   * Takes in a description, whole or not at all. What was recorded at the beds when they were filled stands.
   *
   * @param at wall clock, ms
   * @param by who changed it; null where a file was loaded by the command
   * @throws SandlarderError CONFLICT where one of its beds belongs to another site already, or no longer holds a probe
   * that was buried in it
   */
  load(description: SiteDescription, at: number, by: string | null = null): Loaded {
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
        const fillings = this.#fillingsOf(site);
        const standing = { ...description, ...this.#standing(description, fillings) };
        for (const [kind, list] of Object.entries(LISTS))
          for (const entry of standing[list]) keep(kind, entry.id, entry);
        this.#addRevision.run(revision, at, by);
        return { site, counts, filledOtherwise: filledOtherwise(description, fillings) };
      })
      .immediate();
  }

  /**
   * Takes what the recorded fillings make of a site's description into it, as a version of its own.
   *
   * @param at wall clock, ms
   * @param by who wrote the filling down
   */
  applyFillings(site: string, at: number, by: string | null = null): void {
    const description = this.descriptions().find((one) => one.site.id === site);
    if (!description) return;
    const { beds, probes } = this.#standing(description, this.#fillingsOf(site));
    const revision = this.revision() + 1;
    for (const bed of beds) this.#keep('bed', site, bed.id, revision, documentOf(bed));
    for (const probe of probes) this.#keep('probe', site, probe.id, revision, documentOf(probe));
    this.#addRevision.run(revision, at, by);
  }

  #fillingsOf(site: string): Filling[] {
    return (this.#fillings.all(site) as string[]).map((text) => JSON.parse(text) as Filling);
  }

  #standing(description: SiteDescription, fillings: readonly Filling[]): { beds: Bed[]; probes: Probe[] } {
    if (fillings.length === 0) return { beds: description.beds, probes: description.probes };
    const known = this.descriptions().find(({ site }) => site.id === description.site.id);
    return withRecorded(description, fillings, known?.beds ?? []);
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

  /** The earliest time at which any description has said that a bed was filled, ms. */
  firstFilledAt(bed: string): number | undefined {
    const text = this.#firstFilled.get(bed) as string | null;
    return text === null ? undefined : parseTime(text);
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
