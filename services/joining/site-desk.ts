/**
 * Site descriptions as people read and change them. A change is a new version of an entry, checked as a file is that is
 * loaded; whoever changes says which version they saw, so that nobody writes over what another has changed.
 */
import { SandlarderError } from '../core/errors.js';
import { type Move, placementsAfter } from '../core/model/moving.js';
import { type Probe, probeSchema, type SiteDescription } from '../core/model/site.js';
import { formatTime } from '../core/model/time.js';
import type {
  ChangedView,
  DescribedView,
  EntryName,
  Expected,
  SiteEntry,
  SiteView,
  TakenView,
} from '../http/index.js';
import { type Loaded, siteFileOf } from '../registry/index.js';
import { requireCome } from './known-bed.js';
import { requireExpected, requireExpectedSite } from './site-expected.js';
import { type Surroundings, whatFollows } from './site-follows.js';
import { entryOf, pieceWith, requireFitting, requireFittingPiece } from './site-pieces.js';
import type { Station } from './station.js';

export interface SiteDeskParts extends Surroundings {
  readonly station: Station;
  /** Wall clock, ms. */
  readonly now: () => number;
}

export class SiteDesk {
  readonly #parts: SiteDeskParts;

  constructor(parts: SiteDeskParts) {
    this.#parts = parts;
  }

  list(): SiteView[] {
    return this.#sites.descriptions().map(({ site, beds, probes, people, groups }) => ({
      ...{ id: site.id, name: site.name, timezone: site.timezone, version: this.#versionOf(site.id) },
      ...{ beds: beds.length, probes: probes.length, people: people.length, groups: groups.length },
    }));
  }

  description(site: string): DescribedView {
    return { document: siteFileOf(this.known(site)), version: this.#versionOf(site) };
  }

  entry(name: EntryName): DescribedView {
    const entry = entryOf(this.known(name.site), name);
    const version = this.#versions.ofEntry(name.kind, name.site, name.id);
    if (!entry || version === undefined)
      throw new SandlarderError('NOT_FOUND', `site "${name.site}": no ${name.kind} has the id "${name.id}"`);
    return { document: siteFileOf(entry), version };
  }

  take(by: string, description: SiteDescription, expected: Expected): TakenView {
    const { station } = this.#parts;
    return station.inTransaction(() => {
      const site = description.site.id;
      const known = this.#sites.descriptions().find((one) => one.site.id === site);
      requireExpectedSite(this.#versions, site, expected);
      requireFitting(description, known);
      const { loaded, follows } = this.#load(description, by);
      const version = this.#versionOf(site);
      return { site, version, isNew: known === undefined, counts: loaded.counts, follows };
    });
  }

  change(name: EntryName, by: string, entry: SiteEntry, expected: Expected): ChangedView {
    return this.#parts.station.inTransaction(() => this.#change(name, by, entry, expected));
  }

  /** In a transaction of the caller. */
  #change(name: EntryName, by: string, entry: SiteEntry, expected: Expected): ChangedView {
    const known = this.known(name.site);
    const standing = entryOf(known, name);
    // What is so already need not be done [RFC 9110 13.1.1]: an answer that was lost on its way is asked for again.
    if (standing && textOf(standing) === textOf(entry))
      return { ...this.entry(name), isNew: false, isChanged: false, follows: [] };
    requireExpected(this.#versions, name, expected);
    const piece = pieceWith(known, name.kind, entry);
    requireFittingPiece(piece, known, name.kind);
    const { loaded, follows } = this.#load(piece, by);
    const { added = 0, changed = 0 } = loaded.counts[name.kind] ?? {};
    return { ...this.entry(name), isNew: added > 0, isChanged: added + changed > 0, follows };
  }

  move(site: string, id: string, move: Move, expected: Expected): ChangedView {
    const { station, now } = this.#parts;
    return station.inTransaction(() => {
      requireCome(move.from, now(), 'from');
      this.#requireOffBench(site, id, move);
      const name = { site, kind: 'probe', id } as const;
      const standing = (entryOf(this.known(site), name) as Probe | undefined) ?? { id, placements: [] };
      // Told before anything else: a time that no longer follows comes of what another has changed.
      requireExpected(this.#versions, name, expected);
      const placements = placementsAfter(standing.placements, move);
      // Read anew, so that keys stand in the order of the schema as those of what is kept do.
      const moved = probeSchema.parse(siteFileOf({ ...standing, placements }));
      const view = this.#change(name, move.by, moved, expected);
      if (JSON.stringify(view.document) !== textOf(moved)) throw buriedElsewhere(id, view.document);
      return view;
    });
  }

  /** @throws SandlarderError NOT_FOUND */
  known(site: string): SiteDescription {
    const known = this.#sites.descriptions().find((one) => one.site.id === site);
    if (!known) throw new SandlarderError('NOT_FOUND', `no site has the id "${site}"`);
    return known;
  }

  #load(description: SiteDescription, by: string): { loaded: Loaded; follows: string[] } {
    const { station, now } = this.#parts;
    const before = station.directory;
    const loaded = this.#sites.load(description, now(), by);
    station.refresh();
    return { loaded, follows: whatFollows(this.#parts, { before, loaded, description, now: now() }) };
  }

  #requireOffBench(site: string, id: string, move: Move): void {
    const since = this.#parts.station.benchSince(site, id);
    if (since === undefined || 'out' in move) return;
    throw new SandlarderError(
      'CONFLICT',
      `probe "${id}": expected one that lies on no bench, got one that is on a bench since ${formatTime(since)}: finish or give up the bench first`,
    );
  }

  get #sites() {
    return this.#parts.station.registry.sites;
  }

  get #versions() {
    return this.#parts.station.registry.siteVersions;
  }

  #versionOf(site: string): number {
    return this.#versions.ofSite(site) ?? 0;
  }
}

const textOf = (entry: unknown): string => JSON.stringify(siteFileOf(entry));

/** What was written down when a bed was filled stands against a move within a day of it. */
function buriedElsewhere(id: string, document: unknown): SandlarderError {
  const { placements = [] } = document as { placements?: readonly unknown[] };
  return new SandlarderError(
    'CONFLICT',
    `probe "${id}": expected a move a day or more after the filling at which it was buried, got one within a day, where the filling stands (${JSON.stringify(placements.at(-1))}): replace the filling by a corrected one`,
  );
}
